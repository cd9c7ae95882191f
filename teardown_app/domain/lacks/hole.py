"""An empty place: missing, or closed over by something that was fitted too early. One hole is one lack."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.again import why_again
from teardown_app.domain.lacks.lack import MISSING, OVER_EMPTY, Lack, ToDo, at_place, conceded, lack, taking_out
from teardown_app.domain.lacks.twice import is_twice_at
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.parts.claiming import claims_of
from teardown_app.domain.parts.conceding import standing_concessions
from teardown_app.domain.parts.filling import gone_along, holder, lost_with
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.places.place import nearest_over, wants_a_part
from teardown_app.domain.places.scope import said_of


def hole_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """One lack of a place in scope that no part fills: of the place, or, where something lies over it and nobody
    conceded that it stays empty, of the nearest thing over it."""
    if not is_hole(job, position):
        return
    over, missing = nearest_over(job, position.key), _missing(job, position.key)
    yield _over_empty(job, position.key, over) if over and not conceded(job, missing) else missing


def _missing(job: Job, key: str) -> Lack:
    to_do, clears, wrong = ToDo("part fit", position_thing(key)), "", f"{named(job, key)} is not fitted."
    if part := gone_along(job, key):
        unit, name = part_named(job, lost_with(job, _last_fitting(job, key), key)), part_named(job, part)
        to_do, wrong = taking_out(part, key), f"{named(job, key)} is not fitted: {name} was in {unit}, which is gone."
        clears = f"Fit {name} once more if it is in the unit there now, else take it out and fit another."
    wrong = f"{why_again(job, key)}{wrong}"
    return lack(MISSING, at_place(key), wrong, to_do=to_do, ground=lambda: _ground(job, key), clears=clears)


def _last_fitting(job: Job, key: str) -> Record:
    return job.heads(position_thing(key), "filled")[-1].record


def stays_empty(job: Job, position: Position, *, by_office: bool) -> bool:
    """Did somebody (of the office) concede that a place where one part has to sit stays empty?"""
    if not is_hole(job, position):
        return False
    key = position.key
    found = standing_concessions(job, MISSING, key, "", lambda: _ground(job, key), position_thing(key))
    return any(job.had_right(one.record, "office") for one in found) if by_office else bool(found)


def is_hole(job: Job, position: Position) -> bool:
    """True for a place in scope where one part has to sit and none does, unless it was fitted twice."""
    key = position.key
    return not holder(job, key) and wants_a_part(job, position) and not is_twice_at(job, key)


def _over_empty(job: Job, key: str, over: str) -> Lack:
    name, part = named(job, over), holder(job, over)
    return lack(
        OVER_EMPTY,
        at_place(over, part),
        f"{why_again(job, key)}{name} is fitted, but {named(job, key)} beneath it is empty.",
        to_do=taking_out(part, over),
        ground=lambda: [*_ground(job, over), *_ground(job, key)],
        which=key,
        clears=f"Take {name} out and fill {named(job, key)} first.",
    )


def _ground(job: Job, key: str) -> list[Record]:
    """Claims and said of a place."""
    return [*claims_of(job, key), *said_of(job, key)]
