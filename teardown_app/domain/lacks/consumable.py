"""Consumables: renewed where they have to be, after the last opening, and in date."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.lack import CONSUMABLE, Lack, ToDo, at_place, lack
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.consumable import openings, what_is_due
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named


def consumable_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """One lack while a consumable is due."""
    if position.line.kind != "consumable" or job.scope(position.key).counts != "in":
        return
    wrong = what_is_due(job, position)
    if not wrong:
        return
    thing = position_thing(position.key)
    ground = refs([*job.heads(thing, "renewal"), *openings(job, position)])
    said = f"{named(job, position.key)} {wrong}."
    yield lack(CONSUMABLE, at_place(position.key), said, to_do=ToDo("consumable renew", thing), ground=ground)
