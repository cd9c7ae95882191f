"""What can come off now: places of which nothing that closes over them is still in. The reverse of `next_in`."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.filling import goes_in_as_one, holder
from teardown_app.domain.parts.parts import came_from
from teardown_app.domain.places.scope import scope_of


def is_off(job: Job, key: str) -> bool:
    """True once nothing of the teardown is to do at a place: off, counted, or not asked for."""
    return off_state(job, key) is not False


def is_counted(job: Job, key: str) -> bool:
    """True for hardware that was counted."""
    return bool(job.entries(position_thing(key), "found"))


@remembered
def off_state(job: Job, key: str) -> bool | None:
    """True when off or counted, False while it is to do, None where nothing comes off by itself or is asked for."""
    position = job.positions[key]
    if scope_of(job, key).counts != "in":
        return None
    if position.line.kind == "hardware":
        return is_counted(job, key) if position.count else None
    if position.line.kind not in ("part", "assembly") or not goes_in_as_one(job, position):
        return None
    return bool(came_from(job, key))


def next_off(job: Job, near: str = "") -> Position | None:
    """The place to go on with: beneath the same assembly as `near` if anything there can come off."""
    return next(can_come_off(job, near), None)


def can_come_off(job: Job, near: str = "") -> Iterator[Position]:
    """Places that can come off now, those beneath the assembly of `near` first, in the order of the bill."""
    last = job.positions.get(near)
    home = last.parent if last else ""
    close = job.beneath(home) if home in job.positions else []
    seen = set()
    for position in [*close, *job.positions.values()]:
        if position.key not in seen and not is_off(job, position.key) and _is_reached(job, position):
            seen.add(position.key)
            yield position


def _is_reached(job: Job, position: Position) -> bool:
    """Nothing that goes on after it, over it, is still to come off; what holds it comes off with it."""
    if position.key not in job.bill.positions:
        return True
    return all(one not in job.positions or is_off(job, one) or bool(holder(job, one)) for one in _over(job, position))


def _over(job: Job, position: Position) -> tuple[str, ...]:
    return tuple(one for one in job.bill.closed_by(position.key) if one not in job.ancestors(position.key))
