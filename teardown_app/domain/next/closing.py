"""What is closed over by fitting a part and not yet as it has to be: said before it closes."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.consumable import what_is_due
from teardown_app.domain.nouns.hardware import put_in
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.joint import has_torque, passes_before_closing
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.nouns.place import covered_places
from teardown_app.domain.nouns.temporary import state_of


def due_beneath(job: Job, position: Position) -> list[str]:
    """Consumables, hardware, joints and temporary things under a place that still want something."""
    keys = dict.fromkeys(covered_places(job, position))
    for key in [*keys]:
        keys |= dict.fromkeys(one.key for one in job.beneath(key))
    found = [job.positions[key] for key in keys if key in job.positions]
    return [said for one in found if job.scope(one.key).counts == "in" for said in _due(job, one)]


def _due(job: Job, position: Position) -> Iterator[str]:
    name, line = named(job, position.key), position.line
    if line.kind == "consumable" and what_is_due(job, position):
        yield f"{name} {what_is_due(job, position)}"
    if line.kind == "hardware" and put_in(job, position.key) < (position.count or 0):
        yield f"{name}: {put_in(job, position.key)} of {position.count} put in"
    if has_torque(position) and passes_before_closing(job, position):
        yield f"{name} is not torqued"
    if line.kind == "temporary" and state_of(job, position_thing(position.key)) != "out":
        yield f"{name} is not recorded as out"
