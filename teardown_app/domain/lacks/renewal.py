"""What stands against renewing a consumable."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.asked import against_scope
from teardown_app.domain.lacks.lack import CLOSED_OVER, Lack, at_place, lack, taking_out
from teardown_app.domain.nouns.closing_over import closed_by
from teardown_app.domain.nouns.filling import holder
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named


def against_renewal(job: Job, position: Position) -> Iterator[Lack]:
    """Out of scope, or closed over by the bill's order; what it sits in may be served without taking it out."""
    yield from against_scope(job, position)
    key = position.key
    for over in closed_by(job, key):
        part = holder(job, over)
        if part:
            wrong = f"{named(job, key)} is closed over by {named(job, over)}."
            yield lack(CLOSED_OVER, at_place(key), wrong, to_do=taking_out(part, over), which=over)
