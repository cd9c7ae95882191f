"""Joints: every pass of torque, on every screw, after everything it holds was fitted."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.lacks.lack import TORQUE, Lack, ToDo, at_place, lack
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.doubt import touching
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.joint import AFTER_HEAT, AGAIN, before_torque, has_torque, pass_says, passes_left
from teardown_app.domain.nouns.naming import named


def joint_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """One lack while passes are left; what waits for the first heat stops shipping only."""
    if not has_torque(position) or job.scope(position.key).counts != "in":
        return
    left = passes_left(job, position)
    if not left:
        return
    thing = position_thing(position.key)
    torques = job.entries(thing, "torque")
    found = [one for each in torques for one in touching(job, each)]
    again = " again" if torques else ""
    wrenches = sorted({f" Wrench {one.value['number']} was found out by {one.value['by']}." for one in found})
    yield lack(
        TORQUE,
        at_place(position.key),
        f"{named(job, position.key)}: torque due{again}: {', '.join(map(pass_says, left))}." + "".join(wrenches),
        to_do=ToDo("joint torque", thing, (("pass", left[0]),)),
        ground=refs([*torques, *before_torque(job, position), *found]),
        gate=SHIP if left == [AFTER_HEAT] else "",
        clears=_clears(position, left),
    )


def _clears(position: Position, left: list[str]) -> str:
    joint = position.line.joint
    if left == [AFTER_HEAT]:
        return "Tighten every screw again when the tool has been hot and is cold, and record it."
    if left[0] == AGAIN and joint is not None:
        return f"Tighten every screw again {joint.retighten_h} h after the last pass, and record it."
    return ""
