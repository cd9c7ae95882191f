"""Input of one measurement as people keep it: a JSON object, or a CSV table, made into the fields of its kind.

CSV: lines `# field: value` or rows `field;value` give single fields; a row of headings with numbers beneath gives rows
of numbers. Headings are column names; a unit in brackets or after a stroke is converted to the field's. Without
headings the columns come in the order of the fields. The decimal mark is a point, or a comma where the cells are
separated by something else or there is one column. There are no thousands marks: 1,500 is refused unless other numbers
of the table show that the comma is its decimal mark. A unit that does not go into the field's is refused.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from teardown_app.domain.measure.measuring import fields_of
from teardown_app.domain.measure.reading import read_quantity, settled_mark
from teardown_app.domain.measure.typed import in_unit, meant, quantity_meant, value_meant
from teardown_app.domain.measure.units import factor
from teardown_app.intake.text_table import NotText, best_separator, decode, split, told_separator
from teardown_app.intake.whole_file import read_whole
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import NUMBER, NUMBERS, TABLE, TEXT, Field, Kind

LARGEST = 64 * 2**20
TRACE = "roughness-trace"
"""The kind whose files are traces: CSV of positions and heights, or SMD."""
NO_UNIT = ("-", "1")
"""What stands over numbers that have no unit."""
_UNIT = re.compile(r"\s*(?:\(([^()]*)\)|\[([^\[\]]*)\]|/([^()\[\]]*))\s*$")
Rows = list[tuple[int, list[str]]]
"""Rows of cells with their numbers."""


def measured_file(path: Path) -> bytes:
    """A file of readings, whole; raises `BadInput` where it cannot be read or is too long."""
    try:
        return read_whole(path, LARGEST)
    except OSError as wrong:
        raise BadInput("INPUT", f"{path} ({wrong.strerror})", "a file that can be read, or -") from None


def read_measured(kind: Kind, raw: bytes, known: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """Fields as the file gives them; units that are written are converted to the field's. Raises `BadInput`.

    `known` are fields that are told elsewhere: the step of a trace whose file does not say it.
    """
    if len(raw) > LARGEST:
        raise BadInput("file", f"{len(raw)} bytes", f"at most {LARGEST}")
    if kind.name == TRACE and _is_smd(raw):
        return traced(raw, None)
    try:
        text = decode(raw)
    except NotText as wrong:
        raise BadInput("file", str(wrong).removeprefix("is "), "JSON or CSV") from None
    if not text.strip():
        raise BadInput("file", "empty", "JSON or CSV")
    if kind.name == TRACE and text.lstrip()[0] != "{":
        return traced(raw, (known or {}).get("step"), kind)
    given = _json(text) if text.lstrip()[0] in "{[" else _csv(kind, text)
    fields = {field.name: field for field in fields_of(kind)}
    return {name: value_meant(fields[name], value) if name in fields else value for name, value in given.items()}


def _is_smd(raw: bytes) -> bool:
    from teardown_app.intake.smd import is_smd  # brings numpy with it

    return is_smd(raw)


def traced(raw: bytes, step: float | None, kind: Kind | None = None) -> dict[str, Any]:
    """Heights and step of a trace's file, and other fields that its comment lines name. Raises `BadInput`."""
    from teardown_app.intake.traces import read_trace  # brings numpy with it

    reading = read_trace("trace", raw, step)
    if reading.trace is None:
        first = reading.faults[0]
        where = ", ".join(one for one in (f"line {first.row}" if first.row else "", first.column) if one)
        raise BadInput(f"file, {where}" if where else "file", "no trace", first.message)
    found: dict[str, Any] = {"heights": list(reading.trace.heights), "step": reading.trace.step}
    if kind is not None and not _is_smd(raw):
        found |= {name: value for name, value in _told(kind, decode(raw))[0].items() if name not in found}
    return found


def _json(text: str) -> dict[str, Any]:
    allowed = "one object: field names and values"
    try:
        found = json.loads(text, object_pairs_hook=_once)
    except BadInput:
        raise
    except ValueError as wrong:
        raise BadInput("file", f"no JSON ({wrong})", allowed) from None
    except RecursionError:
        raise BadInput("file", "lists in lists without end", allowed) from None
    if not isinstance(found, dict):
        raise BadInput("file", "a list", allowed)
    return found


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object whose names stand in it once."""
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        raise BadInput(next(name for name in names if names.count(name) > 1), "there twice", "one value")
    return found


def _csv(kind: Kind, text: str) -> dict[str, Any]:
    given, table = _told(kind, text)
    if not table:
        return given
    mark = told_separator(table)
    separator = mark or _separator(kind, table)
    rows = [(n, [cell.strip() for cell in cells]) for n, cells in enumerate(split(table, separator), 1)]
    rows = [(n, cells) for n, cells in rows if any(cells)][1 if mark else 0 :]
    if not rows:
        return given
    if separator == ",":
        rows = _decimal_commas(kind, rows)
    rows = _with_points(rows)
    return given | (_pairs(kind, rows, separator) if _are_pairs(kind, rows) else _columns(kind, rows))


def _told(kind: Kind, text: str) -> tuple[dict[str, Any], str]:
    """Fields that comment lines name, and what is left without comments."""
    names = {field.name: field for field in fields_of(kind)}
    given: dict[str, Any] = {}
    body = []
    for line in text.split("\n"):
        told = re.fullmatch(r"\s*#\s*([^:=]+?)\s*[:=]\s*(.*?)\s*", line)
        if told and _plain(told[1]) in names:
            given[_plain(told[1])] = _single(names[_plain(told[1])], told[1], told[2])
        elif not line.lstrip().startswith("#"):
            body.append(line)
    return given, "\n".join(body).strip("\n")


def _separator(kind: Kind, table: str) -> str:
    """What parts the cells; a comma only where names tell it or nothing else can."""
    columns = {_plain(one) for field in fields_of(kind) for one in (field.name, *field.columns)}

    def known(cells: list[str]) -> int:
        return sum(_plain(cell) in columns for cell in cells)

    found = best_separator(table, known)
    if found == "," and not any(known(cells) for cells in split(table, found)):
        return next((one for one in "\t;" if one in table), found)
    return found


def _single(field: Field, name: str, typed: str) -> Any:
    """A field as typed beside its name, whose unit may stand with the name."""
    unit = _heading_unit(field, name)
    if field.form != NUMBER or not unit:
        return meant(field, typed)
    return in_unit(field, quantity_meant(field.name, typed, f"a number in {field.unit}"), unit)


def _with_points(rows: Rows) -> Rows:
    """Rows whose numbers agree that the comma is the decimal mark, with points in its place; else as they came."""
    if settled_mark(cell for _, cells in rows for cell in cells) != ",":
        return rows
    return [(n, [cell.replace(",", ".") if _holds_number(cell) else cell for cell in cells]) for n, cells in rows]


def _holds_number(cell: str) -> bool:
    """True for a number with or without its unit, also for one that could be read in two ways."""
    return read_quantity(cell, ",") is not None


def _decimal_commas(kind: Kind, rows: Rows) -> Rows:
    """Rows of one column, where each comma is a decimal mark; else the rows as they came."""
    whole = [(n, ",".join(cells)) for n, cells in rows]
    headed = not _is_number(whole[0][1])
    body = whole[headed:]
    if not body or not all(_is_number(one) for _, one in body) or not any("," in one for _, one in body):
        return rows
    if headed:
        return rows if len(rows[0][1]) > 1 else [(n, [one]) for n, one in whole]
    if [field.form for field in kind.fields if field.form in (NUMBERS, TABLE)] != [NUMBERS]:
        number, cell = body[0]
        raise BadInput(f"file, row {number}", cell, "headings, or ; between cells: the comma is not clear")
    return [(n, [one]) for n, one in whole]


def _are_pairs(kind: Kind, rows: Rows) -> bool:
    """True for rows of field and value: the first row is no heading, and no row begins with a number."""
    names = {field.name for field in fields_of(kind)}
    columns = {one for field in fields_of(kind) for one in (field.columns or (field.name,))}
    if len(rows) > 1 and all(_plain(cell) in columns for cell in rows[0][1] if cell):
        return False
    first = [cells[0] for _, cells in rows]
    return any(_plain(one) in names for one in first) and not any(map(_holds_number, first))


def _pairs(kind: Kind, rows: Rows, separator: str) -> dict[str, Any]:
    """Fields of rows of field and value; a unit may stand in a cell of its own."""
    names = {field.name: field for field in fields_of(kind)}
    given = {}
    for _, (name, *cells) in rows:
        field = names.get(_plain(name))
        if field is None and _plain(name) != "field":
            raise BadInput(name, " ".join(cells), "one of the fields " + ", ".join(names))
        joint = " " if field and field.form == NUMBER else ";" if field and field.form == NUMBERS else separator
        typed = joint.join(cells).strip(f"{separator}{joint} ")
        if field is not None and typed:
            given[field.name] = _single(field, name, typed)
    return given


def _columns(kind: Kind, rows: Rows) -> dict[str, Any]:
    """A table of numbers, with or without headings, for the one field that takes rows, or for rows of numbers."""
    table = next((field for field in kind.fields if field.form == TABLE), None)
    lists = [field for field in kind.fields if field.form == NUMBERS]
    if table is None and not lists:
        raise BadInput("file", "a table", "rows of field and value: " + ", ".join(field.name for field in kind.fields))
    numbers = [_holds_number(cell) for cell in rows[0][1] if cell]
    headed = not all(numbers)
    heads = [_plain(cell) for cell in rows[0][1]] if headed else []
    if table and lists:
        by_name = bool({one.name for one in lists} & set(heads)) and not set(table.columns or "-") <= set(heads)
        table = None if by_name or (not headed and len(rows[0][1]) == 1) else table
    if table and not table.columns:
        return {table.name: [[_cell(n, table, cell) for cell in cells] for n, cells in rows[not any(numbers) :]]}
    wanted = dict.fromkeys(table.columns, table) if table else {one.name: one for one in lists}
    heads = heads or list(wanted)[: len(rows[0][1])]
    _check_headings(kind, heads, wanted, everyone=table is not None)
    units = {name: _heading_unit(wanted[name], rows[0][1][heads.index(name)]) if headed else "" for name in wanted
             if name in heads}  # fmt: skip
    found = {
        name: [_cell(n, wanted[name], _at(cells, heads.index(name)), name, unit) for n, cells in rows[headed:]]
        for name, unit in units.items()
    }
    if table:
        return {table.name: [list(row) for row in zip(*found.values(), strict=True)]}
    texts = [one.name for one in kind.fields if one.form == TEXT and one.name in heads]
    return {**found, **{one: ", ".join(_at(cells, heads.index(one)) for _, cells in rows[headed:]) for one in texts}}


def _check_headings(kind: Kind, heads: list[str], wanted: Mapping[str, Field], *, everyone: bool) -> None:
    """Columns that are missing, there twice, or not to be given as columns are refused."""
    there = [name for name in wanted if name in heads]
    if not there or (everyone and len(there) < len(wanted)):
        raise BadInput("file, headings", ", ".join(heads), "columns " + ", ".join(wanted))
    twice = next((name for name in there if heads.count(name) > 1), "")
    if twice:
        raise BadInput("file, headings", f"{twice} twice", "each column once")
    for field in fields_of(kind):
        if field.name in heads and field.name not in wanted and field.form != TEXT:
            raise BadInput(f"file, heading {field.name}", "a column", f"a line `# {field.name}: value` above the table")


def _at(cells: list[str], place: int) -> str:
    return cells[place] if place < len(cells) else ""


def _cell(number: int, field: Field, typed: str, name: str = "", unit: str = "") -> float:
    place = f"file, row {number}, {name or field.name}"
    read = quantity_meant(place, typed, "a number")
    try:
        return in_unit(field, read, unit)
    except BadInput as wrong:
        raise BadInput(place, wrong.value, wrong.allowed) from None


def _heading_unit(field: Field, heading: str) -> str:
    """The unit in a heading's brackets; refused where it is of another sort than the field's."""
    found = _UNIT.search(heading)
    unit = next((one.strip() for one in found.groups() if one), "") if found else ""
    if unit in ("", *NO_UNIT):
        return ""
    if factor(unit, field.unit) is None:
        there = f"; it stands in {field.unit_in}" if field.unit_in else ""
        what = f"a unit that is one of {field.unit}, or none" if field.unit else f"no unit{there}"
        raise BadInput(f"file, heading {heading}", unit, what)
    return unit


def _is_number(typed: str) -> bool:
    return re.fullmatch(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?", typed) is not None


def _plain(name: str) -> str:
    """A heading or field name as it is compared: `Height (mm)` is height."""
    return "_".join(_UNIT.sub("", name.strip()).casefold().replace("-", " ").split()).strip("_")
