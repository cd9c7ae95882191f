"""Questions about a place: what is asked of it, what goes in, what keeps a set, what it closes over."""

from __future__ import annotations

from collections.abc import Container, Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.parts.filling import goes_in_as_one, holder
from teardown_app.domain.parts.parts import is_new, out_of
from teardown_app.domain.places.closing_over import closed_by, closes_over, over, under
from teardown_app.domain.places.scope import scope_of


def is_asked(job: Job, key: str) -> bool:
    """True where something is asked of a place itself before the tool runs: a part, screws, a seal, or to look
    whether something is still in."""
    return scope_of(job, key).counts == "in" and asks_something(job, job.positions[key])


def asks_something(job: Job, position: Position) -> bool:
    """The same, whatever is said of the place."""
    if position.line.kind == "hardware":
        return bool(position.count)
    return position.line.kind in ("consumable", "temporary") or goes_in_as_one(job, position)


def left_in(job: Job, key: str) -> bool:
    """True where what was found stayed in its place."""
    return scope_of(job, key).counts == "left"


def wants_a_part(job: Job, position: Position) -> bool:
    """True for a place in scope where one part has to sit."""
    return goes_in_as_one(job, position) and scope_of(job, position.key).counts == "in"


def is_filled(job: Job, position: Position) -> bool:
    """True where nothing is missing at this place and, for an assembly in scope, anywhere beneath it."""
    if scope_of(job, position.key).counts != "in":
        return True
    own = not wants_a_part(job, position) or bool(holder(job, position.key))
    return own and not any(wants_a_part(job, one) and not holder(job, one.key) for one in job.beneath(position.key))


def nearest_over(job: Job, key: str) -> str:
    """The nearest thing over a place, empty where there is none: up from it step by step, through what no part fills,
    to the first step on which places are filled; of several the first of the bill."""
    step, passed = [key], {key}
    while step:
        above = list(dict.fromkeys(one for each in step for one in over(job, each)))
        filled = [one for one in above if holder(job, one)]
        if filled:
            return min(filled, key=job.order.__getitem__)
        step = [one for one in above if one not in passed]
        passed.update(step)
    return ""


def fits_place(job: Job, position: Position, part_number: str) -> bool:
    """Does a part number go into a place, as the bill says? Into an added place: its own number."""
    if position.key not in job.bill.positions:
        return part_number == position.line.part_number
    return job.bill.fits(position.key, part_number)


def set_of(job: Job, key: str) -> list[str]:
    """Places of a place's matched set, itself among them; none without a set."""
    return [one.key for one in job.bill.matched(key)] if key in job.bill.positions else []


def keeps_set(job: Job, position: Position, part: str) -> bool:
    """In a matched set only the part that was there, or a complete new set under one mark."""
    if out_of(job, part) == position.key:
        return True
    members = [holder(job, key) for key in set_of(job, position.key)]
    marks = {job.value(one, "set_mark", "") for one in members if one}
    new = all(one and is_new(job, one) for one in members)
    return new and len(marks) == 1 and marks != {""}


def covered_places(job: Job, position: Position) -> list[str]:
    """Places that a part closes over once it is in: by the bill's order, and all beneath an assembly."""
    keys = closes_over(job, position.key)
    return list(dict.fromkeys([*keys, *(one.key for one in job.beneath(position.key))]))


NOTHING: frozenset[str] = frozenset()


def unfilled_under(job: Job, key: str, filled: Container[str] = NOTHING) -> list[str]:
    """The way back: places under a place, step by step down through what no part fills. What fills this place is the
    nearest thing over some of these, or over all. `filled` are places that parts fill by the same act."""
    step, found = [key], dict[str, None]()
    while step:
        below = [one for each in step for one in under(job, each) if one not in filled and not holder(job, one)]
        step = [one for one in dict.fromkeys(below) if one not in found]
        found.update(dict.fromkeys(step))
    return list(found)


def empty_beneath(
    job: Job, position: Position, filled: Container[str] = NOTHING, left: Container[str] = NOTHING
) -> list[str]:
    """Empty places that a part would close over here, in order. `filled` and what hangs beneath `left`
    count as filled: they go in by the same act, or come with the unit."""
    found: dict[str, None] = {}
    for key in covered_places(job, position):
        found.update(dict.fromkeys(_empty(job, job.positions[key], filled, left)))
    return list(found)


def _empty(job: Job, position: Position, filled: Container[str], left: Container[str]) -> Iterator[str]:
    if position.line.kind not in ("assembly", "part") or scope_of(job, position.key).counts != "in":
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
        found.update(dict.fromkeys(closed_by(job, key)))
        if key != position.key:
            found[key] = None
    return [key for key in found if key in filled or holder(job, key)]
