"""What stands against any act at a place: that it is not asked for, or that all stayed fitted there."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import NOT_ASKED, Lack, ToDo, at_place, lack
from teardown_app.domain.ledger.kinds.job import UNIT
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.scope import scope_of


def against_scope(job: Job, position: Position) -> Iterator[Lack]:
    """A place that is not asked for, or where all stayed fitted."""
    scope = scope_of(job, position.key)
    if scope.counts == "in":
        return
    why = f" ({scope.why})" if scope.why and scope.word != UNIT else ""
    wrong = f"{named(job, position.key)} is said to be {scope.word}{why}."
    to_do = ToDo("job received", position_thing(position.key))
    yield lack(NOT_ASKED, at_place(position.key), wrong, to_do=to_do)
