"""What stands against fitting another unit where something was left in one that is gone."""

from __future__ import annotations

from collections.abc import Container, Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import OVER, Lack, ToDo, at_place, lack
from teardown_app.domain.ledger.kinds.job import UNIT
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.place import asks_something, left_in
from teardown_app.domain.places.scope import scope_of, would_stay_left

CLEARS = "Say that it came with this one; or that it is received complete, and fill it first."


def against_another_unit(job: Job, part: str, position: Position, brought: Container[str]) -> Iterator[Lack]:
    """What was left in the unit before, or came with it, would be asked as soon as another one lies over it: a person
    says first how it is with this one. `brought` are places that came with it."""
    for each in job.beneath(position.key):
        said_now = any(one in brought for one in (each.key, *job.ancestors(each.key)))
        if said_now or not left_in(job, each.key) or not asks_something(job, each):
            continue
        if not would_stay_left(job, each.key, position.key, part):
            word = "came with" if scope_of(job, each.key).word == UNIT else "was left fitted in"
            wrong = f"{named(job, position.key)} closes over {named(job, each.key)}, which {word} another unit."
            to_do = ToDo("job received", position_thing(each.key))
            yield lack(OVER, at_place(position.key), wrong, to_do=to_do, which=each.key, clears=CLEARS)
