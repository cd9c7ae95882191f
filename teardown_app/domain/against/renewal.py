"""What stands against renewing a consumable."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.against.scope import against_scope
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import CLOSED_OVER, OVER, Lack, ToDo, at_place, lack, taking_out
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.filling import holder
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.closing_over import closed_by, closes_over
from teardown_app.domain.places.place import is_filled


def against_renewal(job: Job, position: Position) -> Iterator[Lack]:
    """Out of scope, over what is not in yet, or closed over; what it sits in may be served without taking it out."""
    yield from against_scope(job, position)
    key = position.key
    for beneath in closes_over(job, key):
        if beneath in job.positions and not is_filled(job, job.positions[beneath]):
            wrong = f"{named(job, key)} closes over {named(job, beneath)}, which is empty."
            to_do = ToDo("part fit", position_thing(beneath))
            yield lack(OVER, at_place(key), wrong, to_do=to_do, which=beneath)
    for over in closed_by(job, key):
        part = holder(job, over)
        if part:
            wrong = f"{named(job, key)} is closed over by {named(job, over)}."
            yield lack(CLOSED_OVER, at_place(key), wrong, to_do=taking_out(part, over), which=over)
