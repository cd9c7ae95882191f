"""Faults of a line that asks what its kind or unit is never asked for: left undone it would show nowhere."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from teardown_app.domain.bill.line import Line
from teardown_app.domain.bill.positions import instances
from teardown_app.domain.bill.units import MEASURED, UNCOUNTED
from teardown_app.intake.bill_lines import Lines
from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.not_asked import tell_not_asked
from teardown_app.intake.table import Table

PARTS = ("part", "assembly")
"""Kinds that are taken off, worked on and released."""


Said = Iterator[tuple[str, str]]
"""Column and message."""


def spoken(kind: str) -> str:
    """A kind for a sentence.

    >>> spoken("assembly"), spoken("hardware")
    ('an assembly', 'hardware')
    """
    named = {"assembly": "an assembly", "hardware": "hardware", "temporary": "what is temporary"}
    return named.get(kind, f"a {kind}")


def look_at_demands(file: str, read: Lines, findings: Findings) -> None:
    """Tell what lines ask in vain. Rows whose kind is not known are left: that is told already."""
    lines = [line for line in read.lines if line.row not in read.unknown_kind]
    for line in lines:
        for column, message in _without_a_place(line) if line.unit in UNCOUNTED else _in_vain(line):
            findings.fault(Place(file, line.row, column), message)
        for column, message in _worth_knowing(line):
            findings.note(Place(file, line.row, column), message)
    _lonely_sets(file, lines, findings)


def _without_a_place(line: Line) -> Said:
    """AR and REF make no place, so nobody is asked what their lines ask."""
    torque = line.joint is not None and line.joint.torque_nm is not None
    asking = {
        "route": line.routes,
        "checks": line.checks,
        "fit_after": line.fit_after,
        "matched_set": line.matched_set,
        "joint": torque,
        "write_down": line.write_down,
    }
    for column, value in asking.items():
        if value:
            yield (
                column,
                f"{line.unit} makes no place, so this is never asked; give the line another unit, or leave this empty",
            )


def _in_vain(line: Line) -> Said:
    kind = spoken(line.kind)
    if line.kind == "hardware" and line.unit in MEASURED:
        yield "unit", f"hardware in {line.unit} is never counted; write EA and how many, or make it a consumable"
    if line.routes and line.kind not in PARTS:
        yield "route", f"{kind} goes through no route; make the line a part, or take the route out"
    if line.matched_set and line.kind not in PARTS:
        yield "matched_set", f"{kind} is held to no matched set; make the line a part, or take the set out"
    if line.renew in ("always", "if opened") and line.kind != "consumable":
        yield "renew", f"{kind} is never asked to be renewed; make the line a consumable, or leave this empty"
    if line.ships == "out" and line.kind != "temporary":
        yield "ships", f"{kind} is never asked to be out; make the line temporary, or leave this empty"
    if line.write_down and line.kind in ("hardware", "temporary"):
        yield (
            "write_down",
            f"of {kind} nothing is written down; make the line a part or consumable, or leave this empty",
        )
    if "serial" in line.write_down and line.kind == "consumable":
        yield (
            "write_down",
            "of a consumable the lot is written down, never a serial; write lot, or make the line a part",
        )


def _worth_knowing(line: Line) -> Said:
    kind = spoken(line.kind)
    if line.renew == "on condition" and line.kind != "consumable":
        yield "renew", f"only a consumable is asked to be renewed; of {kind} its disposition says whether it stays"
    if line.ships == "in" and line.kind != "temporary":
        yield "ships", f"only what is temporary is asked how it ships; {kind} is in the tool anyway"


def _lonely_sets(file: str, lines: Iterable[Line], findings: Findings) -> None:
    """A set of one place is matched to nothing: its name may be misspelt, or the other has another parent."""
    members = [line for line in lines if line.matched_set and line.kind in PARTS and instances(line)]
    places = Counter[tuple[str, str]]()
    for line in members:
        places[line.parent, line.matched_set] += instances(line)
    for line in members:
        if places[line.parent, line.matched_set] == 1:
            above = f"beneath {line.parent}" if line.parent else "at the top"
            findings.note(
                Place(file, line.row, "matched_set"),
                f"nothing else {above} is in the set “{line.matched_set[:40]}”; lines of one parent are matched",
            )


def tell_not_asked_of_lines(table: Table, read: Lines, findings: Findings) -> None:
    """Words of the lines that are kept and asked nobody for yet."""
    uses = {
        column: [entry.place(column) for entry in table.entries if entry.text(column)]
        for column in ("finish_ra_um", "photo")
    }
    uses["quantity"] = [table.place("quantity", line.row) for line in read.lines if line.unit in MEASURED]
    uses["unit"] = [table.place("unit", line.row) for line in read.lines if line.unit in UNCOUNTED]
    tell_not_asked("bill", uses, findings)
