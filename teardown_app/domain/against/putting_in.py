"""What stands against putting screws in out of their bag."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.against.scope import against_scope
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.hardware import more_for
from teardown_app.domain.lacks.lack import SHORT_IN_BAG, Lack, at_place, lack
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.hardware import surplus


def against_put_in(job: Job, position: Position, number: int) -> Iterator[Lack]:
    """What stands against taking so many out of the bag and putting them in."""
    yield from against_scope(job, position)
    there = max(surplus(job, position.key), 0)
    if number > there:
        wrong = f"{named(job, position.key)}: {there} are in the bag, {number} cannot come out of it."
        to_do = more_for(job, position, number - surplus(job, position.key))
        yield lack(SHORT_IN_BAG, at_place(position.key), wrong, to_do=to_do)
