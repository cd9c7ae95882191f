"""Reading a bill, folder or workbook: a bill, or all its faults. Broken files give faults too."""

from __future__ import annotations

from collections.abc import Container, Iterable
from pathlib import Path

from attrs import Factory, define, frozen

from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.bill.gate import Gate
from teardown_app.domain.bill.line import Line
from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.bill.positions import unfold
from teardown_app.intake.about import read_about
from teardown_app.intake.bill_files import BillFiles, open_bill
from teardown_app.intake.bill_lines import Names, read_lines
from teardown_app.intake.bill_sense import POSITIONS_MAX, BillSense
from teardown_app.intake.bill_tables import (
    callouts_in,
    checks_in,
    components_in,
    gates_in,
    recipes_in,
    routes_in,
    spelt,
)
from teardown_app.intake.check_book import CheckBook
from teardown_app.intake.check_demands import look_at_checks, look_at_checks_of_lines
from teardown_app.intake.drawings import Drawings, drawing_trouble, drawings_in, drawings_of, is_picture_name
from teardown_app.intake.faults import Fault, Findings, Place, in_order
from teardown_app.intake.headings import NEEDED
from teardown_app.intake.joint_demands import look_at_joints
from teardown_app.intake.line_demands import look_at_demands, tell_not_asked_of_lines
from teardown_app.intake.route_book import RouteBook
from teardown_app.intake.route_demands import look_at_routes, look_at_routes_of_lines
from teardown_app.intake.step_names import place_column, placed_rows, tell_orphans, unique
from teardown_app.intake.table import Table

__all__ = ["Fault", "Reading", "read_bill"]


@frozen
class Reading:
    """What came of reading a bill."""

    bill: Bill | None
    """None when there is any fault."""
    positions: int | None
    """None when the lines cannot be counted."""
    faults: list[Fault]
    notes: list[Fault]


def read_bill(path: Path, materials: Materials) -> Reading:
    """Read the bill in a folder or an .xlsx workbook."""
    findings = Findings()
    files = open_bill(path, findings)
    if files is None:
        return Reading(None, None, in_order(findings.faults), [])
    bill, positions = _read(files, materials)
    faults, notes = in_order(findings.faults), in_order(findings.notes)
    return Reading(None if faults else bill, positions, faults, notes)


def _read(files: BillFiles, materials: Materials) -> tuple[Bill, int | None]:
    about = read_about(files, files.findings)
    files.own = about.columns
    table = files.table("bill")
    drawings = drawings_in(files.folder)
    checks = checks_in(files, drawings)
    routes = routes_in(files, checks.checks)
    lines = _Lines() if table is None else _lines(files, table, checks, routes, materials)
    if table is None and "bill" not in files.broken:
        files.findings.fault(Place(files.file("bill")), files.missing("bill"))
    components = components_in(files, lines.lines)
    gates, recipes = gates_in(files, lines.known), recipes_in(files)
    callouts = callouts_in(files, lines.known, lines.keys, drawings)
    pictures = drawings_of(lines.lines, drawings, callouts)
    _say_what_is_never_asked(files, lines.lines, checks, routes, gates, materials)
    if table is not None:
        _say_pictures(table, lines.lines, drawings, pictures, files.findings)
    notes = tuple(_sentence(note) for note in in_order(files.findings.notes))
    named = about.model, about.revision, about.approved_by
    bill = Bill(
        *named, lines.lines, components, checks.checks, routes.routes, recipes, gates, callouts, pictures, notes
    )
    return bill, lines.positions


@define
class _Lines:
    lines: tuple[Line, ...] = ()
    known: Container[str] = Factory(frozenset)
    """Positions of lines."""
    positions: int | None = None
    keys: Container[str] | None = None
    """Names of positions, when they can be told."""


def _lines(files: BillFiles, table: Table, checks: CheckBook, routes: RouteBook, materials: Materials) -> _Lines:
    findings = files.findings
    _say_missing_columns(table, findings)
    is_placed = table.has("position") or table.has("level")
    column = place_column(table)
    rows = placed_rows(table, findings) if is_placed else []
    first = unique(rows, column, findings)
    rows = tell_orphans(rows, first, column, findings)
    names = Names(spelt(checks.checks, "checks", files), spelt(routes.routes, "routes", files))
    read = read_lines(table, rows, names, findings)
    sense = BillSense(table.file, column, read, findings)
    sense.look(materials, routes.routes)
    look_at_demands(table.file, read, findings)
    look_at_joints(table.file, read, sense.by_position, findings)
    look_at_checks_of_lines(table.file, read, checks, findings)
    if "checks" not in files.broken:
        look_at_routes_of_lines(table.file, read.lines, routes, checks.checks, findings)
    tell_not_asked_of_lines(table, read, findings)
    found = _Lines(read.lines, frozenset(first))
    found.positions = sense.count() if is_placed and table.has("quantity") and not table.beyond else None
    if found.positions is not None and found.positions <= POSITIONS_MAX:
        found.keys = unfold(sense.by_position.values()).positions
    return found


def _say_what_is_never_asked(
    files: BillFiles,
    lines: tuple[Line, ...],
    checks: CheckBook,
    routes: RouteBook,
    gates: dict[str, Gate],
    materials: Materials,
) -> None:
    """What the other files ask that no line, route or gate of this bill takes up."""
    if lines:
        operations = None if "routes" in files.broken else routes.operation_names
        look_at_checks(checks, lines, gates, operations)
        look_at_routes(routes, lines, materials)


def _say_missing_columns(table: Table, findings: Findings) -> None:
    if not (table.has("position") or table.has("level")):
        findings.fault(table.place("position"), "no column position and no column level; add one of them")
    for column in NEEDED:
        if not table.has(column):
            findings.fault(table.place(column), f"no column {column}; add it, or name yours beneath [columns]")
    if not table.entries:
        findings.fault(table.place(), "there are no lines beneath the headings; add one row for each")


def _say_pictures(
    table: Table, lines: Iterable[Line], drawings: Drawings, pictures: Container[str], findings: Findings
) -> None:
    """Pictures that a line names must be there; an assembly should have a drawing."""
    for line in lines:
        trouble = drawing_trouble(line.photo, drawings) if is_picture_name(line.photo) else ""
        if trouble:
            findings.fault(table.place("photo", line.row), trouble)
        if line.kind == "assembly" and line.position not in pictures:
            findings.note(
                table.place("position", line.row),
                f"assembly {line.position or line.part_number} has no drawing",
            )


def _sentence(note: Fault) -> str:
    where = ", ".join(each for each in (note.file, f"row {note.row}" if note.row else "", note.column) if each)
    return f"{where}: {note.message}"
