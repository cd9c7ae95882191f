"""Questions about a place for a part: what goes in, what keeps a set, what it closes over."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.filling import holder
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import (
    is_new,
    out_of,
)


def filled_heads(job: Job, key: str) -> tuple[Entry, ...]:
    """Fittings and takings-out of a place that nobody replaced."""
    return job.heads(position_thing(key), "filled")


def fits_place(job: Job, position: Position, part_number: str) -> bool:
    """Does a part number go into a place, as the bill says? Into an added place: its own number."""
    if position.key not in job.bill.positions:
        return part_number == position.line.part_number
    return job.bill.fits(position.key, part_number)


def keeps_set(job: Job, position: Position, part: str) -> bool:
    """In a matched set only the part that was there, or a complete new set under one mark."""
    if out_of(job, part) == position.key:
        return True
    members = [holder(job, one.key) for one in job.bill.matched(position.key)]
    marks = {job.value(one, "set_mark", "") for one in members if one}
    new = all(one and is_new(job, one) for one in members)
    return new and len(marks) == 1 and marks != {""}


def covered_places(job: Job, position: Position) -> list[str]:
    """Places that a part closes over once it is in: by the bill's order, and all beneath an assembly."""
    keys = list(job.bill.closes_over(position.key)) if position.key in job.bill.positions else []
    return keys + [one.key for one in job.beneath(position.key) if one.key not in keys]
