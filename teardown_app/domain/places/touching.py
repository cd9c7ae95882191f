"""What touches a place: records that say that something was there."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.ground import lying
from teardown_app.domain.job.happened import OFF, came_off, happened_beneath
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.parts.claiming import SEATED
from teardown_app.domain.places.opening import joined_by, openings, records_at

HARDWARE = (
    "hardware.counted", "hardware.moved", "joint.opened", "joint.torqued", "goods.taken_over", "goods.handed_over",
)  # fmt: skip


def may_touch(job: Job, key: str) -> Iterator[Record]:
    """Records that touch a place, those that were taken back too; of hardware and consumables the openings that reach
    them come last."""
    kind = job.positions[key].line.kind
    if kind in ("part", "assembly"):
        yield from (entry.record for entry in job.ever(position_thing(key), "came_out"))
        yield from records_at(job, [key], *SEATED)
    elif kind == "hardware":
        yield from records_at(job, [key], *HARDWARE)
        yield from happened_beneath(job, joined_by(job, key), OFF)
    elif kind == "consumable":
        yield from records_at(job, [key], "consumable.renewed")
        yield from openings(job, key)
    else:
        yield from records_at(job, [key], "temporary.in", "temporary.out")


def touching(job: Job, key: str) -> Iterator[Record]:
    """Records that touch a place: taken back ones until that is accepted."""
    return (one for one in may_touch(job, key) if lying(job, [one], position_thing(key)))


def is_touched(job: Job, key: str) -> bool:
    """True where something was, whatever is said of the place."""
    if job.positions[key].line.kind != "hardware":
        return any(True for _ in touching(job, key))
    return bool(lying(job, records_at(job, [key], *HARDWARE), position_thing(key))) or came_off(
        job, joined_by(job, key)
    )
