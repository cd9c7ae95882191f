"""What stands against the next pass of torque on a joint."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.against.scope import against_scope
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import HELD_EMPTY, RESTS, SCREWS_OUT, Lack, ToDo, at_place, lack
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.places.closing_over import held_places
from teardown_app.domain.places.hardware import put_in
from teardown_app.domain.places.joint import (
    AGAIN,
    hours_to_rest,
    passes_left,
)
from teardown_app.domain.places.place import is_filled


def against_torque(job: Job, position: Position, now: Moment, early: str = "") -> Iterator[Lack]:
    """What stands against the next pass: out of scope, something it holds not fitted, screws out, still at rest."""
    yield from against_scope(job, position)
    key, where, name = position.key, at_place(position.key), named(job, position.key)
    held = [job.positions[one] for one in held_places(job, key)]
    for one in held:
        if not is_filled(job, one):
            to_do = ToDo("part fit", position_thing(one.key))
            yield lack(HELD_EMPTY, where, f"{name} holds {named(job, one.key)}, which is not fitted.", to_do=to_do)
    inside = put_in(job, key)
    if inside < (position.count or 0):
        to_do = ToDo("hardware move", position_thing(key), (("put_in", str((position.count or 0) - inside)),))
        yield lack(SCREWS_OUT, where, f"{name}: {inside} of {position.count} screws are put in.", to_do=to_do)
    left = passes_left(job, position)
    hours = hours_to_rest(job, position, now) if left[:1] == [AGAIN] and not early else 0.0
    if hours > 0:
        clears = "Until then it stays open. Who may release can say why it may be earlier."
        yield lack(RESTS, where, f"{name} is tightened again after another {hours:.1f} h.", clears=clears)
