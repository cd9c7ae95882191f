"""What can go in now: empty places of which everything they close over is filled.

Also which empty places have to be filled before a part closes over them, and which parts have to come
out before a place can be reached. A list worked out from the state; nothing is kept.
"""

from __future__ import annotations

from collections.abc import Container, Iterator
from typing import NamedTuple

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.release import is_released
from teardown_app.domain.nouns.filling import GONE, goes_in_as_one, handed_over, holder, places_of, sides
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import disposition_of, own_place, parts
from teardown_app.domain.nouns.place import covered_places

NOTHING: frozenset[str] = frozenset()


class NextIn(NamedTuple):
    """A place that can be filled now, the part meant for it (empty while none is known), where that part
    is put, and whether it is released."""

    key: str
    part: str
    where: str
    released: bool


def next_in(job: Job) -> list[NextIn]:
    """Places that can be filled now, in the order of the bill; for each every part meant for it."""
    meant = meant_parts(job)
    return [
        one
        for position in job.positions.values()
        if can_go_in(job, position)
        for one in _offers(job, position, meant.get(position.key, []))
    ]


def can_go_in(job: Job, position: Position) -> bool:
    """True for an empty place in scope that can be reached and closes over nothing empty."""
    if job.scope(position.key).counts != "in" or not goes_in_as_one(job, position):
        return False
    if claims(job, position.key) or empty_beneath(job, position):
        return False
    return not in_the_way(job, position)


def claims(job: Job, key: str) -> list[str]:
    """Parts that a place and the part itself say are in it: it takes no other one before these are out."""
    return [part for part in sides(job, key) if key in places_of(job, part)]


def _offers(job: Job, position: Position, meant: list[str]) -> list[NextIn]:
    if not meant:
        return [NextIn(position.key, "", "", False)]
    return [
        NextIn(position.key, part, str(job.value(part, "place", "") or ""), is_released(job, part)) for part in meant
    ]


def meant_parts(job: Job) -> dict[str, list[str]]:
    """Parts that are to go in, by the place each is meant for."""
    found: dict[str, list[str]] = {}
    for part in parts(job):
        if places_of(job, part) or disposition_of(job, part) in GONE or handed_over(job, part):
            continue
        found.setdefault(own_place(job, part), []).append(part)
    return found


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
