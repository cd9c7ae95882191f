"""Faults of joints whose torque nobody would be asked for, or that nothing would make due again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from teardown_app.domain.bill.joint import TOLERANCE_PERCENT, Joint
from teardown_app.domain.bill.line import Line
from teardown_app.domain.bill.units import UNCOUNTED
from teardown_app.intake.bill_lines import Lines
from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.line_demands import spoken

FULL = 100
"""Percent: the pass at which the torque itself is reached."""


def look_at_joints(file: str, read: Lines, by_position: Mapping[str, Line], findings: Findings) -> None:
    """Tell what the joints of these lines ask in vain. `by_position`: the first line of each position."""
    for line in read.lines:
        if line.joint is None or line.unit in UNCOUNTED:
            continue
        for message in _joint(line, line.joint, by_position):
            findings.fault(Place(file, line.row, "joint"), message)
        if line.joint.torque_nm is not None and line.row not in read.unknown_kind:
            for message in _torque(line, line.joint):
                findings.fault(Place(file, line.row, "joint"), message)


def _joint(line: Line, joint: Joint, by_position: Mapping[str, Line]) -> Iterator[str]:
    for held in joint.holds:
        trouble = _place_trouble(held, by_position)
        if trouble:
            yield f"holds {trouble}"
    alone = _without_torque(joint)
    if alone:
        yield f"{alone} is asked with a torque only; write torque_nm beside it, or take it out"
    if joint.passes and max(joint.passes) < FULL:
        yield f"no pass reaches {FULL} percent, so the torque itself is never asked; write it as the last pass"
    if len(set(joint.passes)) < len(joint.passes):
        yield "one pass stands twice and is asked once; write each once, and retighten_h for tightening again"


def _without_torque(joint: Joint) -> str:
    """Words of the joint that say how a torque is reached, where there is none."""
    if joint.torque_nm is not None:
        return ""
    asked = {
        "passes": bool(joint.passes),
        "retighten_h": joint.retighten_h is not None,
        "retighten_heat": joint.retighten_heat,
        "tolerance": joint.tolerance_percent != TOLERANCE_PERCENT,
    }
    return ", ".join(word for word, is_there in asked.items() if is_there)


def _torque(line: Line, joint: Joint) -> Iterator[str]:
    if line.kind != "hardware":
        yield f"a torque is asked of hardware, never of {spoken(line.kind)}; give it to the line of the screws or nuts"
    elif not joint.holds and not line.fit_after:
        yield (
            "the torque holds nothing and closes over nothing, so nothing fitted later makes it due again; "
            "name in holds what the joint holds"
        )


def _place_trouble(position: str, by_position: Mapping[str, Line]) -> str:
    """Why a line that another one names has no place in the tool, empty when it has."""
    line = by_position.get(position)
    if line is None:
        return f"{position[:40]}, which is no line of this bill; write the position of a line"
    if line.unit in UNCOUNTED:
        return f"{position[:40]}, which is {line.unit} and makes no place; name a line that has one"
    return ""
