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
from teardown_app.domain.parts.filling import holder
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.place import nearest_over, wants_a_part
from teardown_app.domain.places.scope import said_of


def hole_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """One lack of a place in scope that no part fills: of the place, or, where something lies over it and nobody
    conceded that it stays empty, of the nearest thing over it."""
    if not is_hole(job, position):
        return
    key, over = position.key, nearest_over(job, position.key)
    to_do, wrong = ToDo("part fit", position_thing(key)), f"{why_again(job, key)}{named(job, key)} is not fitted."
    missing = lack(MISSING, at_place(key), wrong, to_do=to_do, ground=lambda: _ground(job, key))
    yield _over_empty(job, key, over) if over and not conceded(job, missing) else missing


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
