"""Workbooks (.xlsx): their sheets as rows of cells. Formulas stay formulas, so that they can be refused.

A workbook is a zip of XML that anybody may have made: its size is looked at before it is unpacked, and
whatever the library stumbles over becomes one sentence.
"""

from __future__ import annotations

import datetime as dt
import warnings
import zipfile
import zlib
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import ParseError

import openpyxl
from openpyxl.utils.exceptions import InvalidFileException

from teardown_app.intake.sheet import UNPACKED_BYTES_MAX, Cell, Row, Sheet, row_of, up_to_limit
from teardown_app.intake.text_table import TITLE_ROWS, clean

ROWS_IN_SHEET = 1_048_576
CELLS_MAX = 20_000_000
"""Cells passed over in one sheet, empty ones too; some programs fill every row to the last column."""

STUMBLES = (
    ValueError, TypeError, LookupError, AttributeError, ArithmeticError, AssertionError, OSError, EOFError,
    RuntimeError, NotImplementedError, ParseError, zipfile.BadZipFile, zlib.error, InvalidFileException,
)  # fmt: skip
"""What openpyxl is known to raise on files that are no proper workbook: it does not check what it reads."""


class BrokenWorkbook(ValueError):
    """The file is no workbook that can be read; the message says why."""


def read_sheets(path: Path, wanted: tuple[str, ...]) -> dict[str, Sheet]:
    """The wanted sheets that are there, by their name in lower case."""
    _refuse_bombs(path)
    with warnings.catch_warnings():
        # The library warns of styles and links that nobody here reads.
        warnings.simplefilter("ignore")
        return _sheets(path, wanted)


def _sheets(path: Path, wanted: tuple[str, ...]) -> dict[str, Sheet]:
    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=False, keep_links=False)
    except STUMBLES as error:
        raise BrokenWorkbook("cannot be read as a workbook; open it in the spreadsheet and save it again") from error
    try:
        return {name: _sheet(path.name, name, sheet) for name, sheet in _named(book, wanted)}
    except STUMBLES as error:
        raise BrokenWorkbook("has a sheet that cannot be read; save it again from the spreadsheet") from error
    finally:
        book.close()


def _named(book: Any, wanted: tuple[str, ...]) -> Iterator[tuple[str, Any]]:
    seen: set[str] = set()
    for sheet in book.worksheets:
        name = sheet.title.strip().casefold()
        if name in wanted and name not in seen:
            seen.add(name)
            yield name, sheet


def _refuse_bombs(path: Path) -> None:
    try:
        with zipfile.ZipFile(path) as packed:
            size = sum(entry.file_size for entry in packed.infolist())
    except (zipfile.BadZipFile, ValueError, OSError, NotImplementedError, LookupError) as error:
        raise BrokenWorkbook("is not a workbook; save it as .xlsx") from error
    if size > UNPACKED_BYTES_MAX:
        raise BrokenWorkbook(f"unpacks to more than {UNPACKED_BYTES_MAX // 1_000_000} MB; delete what is not the bill")


def _sheet(file: str, name: str, sheet: Any) -> Sheet:
    # A wrong `dimension` written by other programs would hide rows.
    sheet.reset_dimensions()
    rows, cut = up_to_limit(_rows(sheet), TITLE_ROWS)
    return Sheet(file, name, rows, cut=cut)


def _rows(sheet: Any) -> Iterator[Row]:
    cells_seen = 0
    for number, cells in enumerate(sheet.iter_rows(), start=1):
        cells_seen += len(cells)
        if number > ROWS_IN_SHEET or cells_seen > CELLS_MAX:
            return
        row = row_of(number, [_cell(cell) for cell in cells])
        if row:
            yield row


def _cell(cell: Any) -> Cell:
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, str):
        return clean(value).strip()
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, int | float):
        return _number(value)
    if isinstance(value, dt.datetime | dt.date | dt.time):
        return value.isoformat()
    return _formula_or_text(value)


def _number(value: float) -> Cell:
    """A number with the 15 digits a spreadsheet keeps, so that 0.1 + 0.2 reads 0.3."""
    found = Decimal(format(value, ".15g")) if isinstance(value, float) else Decimal(value)
    return found if found.is_finite() and abs(found.adjusted()) < 30 else str(value)


def _formula_or_text(value: Any) -> str:
    """Array and table formulas are objects of the library; anything else is taken by its words."""
    text = getattr(value, "text", None) or ""
    return text if isinstance(text, str) and text.startswith("=") else f"={text}"
