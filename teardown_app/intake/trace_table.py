"""A trace in a text table: heights alone, or positions and heights."""

from __future__ import annotations

import re
from collections.abc import Iterator

from attrs import Factory, define, frozen

from teardown_app.domain.measure.reading import could_be_either, settled_mark
from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.trace_rows import NUMBER, Row, rows_of, told_step, value_of
from teardown_app.intake.trace_units import UM_IN_MM, length_in_mm, parted_heading
from teardown_app.metrology.trace_checks import point_spacing

X = {"x", "length", "distance", "position", "pos", "path", "travel", "lateral", "weg", "strecke", "tastweg", "abstand"}
Z = {"z", "height", "heights", "profile", "deviation", "amplitude", "level", "höhe", "profil", "tastwert", "messwert"}
FAULTS_MOST = 20
"""Lines of a kind that are named; of the others their number is said."""
_PARTED = re.compile(r"[;\t]")
_WORD = re.compile(r"[^\s()\[\]]+(?:\s*[(\[][^)\]]*[)\]])?")
_NAME = re.compile(r"[a-zäöü]+")


@frozen
class Column:
    """One column that is read."""

    index: int
    name: str
    unit: str
    mm: float
    """Millimetres in one of its unit."""


@define
class _Table:
    file: str
    findings: Findings
    heads: list[Row]
    """Rows before the first row of numbers."""
    body: list[Row]
    _left: dict[str, int] = Factory(dict)

    def wrong(self, line: int, column: str, message: str) -> None:
        """A fault of a line; after the first few they are only counted."""
        self._left[column] = self._left.get(column, 0) + 1
        if self._left[column] <= FAULTS_MOST:
            self.findings.fault(Place(self.file, line, column), message)

    def sum_up(self) -> None:
        """Say how many lines were not named."""
        for column, count in self._left.items():
            if count > FAULTS_MOST:
                self.findings.fault(Place(self.file, 0, column), f"{count - FAULTS_MOST} more lines like these")


def read_table(file: str, text: str, step: float | None, findings: Findings) -> tuple[float, list[float]] | None:
    """Step in mm and heights in um; None where a fault was told."""
    lines = rows_of(text, heights_only=step is not None or told_step(text) is not None)
    if isinstance(lines, str):
        findings.fault(Place(file), lines)
        return None
    first = next((k for k, row in enumerate(lines) if _is_numbers(row)), None)
    if first is None:
        findings.fault(Place(file), "holds no row of numbers; save the trace as heights, or positions and heights")
        return None
    table = _Table(file, findings, lines[:first], lines[first:])
    if "," in text and not _is_clear(table):
        return None
    width = max(len(row.cells) for row in table.body[:5])
    chosen = _columns(table, width)
    if chosen is None:
        return None
    x, z = chosen
    for row in table.body:
        if len(row.cells) > width:
            table.wrong(row.number, "", f"{len(row.cells)} cells where the lines before have {width}")
    heights = [value for _, value in _values(table, z)]
    places = list(_values(table, x)) if x else []
    table.sum_up()
    if findings.faults:
        return None
    if len(heights) < 2:
        findings.fault(Place(file), "holds one height only; a trace has many")
        return None
    apart = _spacing(table, x, places) if x else _step(table, text, step)
    if x and apart and step and abs(apart - step) > 0.01 * step:
        findings.note(Place(file), f"positions stand {apart:g} mm apart, not {step:g} mm as given; they were taken")
    return None if apart is None else (apart, [one * (z.mm * UM_IN_MM) for one in heights])


def _is_clear(table: _Table) -> bool:
    """False, and told, where a comma could be read in two ways and no other number says how."""
    cells = ((row.number, cell) for row in table.body for cell in row.cells)
    line, cell = next(((n, cell) for n, cell in cells if could_be_either(cell)), (0, ""))
    if not cell or settled_mark(cell for row in table.body for cell in row.cells):
        return True
    table.wrong(line, "", f"{cell} can be read in two ways; write points, or no comma")
    return False


def _is_numbers(row: Row) -> bool:
    filled = [cell for cell in row.cells if cell]
    return bool(filled) and all(NUMBER.fullmatch(cell) for cell in filled)


def _columns(table: _Table, width: int) -> tuple[Column | None, Column] | None:
    """The columns of positions, if there is one, and of heights."""
    names, units = _headings(table, width)
    named = [_role(name) for name in names]
    if width > 2 and (named.count("x") != 1 or named.count("z") != 1):
        table.wrong(table.body[0].number, "", f"{width} columns; name one of them x and one z, with their units")
        return None
    if width == 1 and named == ["x"]:
        table.wrong(table.body[0].number, "", f"the only column is {names[0]}; a column of heights z is missing")
        return None
    place_z = named.index("z") if "z" in named else next(k for k in reversed(range(width)) if named[k] != "x" or k == 0)
    place_x = named.index("x") if "x" in named else 1 - place_z if width == 2 else None
    if place_x == place_z:
        table.wrong(table.body[0].number, "", "both columns are named as positions; name one of them z")
        return None
    if width == 2 and named == ["", ""] and any(names):
        table.findings.note(Place(table.file), "no column is named x or z; the first was taken for x, the second for z")
    z = _column(table, place_z, "z", units[place_z], "um")
    x = _column(table, place_x, "x", units[place_x], "mm") if place_x is not None else None
    return None if z is None or (x is None and place_x is not None) else (x, z)


def _role(name: str) -> str:
    words = set(_NAME.findall(name))
    return "x" if words & X and not words & Z else "z" if words & Z else ""


def _headings(table: _Table, width: int) -> tuple[list[str], list[str]]:
    """Names and units of the columns; empty where nothing is said. A row of units beneath the names may be there."""
    rows = [cells for row in table.heads if (cells := _heading(row, width))]
    units = [""] * width
    if rows and all(length_in_mm(cell.strip("()[]")) is not None for cell in rows[-1]):
        units = [cell.strip("()[]") for cell in rows.pop()]
    parted = [parted_heading(cell) for cell in rows[-1]] if rows else [("", "")] * width
    if width == 1 and not _role(parted[0][0]) and length_in_mm(parted[0][1]) is None:
        parted = [("", "")]
    return [name for name, _ in parted], [inner or unit for (_, inner), unit in zip(parted, units, strict=True)]


def _heading(row: Row, width: int) -> tuple[str, ...]:
    """Cells of a row of headings; blanks may part them and stand within them. Empty where their number does not fit."""
    words = row.text.split()
    pairs = tuple(f"{name} {unit}" for name, unit in zip(words[::2], words[1::2], strict=False)
                  if length_in_mm(unit) is not None and len(words) == 2 * width)  # fmt: skip
    ways = [(row.text,), pairs, row.cells, tuple(re.split(r"\s{2,}", row.text)), tuple(_WORD.findall(row.text))]
    if len(row.cells) > width and _PARTED.search(row.text):
        return row.cells[:width]
    return next((cells for cells in ways if len(cells) == width), ())


def _column(table: _Table, index: int, name: str, unit: str, usual: str) -> Column | None:
    mm = length_in_mm(unit or usual)
    if mm is None:
        table.wrong(table.heads[-1].number, name, f"{unit} is no length; write mm, um, nm, m or in")
        return None
    if not unit:
        table.findings.note(Place(table.file, 0, name), f"no unit is given for {name}; {usual} was taken")
    return Column(index, name, unit or usual, mm)


def _values(table: _Table, column: Column) -> Iterator[tuple[int, float]]:
    """Line and number of every row, faults told."""
    for row in table.body:
        cell = row.cells[column.index] if column.index < len(row.cells) else ""
        value = value_of(cell)
        if value is not None:
            yield row.number, value
        elif cell.casefold() in ("", "nan", "-", "--", "---", "*", "bad", "inf", "-inf"):
            table.wrong(row.number, column.name, f"{column.name} is empty ({cell or 'no value'}): the trace has a gap; "
                        "trace again")  # fmt: skip
        else:
            table.wrong(row.number, column.name, f"“{cell[:40]}” is not a number; write one in {column.unit}")


def _spacing(table: _Table, x: Column, places: list[tuple[int, float]]) -> float | None:
    spacing = point_spacing([value for _, value in places])
    if spacing.uneven < 0:
        return abs(spacing.step) * x.mm
    (_, before), (line, here) = places[spacing.uneven - 1 : spacing.uneven + 1]
    table.wrong(line, "x", f"x goes from {before:g} to {here:g} {x.unit} where {abs(spacing.usual):g} is usual; "
                "a trace has points evenly spaced and no gaps: trace again, or save all points")  # fmt: skip
    return None


def _step(table: _Table, text: str, step: float | None) -> float | None:
    """The step of heights that stand alone: as given, else as the file says."""
    if step is not None:
        return step
    found = told_step(text)
    if found is None:
        table.wrong(0, "", "holds heights only; give the step in mm, or a column x")
    return found
