"""Holds: on a part, or on a place."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.ground import records_of
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import HOLD, Lack, ToDo, Where, at_place, lack, of_part
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.claiming import places_of
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.parts import disposition_of, open_holds, why_of

OUT_OF_USE = ("scrap", "spare")
"""Dispositions of parts on which nobody waits for a hold any more."""


def part_holds(job: Job, part: str) -> Iterator[Lack]:
    """Open holds on a part, but not on one that is scrap or spare and claims no place."""
    if disposition_of(job, part) in OUT_OF_USE and not places_of(job, part):
        return
    yield from every_hold(job, part)


def every_hold(job: Job, part: str) -> Iterator[Lack]:
    """Open holds on a part, whatever is to become of it: it is not released with one."""
    where = of_part(job, part)
    return _holds(job, part, where, part_named(job, part, where.position))


def place_holds(job: Job, position: Position) -> Iterator[Lack]:
    """Open holds on a place."""
    return _holds(job, position_thing(position.key), at_place(position.key), named(job, position.key))


def _holds(job: Job, thing: str, where: Where, name: str) -> Iterator[Lack]:
    for hold in open_holds(job, thing):
        wrong = f"{name} is on hold: {why_of(job, hold).rstrip('.')}."
        ground = records_of([hold, *job.ever(hold.value, "lifted")])
        yield lack(HOLD, where, wrong, to_do=ToDo("part lift", thing), ground=ground, which=hold.value)
