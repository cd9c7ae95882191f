"""Consumables: renewed where they have to be, after the last opening, and in date."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.again import lies_over, why_again
from teardown_app.domain.lacks.lack import CONSUMABLE, Lack, ToDo, at_place, lack
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.consumable import what_is_due
from teardown_app.domain.places.opening import before_renewal, records_at
from teardown_app.domain.places.scope import said_of, scope_of


def consumable_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """One lack while a consumable is due."""
    key = position.key
    if position.line.kind != "consumable" or scope_of(job, key).counts != "in":
        return
    wrong = what_is_due(job, position)
    if not wrong:
        return
    said = f"{why_again(job, key)}{named(job, key)}{wrong}{lies_over(job, position.key)}"
    yield lack(
        CONSUMABLE,
        at_place(key),
        said,
        to_do=ToDo("consumable renew", position_thing(key)),
        ground=lambda: _ground(job, key),
    )


def _ground(job: Job, key: str) -> list[Record]:
    renewed = records_at(job, [key], "consumable.renewed")
    return [*renewed, *before_renewal(job, key), *said_of(job, key)]
