"""What can go in now: empty places that can be reached and close over nothing empty or due.

A list worked out from the state; nothing is kept.
"""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.against.fitting import against_order
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import MISSING
from teardown_app.domain.lacks.place import place_lacks
from teardown_app.domain.lacks.release import is_released
from teardown_app.domain.points.live import Live


class NextIn(NamedTuple):
    """A place that can be filled now, the part meant for it (empty while none is known), where that part
    is put, and whether it is released."""

    key: str
    part: str
    where: str
    released: bool


def next_in(live: Live) -> list[NextIn]:
    """Places that can be filled now, in the order of the bill; for each every part meant for it."""
    job = live.job
    free = [position.key for position in job.positions.values() if _can_go_in(job, position)]
    return [one for key in free for one in _offers(job, key, live.meant(key))]


def _can_go_in(job: Job, position: Position) -> bool:
    if position.line.kind not in ("part", "assembly"):
        return False
    missing = any(one.kind == MISSING for one in place_lacks(job, position))
    return missing and not any(against_order(job, position))


def _offers(job: Job, key: str, meant: list[str]) -> list[NextIn]:
    if not meant:
        return [NextIn(key, "", "", False)]
    return [NextIn(key, part, str(job.value(part, "place", "") or ""), is_released(job, part)) for part in meant]
