"""Holds: on a part, or on a place."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.lack import HOLD, Lack, ToDo, Where, at_place, lack, of_part
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named, part_named
from teardown_app.domain.nouns.parts import open_holds, why_of


def part_holds(job: Job, part: str) -> Iterator[Lack]:
    """Open holds on a part."""
    where = of_part(job, part)
    return _holds(job, part, where, part_named(job, part, where.position))


def place_holds(job: Job, position: Position) -> Iterator[Lack]:
    """Open holds on a place."""
    return _holds(job, position_thing(position.key), at_place(position.key), named(job, position.key))


def _holds(job: Job, thing: str, where: Where, name: str) -> Iterator[Lack]:
    for hold in open_holds(job, thing):
        wrong = f"{name} is on hold: {why_of(job, hold).rstrip('.')}."
        yield lack(HOLD, where, wrong, to_do=ToDo("part lift", thing), ground=refs([hold]), which=hold.value)
