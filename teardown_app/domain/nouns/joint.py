"""Questions about a joint: its passes, what it holds, which torques count, how long it rests."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Joint, Position
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.doubt import touching
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.routing import Moment, hours_left

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
