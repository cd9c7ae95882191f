"""Joints: every pass of torque, on every screw, after everything it holds was fitted."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.again import lies_over, why_again
from teardown_app.domain.lacks.lack import TORQUE, Lack, ToDo, at_place, lack
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.joint import (
    AFTER_HEAT,
    AGAIN,
    has_torque,
    joint_ground,
    pass_says,
    passes_left,
    wrong_with_last,
)
from teardown_app.domain.places.scope import scope_of


def joint_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """One lack while passes are left; what waits for the first heat stops shipping only."""
    key = position.key
    if not has_torque(position) or scope_of(job, key).counts != "in":
        return
    left = passes_left(job, position)
    if not left:
        return
    yield lack(
        TORQUE,
        at_place(key),
        why_again(job, key) + _words(job, position, left),
        to_do=ToDo("joint torque", position_thing(key), (("pass", left[0]),)),
        ground=lambda: joint_ground(job, key),
        gate=SHIP if left == [AFTER_HEAT] else "",
        clears=_clears(position, left),
    )


def _words(job: Job, position: Position, left: list[str]) -> str:
    """Which passes are due, or what is wrong with the last torque of the first of them."""
    name, over = named(job, position.key), lies_over(job, position.key)
    wrong = wrong_with_last(job, position, left[0])
    if wrong:
        return f"{name}, pass {pass_says(left[0])}: {wrong}.{over}"
    return f"{name}: torque due: {', '.join(map(pass_says, left))}.{over}"


def _clears(position: Position, left: list[str]) -> str:
    joint = position.line.joint
    if left == [AFTER_HEAT]:
        return "Tighten every screw again when the tool has been hot and is cold, and record it."
    if left[0] == AGAIN and joint is not None:
        return f"Tighten every screw again {joint.retighten_h} h after the last pass, and record it."
    return ""
