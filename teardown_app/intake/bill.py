"""Reading a bill, folder or workbook: a bill, or all its faults. Broken files give faults too."""

from __future__ import annotations

from collections.abc import Container
from pathlib import Path
from typing import Any

from attrs import Factory, define, frozen

from teardown_app.domain.bill import Bill, Callout
from teardown_app.domain.check import Check
from teardown_app.domain.fits import Component
from teardown_app.domain.gate import Gate
from teardown_app.domain.line import Line
from teardown_app.domain.materials import Materials
from teardown_app.domain.positions import unfold
from teardown_app.domain.route import Route
from teardown_app.intake.about import About, read_about
from teardown_app.intake.bill_files import BillFiles, open_bill
from teardown_app.intake.bill_lines import Lines, Names, read_lines
from teardown_app.intake.bill_sense import POSITIONS_MAX, BillSense
from teardown_app.intake.callout_table import read_callouts
from teardown_app.intake.check_book import checks_of_sheet, checks_of_toml
from teardown_app.intake.component_facts import read_components
from teardown_app.intake.drawings import Drawings, drawing_trouble, drawings_in, drawings_of, is_picture_name
from teardown_app.intake.faults import Fault, Findings, Place, in_order
from teardown_app.intake.gate_book import gates_of_sheet, gates_of_toml, recipes_of_sheet, recipes_of_toml
from teardown_app.intake.headings import NEEDED
from teardown_app.intake.route_book import routes_of_sheet, routes_of_toml
from teardown_app.intake.sheet import ROWS_MAX
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
    reader = _Reader(files, findings, materials)
    bill = reader.bill()
    faults, notes = in_order(findings.faults), in_order(findings.notes)
    return Reading(None if faults else bill, reader.positions, faults, notes)


@define
class _Reader:
    files: BillFiles
    findings: Findings
    materials: Materials
    positions: int | None = None
    lines: tuple[Line, ...] = ()
    known: Container[str] = ()
    """Positions of lines."""
    keys: Container[str] | None = None
    """Names of positions, when they can be told."""
    about: About = Factory(About)

    def bill(self) -> Bill:
        """The bill; what is wrong with it stands in the findings."""
        self.about = read_about(self.files, self.findings)
        self.files.own = self.about.columns
        table = self.files.table("bill")
        drawings = drawings_in(self.files.folder)
        checks = self._checks(drawings)
        routes = self._routes(_spelt(checks, "checks" in self.files.broken))
        if table is None:
            self._say_no_lines()
        else:
            self._lines(table, checks, routes)
        components = self._components()
        gates = self._gates()
        callouts = self._callouts(drawings)
        pictures = drawings_of(self.lines, drawings, callouts)
        self._say_pictures(table, drawings)
        self._say_undrawn(table, pictures)
        return self._made(components, checks, routes, gates, callouts, pictures)

    def _made(
        self,
        components: dict[str, Component],
        checks: dict[str, Check],
        routes: dict[str, Route],
        gates: dict[str, Gate],
        callouts: tuple[Callout, ...],
        pictures: dict[str, str],
    ) -> Bill:
        recipes = self._recipes()
        return Bill(
            model=self.about.model,
            revision=self.about.revision,
            approved_by=self.about.approved_by,
            lines=self.lines,
            components=components,
            checks=checks,
            routes=routes,
            recipes=recipes,
            gates=gates,
            callouts=callouts,
            drawings=pictures,
            notes=tuple(_sentence(note) for note in in_order(self.findings.notes)),
        )

    def _say_no_lines(self) -> None:
        if "bill" not in self.files.broken:
            self.findings.fault(Place(self.files.file("bill")), self.files.missing("bill"))

    def _lines(self, table: Table, checks: dict[str, Check], routes: dict[str, Route]) -> None:
        self._say_missing_columns(table)
        rows = placed_rows(table, self.findings) if table.has("position") or table.has("level") else []
        column = place_column(table)
        first = unique(rows, column, self.findings)
        rows = tell_orphans(rows, first, column, self.findings)
        names = Names(
            _spelt(checks, "checks" in self.files.broken), _spelt(routes, "routes" in self.files.broken)
        )
        read = read_lines(table, rows, names, self.findings)
        self.lines, self.known = read.lines, frozenset(first)
        sense = BillSense(table.file, column, read, self.findings)
        sense.look(self.materials, routes)
        self._count(table, read, sense)

    def _count(self, table: Table, read: Lines, sense: BillSense) -> None:
        is_whole = (
            not self._say_too_many_rows(table)
            and table.has("quantity")
            and bool(read.lines or table.entries == ())
        )
        self.positions = sense.count() if is_whole else None
        if self.positions is not None and self.positions <= POSITIONS_MAX:
            self.keys = unfold(sense.by_position.values()).positions

    def _say_missing_columns(self, table: Table) -> None:
        if not (table.has("position") or table.has("level")):
            self.findings.fault(
                table.place("position"), "no column position and no column level; add one of them"
            )
        for column in NEEDED:
            if not table.has(column):
                self.findings.fault(
                    table.place(column),
                    f"column {column} is missing; add it, or name yours under columns in bill.toml",
                )
        if not table.entries:
            self.findings.fault(
                table.place(), "there are no lines beneath the headings; add one row for each"
            )

    def _say_too_many_rows(self, table: Table) -> bool:
        beyond = table.entries[ROWS_MAX].row.number if len(table.entries) > ROWS_MAX else table.cut
        if beyond:
            self.findings.fault(table.place("", beyond), f"more than {ROWS_MAX:,} rows; split the bill")
        return bool(beyond)

    def _checks(self, drawings: Drawings) -> dict[str, Check]:
        text, table = self.files.toml("checks"), self.files.table("checks")
        if text is not None:
            return checks_of_toml(text, drawings, self.findings)
        return checks_of_sheet(table, drawings, self.findings) if table is not None else {}

    def _routes(self, checks: dict[str, str] | None) -> dict[str, Route]:
        text, table = self.files.toml("routes"), self.files.table("routes")
        if text is not None:
            return routes_of_toml(text, checks, self.findings)
        return routes_of_sheet(table, checks, self.findings) if table is not None else {}

    def _components(self) -> dict[str, Component]:
        table = self.files.table("components")
        numbers = frozenset(line.part_number for line in self.lines)
        return read_components(table, numbers, self.findings) if table is not None else {}

    def _gates(self) -> dict[str, Gate]:
        text, table = self.files.toml("gates"), self.files.table("gates")
        if text is not None:
            return gates_of_toml(text, self.known, self.findings)
        return gates_of_sheet(table, self.known, self.findings) if table is not None else {}

    def _recipes(self) -> dict[str, Any]:
        text, table = self.files.toml("recipes"), self.files.table("recipes")
        if text is not None:
            return recipes_of_toml(text, self.findings)
        return recipes_of_sheet(table) if table is not None else {}

    def _callouts(self, drawings: Drawings) -> tuple[Callout, ...]:
        table = self.files.table("callouts")
        if table is None:
            return ()
        return read_callouts(table, self.known, self.keys, drawings, self.findings)

    def _say_pictures(self, table: Table | None, drawings: Drawings) -> None:
        """Pictures that a line names must be there."""
        for line in self.lines:
            trouble = drawing_trouble(line.photo, drawings) if is_picture_name(line.photo) else ""
            if table is not None and trouble:
                self.findings.fault(table.place("photo", line.row), trouble)

    def _say_undrawn(self, table: Table | None, pictures: dict[str, str]) -> None:
        for line in self.lines:
            if table is not None and line.kind == "assembly" and line.position not in pictures:
                self.findings.note(
                    table.place("position", line.row),
                    f"assembly {line.position or line.part_number} has no drawing",
                )


def _spelt(named: dict[str, Any], is_broken: bool) -> dict[str, str] | None:
    """Names without case -> names as given; None when their file could not be read."""
    return None if is_broken else {name.casefold(): name for name in named}


def _sentence(note: Fault) -> str:
    where = ", ".join(
        each for each in (note.file, f"row {note.row}" if note.row else "", note.column) if each
    )
    return f"{where}: {note.message}"
