"""Rows of a bill made into lines, each cell with its own faults."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from decimal import Decimal

from attrs import Factory, define, frozen

from teardown_app.domain.bill.joint import Joint
from teardown_app.domain.bill.line import KINDS, Line, above
from teardown_app.domain.bill.units import COUNTING, UNCOUNTED, UNITS
from teardown_app.intake.faults import Findings
from teardown_app.intake.joint_words import joint_numbers, read_joint
from teardown_app.intake.numbers import read_number, settled_mark
from teardown_app.intake.step_names import Placed
from teardown_app.intake.table import Entry, Table

SUGGESTIONS = 200
RENEWALS = ("always", "if opened", "on condition")
WRITTEN_DOWN = ("serial", "lot")
SHIPPING = ("in", "out")

_FIXES = r"brackets?|braces?|locks?|blocks?|bolts?|clamps?|straps?|restraints?"
_LEFT_IN = re.compile(
    rf"\b(shipping|transport|transit)\b.*\b({_FIXES})\b|\b({_FIXES})\b.*\b(shipping|transport|transit)\b|"
    r"\bports?\b.*\b(caps?|plugs?)\b|\b(caps?|plugs?)\b.*\bports?\b|transportsicherung|transportwinkel|verschlusskappe"
)


@frozen
class Names:
    """Names a line may use; None where the file that gives them could not be read."""

    checks: dict[str, str] | None
    routes: dict[str, str] | None
    """Name without case -> name as given."""


@frozen
class Lines:
    """Lines as read, and what could not be."""

    lines: tuple[Line, ...]
    unknown_kind: frozenset[int] = frozenset()
    """Rows."""
    uncounted: frozenset[int] = frozenset()
    """Rows whose number of places is not known."""
    routed: frozenset[int] = frozenset()
    """Rows that name a route, known or not."""


def read_lines(table: Table, rows: Iterable[Placed], names: Names, findings: Findings) -> Lines:
    """Make a line of every row; rows without a position are looked over all the same."""
    rows = tuple(rows)
    reader = _LineReader(findings, names, Marks.of(table), frozenset(above(each.position) for each in rows))
    lines = tuple(reader.line(each) for each in rows)
    routed = frozenset(each.entry.row.number for each in rows if each.entry.text("route"))
    return Lines(lines, frozenset(reader.unknown_kind), frozenset(reader.uncounted), routed)


@frozen
class Marks:
    """Decimal marks as the unambiguous cells settled them."""

    by_column: dict[str, str]
    table: str

    @classmethod
    def of(cls, table: Table) -> Marks:
        """Look through all number cells of a table that are read."""
        texts = {
            "quantity": [
                each.text("quantity") for each in table.entries if _is_typed(each, "quantity") and _is_read(each)
            ],
            "finish_ra_um": [each.text("finish_ra_um") for each in table.entries if _is_typed(each, "finish_ra_um")],
            "joint": [number for each in table.entries for number in joint_numbers(each.text("joint"))],
        }
        everything = [text for found in texts.values() for text in found]
        return cls({column: settled_mark(found) for column, found in texts.items()}, settled_mark(everything))

    def mark(self, column: str) -> str:
        """The decimal mark of a column, empty when nothing settles it."""
        return self.by_column.get(column) or self.table


def _is_typed(entry: Entry, column: str) -> bool:
    """A number cell of a workbook is no witness of how people type."""
    return isinstance(entry.cell(column), str)


def _is_read(entry: Entry) -> bool:
    return entry.text("unit").upper() not in UNCOUNTED


@define
class _LineReader:
    findings: Findings
    names: Names
    marks: Marks
    parents: frozenset[str]
    unknown_kind: set[int] = Factory(set)
    uncounted: set[int] = Factory(set)
    suggested: dict[str, str] = Factory(dict)
    """Unknown name -> what may have been meant; looked up for the first of them only, it takes its time."""

    def line(self, placed: Placed) -> Line:
        """One row as a line, its faults told."""
        entry = placed.entry
        kind = self._kind(placed)
        unit = self._unit(entry)
        if placed.orphan:
            self.uncounted.add(entry.row.number)
        return Line(
            position=placed.position,
            parent=above(placed.position),
            row=entry.row.number,
            part_number=self._part_number(entry),
            description=entry.text("description"),
            quantity=self._quantity(entry, unit),
            unit=unit,
            kind=kind,
            material=entry.text("material"),
            routes=self._named(entry, "route", self.names.routes),
            checks=self._named(entry, "checks", self.names.checks),
            finish_ra_um=self._number(entry, "finish_ra_um"),
            fit_after=self._positions(entry, "fit_after"),
            matched_set=entry.text("matched_set"),
            interchange_group=entry.text("interchange_group"),
            option=entry.text("option"),
            joint=self._joint(entry),
            renew=self._renew(entry, kind),
            write_down=tuple(
                self._one_of(entry, "write_down", word, WRITTEN_DOWN) for word in entry.many("write_down")
            ),
            ships=self._ships(entry, kind),
            hazard=entry.text("hazard"),
            photo=entry.text("photo"),
        )

    def _part_number(self, entry: Entry) -> str:
        number = entry.text("part_number")
        if not number and entry.table.has("part_number") and not entry.is_spoilt("part_number"):
            self.findings.fault(entry.place("part_number"), "part number is empty; every line needs one")
        return number

    def _kind(self, placed: Placed) -> str:
        kind = placed.entry.text("kind").casefold()
        empty = "assembly" if placed.position and placed.position in self.parents else "part"
        if kind and kind not in KINDS:
            self.unknown_kind.add(placed.entry.row.number)
            self._wrong(placed.entry, "kind", kind, KINDS)
            return empty
        return kind or empty

    def _unit(self, entry: Entry) -> str:
        unit = entry.text("unit").upper() or "EA"
        if unit not in UNITS or entry.is_spoilt("unit"):
            self.uncounted.add(entry.row.number)
            self._wrong(entry, "unit", entry.text("unit"), tuple(sorted(UNITS)))
        return unit

    def _quantity(self, entry: Entry, unit: str) -> Decimal | None:
        if unit in UNCOUNTED or not entry.table.has("quantity"):
            return None
        if not entry.text("quantity") and not entry.is_spoilt("quantity"):
            self.findings.fault(entry.place("quantity"), "quantity is empty; write how many per next assembly")
        quantity = self._number(entry, "quantity")
        if quantity is not None and unit in COUNTING and quantity != quantity.to_integral_value():
            self.findings.fault(entry.place("quantity"), f"{quantity} {unit} is not whole; write a whole number")
            quantity = None
        if quantity is None:
            self.uncounted.add(entry.row.number)
        return quantity

    def _number(self, entry: Entry, column: str) -> Decimal | None:
        """A number above 0; None when the cell is empty or wrong."""
        cell = entry.cell(column)
        text = entry.text(column)
        if not text:
            return None
        read = cell if isinstance(cell, Decimal) else read_number(text, self.marks.mark(column))
        value, trouble = (read, "") if isinstance(read, Decimal) else (read.value, read.trouble)
        if value is not None and value > 0:
            return value
        self.findings.fault(entry.place(column), f"“{text[:40]}” {trouble or 'is not above 0; write a number above 0'}")
        return None

    def _positions(self, entry: Entry, column: str) -> tuple[str, ...]:
        cell = entry.cell(column)
        if isinstance(cell, Decimal) and cell != cell.to_integral_value():
            text = entry.text(column)
            self.findings.fault(
                entry.place(column), f"{text} is a number cell and may have been {text}0; format it as text"
            )
            return ()
        return tuple(dict.fromkeys(entry.many(column)))

    def _named(self, entry: Entry, column: str, known: dict[str, str] | None) -> tuple[str, ...]:
        """Names of checks or routes as their file spells them."""
        found = []
        for name in entry.many(column):
            spelt = (known or {}).get(name.casefold())
            if spelt is None and known is not None:
                what = "route" if column == "route" else "check"
                instead = self._instead(name, known)
                self.findings.fault(entry.place(column), f"{what} “{name[:60]}” is not known; {instead}")
            elif spelt is not None:
                found.append(spelt)
        return tuple(dict.fromkeys(found))

    def _instead(self, name: str, known: dict[str, str]) -> str:
        if name not in self.suggested and len(self.suggested) < SUGGESTIONS:
            near = difflib.get_close_matches(name.casefold()[:60], list(known)[:500], n=1)
            self.suggested[name] = f"did you mean “{known[near[0]]}”?" if near else ""
        return self.suggested.get(name) or "define it or correct the name"

    def _joint(self, entry: Entry) -> Joint | None:
        text = entry.text("joint")
        if not text:
            return None
        read = read_joint(text, self.marks.mark("joint"))
        for trouble in read.troubles:
            self.findings.fault(entry.place("joint"), trouble)
        if read.joint.note:
            self.findings.note(entry.place("joint"), f"“{read.joint.note[:80]}” is kept as text")
        return read.joint

    def _renew(self, entry: Entry, kind: str) -> str:
        text = entry.text("renew")
        if text:
            return self._one_of(entry, "renew", text, RENEWALS)
        return "always" if kind == "consumable" else ""

    def _ships(self, entry: Entry, kind: str) -> str:
        text = entry.text("ships")
        if text:
            return self._one_of(entry, "ships", text, SHIPPING)
        if kind != "temporary":
            return ""
        return "in" if _LEFT_IN.search(entry.text("description").casefold()) else "out"

    def _one_of(self, entry: Entry, column: str, text: str, words: tuple[str, ...]) -> str:
        word = " ".join(re.split(r"[\s_-]+", text.casefold()))
        if word in words:
            return word
        self._wrong(entry, column, text, words)
        return ""

    def _wrong(self, entry: Entry, column: str, text: str, words: tuple[str, ...]) -> None:
        if not entry.is_spoilt(column):
            self.findings.fault(
                entry.place(column), f"{column} “{text[:40]}” is not known; write one of {', '.join(words)}"
            )
