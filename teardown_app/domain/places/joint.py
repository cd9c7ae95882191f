"""Questions about a joint: its passes, which torques count and why others do not, how long it rests."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from teardown_app.domain.bill.bill import Joint, Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.doubt import doubts, found_out_about
from teardown_app.domain.parts.routing import Moment, hours_left
from teardown_app.domain.places.opening import before_torque, records_at, torque_stands
from teardown_app.domain.places.torqued import is_by_hand, off_target, unfit_wrench

AGAIN, AFTER_HEAT = "again", "after first heat"
"""Passes of a joint that is tightened once more: so many hours after the last, and when the tool has been hot."""


def passes_of(joint: Joint) -> tuple[str, ...]:
    """Passes in percent, as they are recorded; one of 100 where the bill names none; then those after, if any."""
    again = () if joint.retighten_h is None else (AGAIN,)
    return (*percents(joint), *again, *((AFTER_HEAT,) if joint.retighten_heat else ()))


def percents(joint: Joint) -> tuple[str, ...]:
    """Passes in percent of the torque, in order."""
    return tuple(f"{one.normalize():f}" for one in joint.passes) or ("100",)


def pass_says(name: str) -> str:
    """A pass for a sentence.

    >>> pass_says("70"), pass_says("again")
    ('70 %', 'again')
    """
    return name if name in (AGAIN, AFTER_HEAT) else f"{name} %"


def has_torque(position: Position) -> bool:
    """True for hardware whose joint has a torque."""
    return position.line.joint is not None and position.line.joint.torque_nm is not None


def passes_left(job: Job, position: Position) -> list[str]:
    """Passes that are not, or no longer, done on every screw."""
    joint = position.line.joint
    if joint is None:
        return []
    counted = torques_that_count(job, position)
    return [name for name in passes_of(joint) if _screws(counted, name) < (position.count or 0)]


def _screws(torques: list[Entry], name: str) -> int:
    return sum(int(entry.value.screws) for entry in torques if entry.value.name == name)


def torques_that_count(job: Job, position: Position) -> list[Entry]:
    """Torques that count: near their target, with a wrench that serves, on the joint as it is put together now."""
    return [entry for entry, wrong in _judged(job, position.key) if not wrong]


def wrong_with_last(job: Job, position: Position, name: str) -> str:
    """Why the torque recorded last for a pass does not count; empty where none was, or its ground changed since."""
    found = [wrong for entry, wrong in _judged(job, position.key) if entry.value.name == name]
    return found[-1] if found and found[-1] != OVERTAKEN else ""


OVERTAKEN = "overtaken"
"""Of a torque that was right: what the joint holds was opened since, or it had to rest."""


@remembered
def _judged(job: Job, key: str) -> list[tuple[Entry, str]]:
    """Each torque of a joint with what is wrong with it, in the order for display."""
    joint = job.positions[key].line.joint
    if joint is None or joint.torque_nm is None:
        return []
    found = [(entry, _wrong(job, key, joint, entry)) for entry in job.entries(position_thing(key), "torque")]
    counting = [entry for entry, wrong in found if not wrong]
    return [(entry, wrong or _not_rested(job, key, joint, entry, counting)) for entry, wrong in found]


def _wrong(job: Job, key: str, joint: Joint, entry: Entry) -> str:
    return next((wrong for wrong in _faults(job, key, joint, entry) if wrong), "")


def _faults(job: Job, key: str, joint: Joint, entry: Entry) -> Iterator[str]:
    name, asked = entry.value.name, percents(joint)
    if name not in passes_of(joint):
        yield f"pass {name} is not one of this joint"
        return
    early_pass = name in asked[:-1]
    by_hand = early_pass and is_by_hand(entry)
    yield "" if by_hand else off_target(entry, target_of(joint, name), joint.tolerance_percent)
    yield "" if early_pass else unfit_wrench(job, entry)
    found = (one.value for one in doubts(job, entry))
    yield "; ".join(sorted({f"wrench {one.number} was found out by {one.by}" for one in found}))
    yield "" if torque_stands(job, entry.record, key) else OVERTAKEN


def joint_ground(job: Job, key: str) -> list[Record]:
    """What a concession of a joint has to have seen: its torques, their ground, what was found out about wrenches."""
    thing = position_thing(key)
    return [
        *records_at(job, [key], "joint.torqued"),
        *before_torque(job, key),
        *found_out_about(job, job.ever(thing, "torque")),
    ]


def target_of(joint: Joint, name: str) -> Decimal:
    """What a pass is tightened to, in N m."""
    share = Decimal(100) if name in (AGAIN, AFTER_HEAT) else Decimal(name)
    return (joint.torque_nm or Decimal(0)) * share / 100


def _not_rested(job: Job, key: str, joint: Joint, entry: Entry, counting: list[Entry]) -> str:
    """A tightening again counts when it was recorded after the rest, or somebody with the right said why earlier."""
    if entry.value.name != AGAIN or entry.value.early:
        return ""
    record = entry.record
    seen = [one for one in counting if job.knowing.knew(record, one.record)]
    moment = Moment(record.dev, record.wall, record.clk)
    return OVERTAKEN if _to_rest(joint, job.positions[key].count or 0, seen, moment) > 0 else ""


def hours_to_rest(job: Job, position: Position, moment: Moment) -> float:
    """Hours until the joint may be tightened again, by the clocks; all of them while a pass before it is missing."""
    joint = position.line.joint
    if joint is None or joint.retighten_h is None:
        return 0.0
    return _to_rest(joint, position.count or 0, torques_that_count(job, position), moment)


def _to_rest(joint: Joint, screws: int, torques: list[Entry], moment: Moment) -> float:
    hours, last = float(joint.retighten_h or 0), percents(joint)[-1]
    done = [one for one in torques if one.value.name == last]
    if _screws(done, last) < screws:
        return hours
    return max((hours_left(one, hours, moment) for one in done), default=0.0)
