"""Points about joints: every pass of torque, on every screw, after everything it holds was fitted."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill import Joint, Position
from teardown_app.domain.conceding import refs
from teardown_app.domain.entry import Entry
from teardown_app.domain.job import Job
from teardown_app.domain.points.point import Point, at_place, named, point
from teardown_app.domain.record import position_thing


def passes_of(joint: Joint) -> tuple[str, ...]:
    """Passes in percent, as they are recorded; one of 100 where the bill names none."""
    return tuple(f"{one.normalize():f}" for one in joint.passes) or ("100",)


def held_places(job: Job, position: Position) -> list[str]:
    """Places that the joint at this place holds."""
    joint = position.line.joint
    if joint is None:
        return []
    return [one.key for line in joint.holds for one in job.bill.nearest(position.key, line)]


def has_torque(position: Position) -> bool:
    """True for hardware whose joint has a torque."""
    return position.line.joint is not None and position.line.joint.torque_nm is not None


def before_torque(job: Job, position: Position) -> list[Entry]:
    """What a torque has to come after: fittings of what it holds, screws put in, openings."""
    thing = position_thing(position.key)
    entries = job.entries(thing, "put_in") + job.entries(thing, "opened_joint")
    for key in held_places(job, position):
        for one in (key, *(child.key for child in job.beneath(key))):
            entries += job.heads(position_thing(one), "filled")
    return entries


def passes_left(job: Job, position: Position) -> list[str]:
    """Passes that are not, or no longer, done on every screw."""
    joint = position.line.joint
    if joint is None:
        return []
    before = before_torque(job, position)
    counted = [
        entry
        for entry in job.entries(position_thing(position.key), "torque")
        if all(job.knowing.knew(entry.record, one.record) for one in before)
    ]
    screws = dict.fromkeys(passes_of(joint), 0)
    for entry in counted:
        screws[entry.value["pass"]] = screws.get(entry.value["pass"], 0) + entry.value["screws"]
    return [name for name in passes_of(joint) if screws[name] < (position.count or 0)]


def joint_points(job: Job, position: Position) -> Iterator[Point]:
    """One point while passes are left."""
    if not has_torque(position) or job.scope(position.key).counts != "in":
        return
    left = passes_left(job, position)
    if not left:
        return
    torques = job.entries(position_thing(position.key), "torque")
    again = " again" if torques else ""
    yield point(
        job,
        "joint not torqued or due again",
        at_place(position.key),
        wrong=f"{named(job, position.key)}: due{again}: {', '.join(f'{one} %' for one in left)}.",
        clears="Tighten every screw in the order given and record each pass.",
        behind=refs([*torques, *before_torque(job, position)]),
    )
