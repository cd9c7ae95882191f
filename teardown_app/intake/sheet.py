"""A table as its program wrote it: numbered rows of cells, before any heading is understood.

A cell is text, or a `Decimal` where a workbook held a number: only there can 10.2 have been 10.20.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from attrs import frozen

Cell = str | Decimal

ROWS_MAX = 100_000
COLUMNS_MAX = 1_000
CELL_BYTES_MAX = 1_000_000
FILE_BYTES_MAX = 64_000_000
UNPACKED_BYTES_MAX = 256_000_000


@frozen
class Row:
    """One row: its number as the spreadsheet shows it, and its cells without empty ones at the end."""

    number: int
    cells: tuple[Cell, ...]
    width: int = 0
    """Cells as written, with empty ones at the end; 0 where rows have no end (workbook)."""

    def cell(self, index: int) -> Cell:
        """A cell, empty beyond the end."""
        return self.cells[index] if 0 <= index < len(self.cells) else ""


@frozen
class Sheet:
    """All rows that are not empty."""

    file: str
    name: str
    """Name of the sheet in a workbook; empty for a text table."""
    rows: tuple[Row, ...]
    cut: int = 0
    """Number of the first row that was no longer read, 0 when all were."""


def as_text(cell: Cell) -> str:
    """A cell as text; a whole number without a point.

    >>> as_text(Decimal("10")), as_text(Decimal("10.20")), as_text("10.20")
    ('10', '10.2', '10.20')
    """
    if isinstance(cell, str):
        return cell
    whole = cell.to_integral_value()
    return str(int(whole)) if cell == whole else format(cell.normalize(), "f")


def row_of(number: int, cells: list[Cell]) -> Row | None:
    """A row without empty cells at its end; None when nothing is left."""
    end = len(cells)
    while end and cells[end - 1] == "":
        end -= 1
    return Row(number, tuple(cells[:end])) if end else None


def up_to_limit(rows: Iterator[Row], headings: int) -> tuple[tuple[Row, ...], int]:
    """Rows up to the largest number a bill may have, and the number of the first one beyond (0: none)."""
    kept: list[Row] = []
    for row in rows:
        if len(kept) >= ROWS_MAX + headings:
            return tuple(kept), row.number
        kept.append(row)
    return tuple(kept), 0
