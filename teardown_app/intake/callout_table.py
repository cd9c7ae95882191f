"""Where lines are on drawings: `callouts.csv`, or the sheet `callouts`."""

from __future__ import annotations

import re
from collections.abc import Container
from decimal import Decimal

from teardown_app.domain.bill.bill import Callout
from teardown_app.intake.drawings import Drawings, drawing_trouble
from teardown_app.intake.faults import Findings
from teardown_app.intake.numbers import read_number, settled_mark
from teardown_app.intake.sheet import as_text
from teardown_app.intake.table import Entry, Table

NEEDED = ("drawing", "position", "x", "y")


def read_callouts(
    table: Table, lines: Container[str], keys: Container[str] | None, drawings: Drawings, findings: Findings
) -> tuple[Callout, ...]:
    """Every callout. `keys`: names of positions, None when the lines could not be counted."""
    missing = [column for column in NEEDED if not table.has(column)]
    for column in missing:
        findings.fault(table.place(column), f"column {column} is missing; add it")
    if missing:
        return ()
    mark = settled_mark(each.text(axis) for each in table.entries for axis in "xy" if isinstance(each.cell(axis), str))
    return tuple(_callout(entry, mark, lines, keys, drawings, findings) for entry in table.entries)


def _callout(
    entry: Entry,
    mark: str,
    lines: Container[str],
    keys: Container[str] | None,
    drawings: Drawings,
    findings: Findings,
) -> Callout:
    position = entry.text("position")
    trouble = _position_trouble(entry, position, lines, keys)
    if trouble and not entry.is_spoilt("position"):
        findings.fault(entry.place("position"), trouble)
    name = entry.text("drawing")
    trouble = drawing_trouble(name, drawings) if name else "drawing is empty; write the name of its file"
    if trouble and not entry.is_spoilt("drawing"):
        findings.fault(entry.place("drawing"), trouble)
    x, y = (_fraction(entry, axis, mark, findings) for axis in "xy")
    return Callout(drawings.find(name), position, x, y)


def _position_trouble(entry: Entry, position: str, lines: Container[str], keys: Container[str] | None) -> str:
    cell = entry.cell("position")
    if isinstance(cell, Decimal) and cell != cell.to_integral_value():
        return f"{as_text(cell)} is a number cell and may have been {as_text(cell)}0; format it as text"
    if position in lines or (keys is not None and position in keys):
        return ""
    if keys is None and re.sub(r"/[0-9]+", "", position) in lines:
        return ""
    return f"“{position[:40]}” is no line and no position of this bill; write one like 10.20"


def _fraction(entry: Entry, axis: str, mark: str, findings: Findings) -> float:
    cell = entry.cell(axis)
    value = cell if isinstance(cell, Decimal) else read_number(entry.text(axis), mark).value
    if value is not None and 0 <= value <= 1:
        return float(value)
    if not entry.is_spoilt(axis):
        findings.fault(
            entry.place(axis),
            f"{axis} “{entry.text(axis)[:40]}” is not a fraction between 0 and 1, from the top left",
        )
    return 0.0
