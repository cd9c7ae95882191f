"""Rows of a text table of numbers: which separator, which decimal mark, which lines are comments."""

from __future__ import annotations

import re

from attrs import frozen

from teardown_app.domain.measure.reading import could_be_either
from teardown_app.intake.text_table import told_separator
from teardown_app.intake.trace_units import length_in_mm

LARGEST = 1e15
"""No number in a trace is larger, whatever its unit."""
NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")
COMMENT = re.compile(r"\s*(#|%|!|'|//)")
_ALL_NUMBERS = re.compile(r"[\d\s+.,;eE-]*\d[\d\s+.,;eE-]*")
_STEP = re.compile(
    r"[\s#%!'/]*(?:step|x[ -]?step|dx|delta ?x|spacing|(?:sampling|point) (?:step|distance|interval|spacing)|increment|"
    r"schrittweite|punktabstand)\s*(?:[(\[]([^)\]]*)[)\]])?\s*[:=;,\t ]\s*([+-]?[\d.,]*\d(?:[eE][+-]?\d+)?)"
    r"[\s;,]*([^\s\d;,]*)\s*",
    re.IGNORECASE,
)


@frozen
class Row:
    """One line that is neither empty nor a comment."""

    number: int
    cells: tuple[str, ...]
    text: str


def rows_of(text: str, *, heights_only: bool = False) -> list[Row] | str:
    """Lines parted into cells; or why that cannot be told. `heights_only`: a single comma is a decimal comma.

    >>> [row.cells for row in rows_of("# a\\nx;z\\n0;1,5\\n")]
    [('x', 'z'), ('0', '1,5')]
    """
    text = text.replace("−", "-").replace("\u2013", "-")
    told = told_separator(text)
    lines = [(n, line) for n, line in enumerate(text.split("\n"), 1) if line.strip() and not COMMENT.match(line)]
    lines = lines[1:] if told and lines and lines[0][0] == 1 else lines
    separator = told or _separator([line for _, line in lines], heights_only)
    if separator is None:
        return ("each line holds one comma, which may be a decimal comma or part two columns; "
                "put a heading over the columns, or part them by semicolons")  # fmt: skip
    return [Row(n, _cells(line, separator), line.strip()) for n, line in lines]


def value_of(cell: str) -> float | None:
    """The number in a cell, None where it holds none. Point and comma are both decimal marks.

    >>> value_of("1,5"), value_of("-2e-3"), value_of("1.234,5")
    (1.5, -0.002, None)
    """
    if not NUMBER.fullmatch(cell):
        return None
    value = float(cell.replace(",", "."))
    return value if abs(value) <= LARGEST else None


def told_step(text: str) -> float | None:
    """The step a file names before its numbers, in mm; without a unit it is taken in mm.

    >>> told_step("# step: 0.5 um\\n1\\n"), told_step("Schrittweite (mm);0,001\\n1\\n"), told_step("1\\n2\\n")
    (0.0005, 0.001, None)
    """
    for line in text.split("\n")[:200]:
        found = _STEP.fullmatch(line)
        mm = length_in_mm(found[1] or found[3] or "mm") if found else None
        value = value_of(found[2]) if found and not could_be_either(found[2]) else None
        if mm and value and value > 0:
            return value * mm
    return None


def _separator(lines: list[str], heights_only: bool) -> str | None:
    """What parts the cells; empty for blanks."""
    numbers = [line for line in lines if _ALL_NUMBERS.fullmatch(line)]
    for mark in (";", "\t"):
        if any(mark in line for line in numbers):
            return mark
    commas = [line.count(",") for line in numbers if "," in line]
    if not commas:
        return ""
    if any(re.search(r"[.]", line) or re.search(r",\s|,$", line.strip()) for line in numbers):
        return ","
    if all(len(line.split()) > 1 for line in numbers):
        return ""
    if max(commas) > 1:
        return ","
    heads = [line for line in lines if not _ALL_NUMBERS.fullmatch(line)]
    if heights_only or not heads:
        return "" if heights_only else None
    return "," if len(heads[-1].split(",")) == 2 else ""


def _cells(line: str, separator: str) -> tuple[str, ...]:
    """Cells without blanks and quotes; an empty one at the end of a line is none."""
    cells = [cell.strip().strip('"').strip() for cell in line.split(separator)] if separator else line.split()
    return tuple(cells[:-1] if len(cells) > 1 and not cells[-1] else cells)
