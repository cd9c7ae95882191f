"""Questions about a place for a part: what goes in, what keeps a set, what it closes over."""

from __future__ import annotations

from collections.abc import Container, Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.filling import goes_in_as_one, holder, places_of, sides
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


NOTHING: frozenset[str] = frozenset()


def claims(job: Job, key: str) -> list[str]:
    """Parts that a place and the part itself say are in it: it takes no other one before these are out."""
    return [part for part in sides(job, key) if key in places_of(job, part)]


def empty_beneath(
    job: Job, position: Position, filled: Container[str] = NOTHING, left: Container[str] = NOTHING
) -> list[str]:
    """Empty places that a part would close over here, in order. `filled` and what hangs beneath `left`
    count as filled: they go in by the same act, or come with the unit."""
    found: dict[str, None] = {}
    for key in covered_places(job, position):
        if key in job.positions:
            found.update(dict.fromkeys(_empty(job, job.positions[key], filled, left)))
    return list(found)


def _empty(job: Job, position: Position, filled: Container[str], left: Container[str]) -> Iterator[str]:
    if job.scope(position.key).counts != "in" or position.line.kind not in ("assembly", "part"):
        return
    if position.key in left or any(one in left for one in job.ancestors(position.key)):
        return
    if position.key not in filled and goes_in_as_one(job, position) and not holder(job, position.key):
        yield position.key
    for child in job.children(position.key):
        yield from _empty(job, child, filled, left)


def in_the_way(job: Job, position: Position, filled: Container[str] = NOTHING) -> list[str]:
    """Places whose parts close over this one already: they come out first. The last one fitted on top
    of others is not told apart; all are named, nearest first."""
    found: dict[str, None] = {}
    for key in [position.key, *job.ancestors(position.key)]:
        if key in job.bill.positions:
            found.update(dict.fromkeys(job.bill.closed_by(key)))
        if key != position.key:
            found[key] = None
    return [key for key in found if key in filled or holder(job, key)]
