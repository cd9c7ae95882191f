"""Points about joints: every pass of torque, on every screw, after everything it holds was fitted."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill import Joint, Position
from teardown_app.domain.conceding import refs
from teardown_app.domain.doubt import touching
from teardown_app.domain.entry import Entry
from teardown_app.domain.gate import CLOSED_UP, SHIP
from teardown_app.domain.job import Job
from teardown_app.domain.points.point import Point, at_place, named, point
from teardown_app.domain.record import position_thing
from teardown_app.domain.routing import Moment, hours_left

AGAIN, AFTER_HEAT = "again", "after first heat"
"""Passes of a joint that is tightened once more: so many hours after the last, and when the tool has been hot."""


def passes_of(joint: Joint) -> tuple[str, ...]:
    """Passes in percent, as they are recorded; one of 100 where the bill names none; then those after, if any."""
    again = () if joint.retighten_h is None else (AGAIN,)
    return (*_percents(joint), *again, *((AFTER_HEAT,) if joint.retighten_heat else ()))


def _percents(joint: Joint) -> tuple[str, ...]:
    return tuple(f"{one.normalize():f}" for one in joint.passes) or ("100",)


def passes_before_closing(job: Job, position: Position) -> list[str]:
    """Passes left without which the joint is not closed up; what waits for the first heat comes later."""
    return [one for one in passes_left(job, position) if one != AFTER_HEAT]


def pass_says(name: str) -> str:
    """A pass for a sentence.

    >>> pass_says("70"), pass_says("again")
    ('70 %', 'again')
    """
    return name if name in (AGAIN, AFTER_HEAT) else f"{name} %"


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
    counted = [entry for entry in torques_that_count(job, position) if _rested(job, position, entry)]
    screws = dict.fromkeys(passes_of(joint), 0)
    for entry in counted:
        screws[entry.value["pass"]] = screws.get(entry.value["pass"], 0) + entry.value["screws"]
    return [name for name in passes_of(joint) if screws[name] < (position.count or 0)]


def torques_that_count(job: Job, position: Position) -> list[Entry]:
    """Torques whose author had seen the joint as it is put together now, with a wrench nobody found out: bills give no
    tolerance, so any error counts."""
    before = before_torque(job, position)
    return [
        entry
        for entry in job.entries(position_thing(position.key), "torque")
        if all(job.knowing.knew(entry.record, one.record) for one in before) and not touching(job, entry)
    ]


def _rested(job: Job, position: Position, entry: Entry) -> bool:
    """A tightening again counts when it was recorded after the rest, or somebody with the right said why earlier."""
    if entry.value["pass"] != AGAIN or entry.value.get("early"):
        return True
    record = entry.record
    return hours_to_rest(job, position, Moment(record.dev, record.wall, record.clk), before=entry) <= 0


def hours_to_rest(job: Job, position: Position, moment: Moment, before: Entry | None = None) -> float:
    """Hours until the joint may be tightened again, by the clocks; all of them while a pass before it is missing
    (of those that the author of `before` had seen)."""
    joint = position.line.joint
    if joint is None or joint.retighten_h is None:
        return 0.0
    last = _percents(joint)[-1]
    done = [one for one in torques_that_count(job, position) if one.value["pass"] == last]
    done = [one for one in done if before is None or job.knowing.knew(before.record, one.record)]
    hours = float(joint.retighten_h)
    if sum(int(one.value["screws"]) for one in done) < (position.count or 0):
        return hours
    return max(hours_left(one, hours, moment) for one in done)


def joint_points(job: Job, position: Position) -> Iterator[Point]:
    """One point while passes are left."""
    if not has_torque(position) or job.scope(position.key).counts != "in":
        return
    left = passes_left(job, position)
    if not left:
        return
    torques = job.entries(position_thing(position.key), "torque")
    found = [one for each in torques for one in touching(job, each)]
    again = " again" if torques else ""
    wrenches = sorted({f" Wrench {one.value['number']} was found out by {one.value['by']}." for one in found})
    yield point(
        job,
        "joint not torqued or due again",
        at_place(position.key),
        wrong=f"{named(job, position.key)}: torque due{again}: {', '.join(map(pass_says, left))}." + "".join(wrenches),
        clears=_clears(position, left),
        behind=refs([*torques, *before_torque(job, position), *found]),
        gate=SHIP if left == [AFTER_HEAT] else CLOSED_UP,
    )


def _clears(position: Position, left: list[str]) -> str:
    joint = position.line.joint
    if left == [AFTER_HEAT]:
        return "Tighten every screw again when the tool has been hot and is cold, and record it."
    if left[0] == AGAIN and joint is not None:
        return f"Tighten every screw again {joint.retighten_h} h after the last pass, and record it."
    return "Tighten every screw in the order given and record each pass."
