"""Points about joints: every pass of torque, on every screw, after everything it holds was fitted."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import CLOSED_UP, SHIP
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.doubt import touching
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.joint import AFTER_HEAT, AGAIN, before_torque, has_torque, pass_says, passes_left
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.points.point import Point, at_place, point


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
