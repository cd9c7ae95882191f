"""What stands against fitting another unit where something was left in, or fitted into, the one before."""

from __future__ import annotations

from collections.abc import Container, Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import OVER, Lack, ToDo, at_place, lack, taking_out
from teardown_app.domain.ledger.kinds.job import UNIT
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.filling import Lost, holder, would_go_along
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.places.place import asks_something, left_in
from teardown_app.domain.places.scope import scope_of, would_stay_left

CLEARS = "Say that it came with this one; or that it is received complete, and fill it first."


def against_another_unit(job: Job, part: str, position: Position, brought: Container[str]) -> Iterator[Lack]:
    """What was left in the unit before, came with it or was fitted into it would be asked as soon as another one lies
    over it: a person says first how it is with this one. `brought` are places that came with it."""
    for each in job.beneath(position.key):
        if any(one in brought for one in (each.key, *job.ancestors(each.key))):
            continue
        if unit := would_go_along(job, each.key, position.key, part):
            yield _goes_along(job, position, each.key, unit)
        elif left_in(job, each.key) and asks_something(job, each):
            yield from _left(job, part, position, each.key)


def _left(job: Job, part: str, position: Position, key: str) -> Iterator[Lack]:
    """What was left in another unit, or came with it."""
    if would_stay_left(job, key, position.key, part):
        return
    word = "came with" if scope_of(job, key).word == UNIT else "was left fitted in"
    wrong = f"{named(job, position.key)} closes over {named(job, key)}, which {word} another unit."
    to_do = ToDo("job received", position_thing(key))
    yield lack(OVER, at_place(position.key), wrong, to_do=to_do, which=key, clears=CLEARS)


def _goes_along(job: Job, position: Position, key: str, unit: Lost) -> Lack:
    """What sits beneath was fitted when another unit was there, or was put together for this place."""
    inside, name = holder(job, key), part_named(job, unit.part)
    wrong = (
        f"{named(job, position.key)} closes over {named(job, key)}: {part_named(job, inside)} was fitted into {name}."
    )
    if not all(unit.ends):
        clears, to_do = f"Say first what becomes of {name}, or where it goes.", ToDo("part judge", unit.part)
    else:
        clears, to_do = "Take it out; fit it once more if it is in this one.", taking_out(inside, key)
    return lack(OVER, at_place(position.key), wrong, to_do=to_do, which=key, clears=clears)
