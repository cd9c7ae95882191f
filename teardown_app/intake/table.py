"""A table with its headings understood: cells asked for by our column names, each checked once.

Every cell, also of columns we do not know, is looked at for formulas and for size before anything reads it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from decimal import Decimal

from attrs import Factory, frozen

from teardown_app.domain.ledger.harmless import harmless
from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.headings import Match, lookup, match, plain_heading
from teardown_app.intake.sheet import CELL_BYTES_MAX, COLUMNS_MAX, ROWS_MAX, Cell, Row, Sheet, as_text
from teardown_app.intake.text_table import TITLE_ROWS

EMPTY = frozenset({"", "-", "–", "—"})
"""Cells that hold nothing."""

ERROR_VALUES = frozenset(
    {"#N/A", "#REF!", "#VALUE!", "#DIV/0!", "#NAME?", "#NULL!", "#NUM!", "#NV", "#BEZUG!", "#WERT!"}
)

_FORMULA = re.compile(r"[=@]|[+-](?:[^\W\d_]|[(\[{])")


@frozen
class Entry:
    """One row of a table."""

    table: Table
    row: Row
    spoilt: frozenset[int] = frozenset()
    """Cells that have a fault already and are not read."""

    def text(self, column: str) -> str:
        """A cell as text; empty when it is empty, spoilt or has no column."""
        found = harmless(as_text(self.cell(column)))
        return "" if found in EMPTY else found

    def cell(self, column: str) -> Cell:
        """A cell as it was written; a `Decimal` is a workbook's number."""
        index = self.table.columns.get(column, -1)
        return "" if index < 0 or index in self.spoilt else self.row.cell(index)

    def many(self, column: str) -> tuple[str, ...]:
        """A cell's list, separated by `;`."""
        return tuple(part.strip() for part in self.text(column).split(";") if part.strip() not in EMPTY)

    def is_spoilt(self, column: str) -> bool:
        """Whether a cell has a fault already."""
        return self.table.columns.get(column, -1) in self.spoilt

    def place(self, column: str = "") -> Place:
        """Where a cell stands."""
        return self.table.place(column, self.row.number)


@frozen
class Table:
    """A sheet whose headings are known."""

    file: str
    sheet: str
    heading_row: int
    columns: dict[str, int]
    entries: tuple[Entry, ...] = ()
    cut: int = 0
    others: dict[int, str] = Factory(dict)
    """Headings we do not know, by column."""

    def place(self, column: str = "", row: int = 0) -> Place:
        """Where a heading, or a cell of another row, stands."""
        return Place(self.file, row or self.heading_row, column, "" if self.sheet == "bill" else self.sheet)

    @property
    def beyond(self) -> int:
        """Number of the first row too many, 0 when there is none."""
        return self.entries[ROWS_MAX].row.number if len(self.entries) > ROWS_MAX else self.cut

    def has(self, column: str) -> bool:
        """Whether the table has a column of ours."""
        return column in self.columns


def understand(sheet: Sheet, words: Mapping[str, tuple[str, ...]], own: Mapping[str, str], findings: Findings) -> Table:
    """Find the headings of a sheet and look over its cells."""
    at = _heading_place(sheet, words, own)
    heading = sheet.rows[at] if sheet.rows else Row(1, ())
    names = [as_text(cell) for cell in heading.cells]
    found = match(names, words, own)
    columns = dict(found.columns)
    table = Table(sheet.file, sheet.name, heading.number, columns, cut=sheet.cut, others=found.unknown)
    _say_headings(table, found, findings)
    looker = _Looker(table, names, heading.width, findings)
    looker.spoilt(heading)
    entries = tuple(Entry(table, row, looker.spoilt(row)) for row in sheet.rows[at + 1 :])
    return Table(sheet.file, sheet.name, heading.number, columns, entries, sheet.cut, found.unknown)


def _heading_place(sheet: Sheet, words: Mapping[str, tuple[str, ...]], own: Mapping[str, str]) -> int:
    """The first of the top rows that has most known headings."""
    known = known_headings(words, own)
    scores = [known([as_text(cell) for cell in row.cells]) for row in sheet.rows[:TITLE_ROWS]]
    return scores.index(max(scores)) if scores else 0


class known_headings:  # noqa: N801 - used as a function
    """Counts the known headings of a row, each column once."""

    def __init__(self, words: Mapping[str, tuple[str, ...]], own: Mapping[str, str]) -> None:
        self._known = lookup(words)
        self._known.update({plain_heading(heading): column for heading, column in own.items()})

    def __call__(self, cells: list[str]) -> int:
        return len({self._known.get(plain_heading(cell[:80])) for cell in cells} - {None})


def _say_headings(table: Table, found: Match, findings: Findings) -> None:
    for column, names in found.doubled.items():
        listed = " and ".join(f"“{name}”" for name in names)
        findings.fault(table.place(column), f"{listed} both mean {column}; keep one of these columns")
    for heading in (*found.unknown.values(), *found.passed_over.values()):
        findings.note(table.place(heading), f"column “{heading}” is not known and not read")


@frozen
class _Looker:
    """Looks over cells, names them, and says what makes them unreadable."""

    table: Table
    headings: list[str]
    width: int
    """Cells of the heading row as written; 0 where rows have no end."""
    findings: Findings
    _names: dict[int, str] = Factory(dict)

    def spoilt(self, row: Row) -> frozenset[int]:
        """Cells of a row that cannot be read; their faults are told."""
        bad = [index for index, cell in enumerate(row.cells) if _is_suspect(cell) and self._tell(row, index, cell)]
        if len(row.cells) > COLUMNS_MAX:
            self._fault(row, "", f"more than {COLUMNS_MAX:,} cells in a row; delete the columns nobody needs")
        elif self.width and len(row.cells) > self.width and row.number != self.table.heading_row:
            self._fault(
                row,
                "",
                "more cells than there are headings; put text that holds a separator in double quotes",
            )
        return frozenset(bad)

    def _tell(self, row: Row, index: int, cell: Cell) -> bool:
        trouble = _trouble(cell)
        if trouble:
            self._fault(row, self._name(index), trouble)
        return bool(trouble)

    def _fault(self, row: Row, column: str, message: str) -> None:
        self.findings.fault(self.table.place(column, row.number), message)

    def _name(self, index: int) -> str:
        ours = {place: column for column, place in self.table.columns.items()}
        heading = self.headings[index] if index < len(self.headings) else ""
        return ours.get(index) or heading or f"column {index + 1}"


def _is_suspect(cell: Cell) -> bool:
    """Quick look; nearly every cell passes."""
    return isinstance(cell, str) and bool(cell) and (cell[0] in "=@+-#" or len(cell) * 4 > CELL_BYTES_MAX)


def _trouble(cell: Cell) -> str:
    if isinstance(cell, Decimal):
        return ""
    if len(cell.encode("utf-8", "replace")) > CELL_BYTES_MAX:
        return "the cell is over 1 MB; a cell holds a word or a sentence"
    if cell in ERROR_VALUES:
        return f"{cell} is an error of the spreadsheet; write the value"
    if _FORMULA.match(cell):
        return f"“{cell[:20]}” would be taken for a formula; write the value, or begin with another sign"
    return ""


def rows_by_text(table: Table, column: str) -> Iterator[tuple[str, Entry]]:
    """Text of one column with its row, where there is any."""
    for entry in table.entries:
        text = entry.text(column)
        if text:
            yield text, entry
