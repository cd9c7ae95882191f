"""Points about consumables: renewed where they have to be, after the last opening, and in date."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.consumable import openings, what_is_due
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.points.point import Point, at_place, point


def consumable_points(job: Job, position: Position) -> Iterator[Point]:
    """One point while a consumable is due."""
    if position.line.kind != "consumable" or job.scope(position.key).counts != "in":
        return
    wrong = what_is_due(job, position)
    if not wrong:
        return
    heads = job.heads(position_thing(position.key), "renewal")
    yield point(
        job,
        "consumable not renewed or expired",
        at_place(position.key),
        wrong=f"{named(job, position.key)} {wrong}.",
        clears="Fit a new one and record its lot and expiry.",
        behind=refs([*heads, *openings(job, position)]),
    )
