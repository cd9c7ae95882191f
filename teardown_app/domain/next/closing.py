"""What is closed over by fitting a part and not yet as it has to be: said before it closes."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.lacks.consumable import consumable_lacks
from teardown_app.domain.lacks.hardware import hardware_lacks
from teardown_app.domain.lacks.joint import joint_lacks
from teardown_app.domain.lacks.lack import Lack, standing
from teardown_app.domain.lacks.temporary import temporary_lacks
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.place import covered_places


def due_beneath(job: Job, position: Position) -> list[str]:
    """What consumables, hardware, joints and temporary things under a place still want before the tool runs."""
    keys = dict.fromkeys(covered_places(job, position))
    for key in [*keys]:
        keys |= dict.fromkeys(one.key for one in job.beneath(key))
    places = [job.positions[key] for key in keys if key in job.positions]
    found = [one for place in places for one in _lacks(job, place) if one.gate != SHIP]
    return [one.wrong for one in standing(job, found)]


def _lacks(job: Job, position: Position) -> Iterator[Lack]:
    for lacks in (consumable_lacks, hardware_lacks, joint_lacks, temporary_lacks):
        yield from lacks(job, position)
