"""Debts: what went from one job to another and did not come back; open in both jobs."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import DEBT, Lack, ToDo, Where, at_place, lack, of_part
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.places.hardware import GOODS


def part_debts(job: Job, part: str) -> Iterator[Lack]:
    """One lack while a part was handed or taken over and not given back."""
    where = of_part(job, part)
    return _debts(job, part, where, part_named(job, part, where.position))


def hardware_debts(job: Job, position: Position) -> Iterator[Lack]:
    """The same for counted hardware of a place."""
    return _debts(job, position_thing(position.key), at_place(position.key), named(job, position.key))


def _debts(job: Job, thing: str, where: Where, name: str) -> Iterator[Lack]:
    gave, took = job.entries(thing, "handed_over"), job.entries(thing, "taken_over")
    back = job.entries(thing, "given_back")
    owed = sum(one.value.quantity for one in (*gave, *took)) - sum(one.value.quantity for one in back)
    if owed <= 0:
        return
    other = ", ".join(sorted({one.value.job for one in (*gave, *took)}))
    ground = [one for one in job.about(thing) if one.typ in GOODS]
    went = "went to" if gave else "came from"
    wrong = f"{name}: {owed} {went} job {other}, and nothing was given back for it."
    yield lack(DEBT, where, wrong, to_do=ToDo("part give-back", thing), ground=ground)
