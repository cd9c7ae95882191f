"""Input of one measurement as people keep it: a JSON object, or a CSV table, made into the fields of its kind.

CSV: lines `# field: value` or rows `field;value` give single fields; a row of headings with numbers beneath gives rows
of numbers (headings are column names, a unit in brackets is let be). The decimal mark is a point, or a comma where
the cells are separated by something else. There are no thousands marks.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from teardown_app.domain.reading import factor, read_quantity
from teardown_app.intake.text_table import NotText, best_separator, decode, split, told_separator
from teardown_app.intake.traces import read_trace
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import NUMBER, NUMBERS, TABLE, Field, Kind

LARGEST = 64 * 2**20
TRACE = "roughness-trace"
"""The kind whose files are traces: CSV of positions and heights, or SMD."""
_UNIT = re.compile(r"\s*[(\[/]\s*[^)\]]*[)\]]?\s*$")


def read_measured(kind: Kind, raw: bytes, known: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """Fields as the file gives them; units that are written are converted to the field's. Raises `BadInput`.

    `known` are fields that are told elsewhere: the step of a trace whose file does not say it.
    """
    if len(raw) > LARGEST:
        raise BadInput("file", f"{len(raw)} bytes", f"at most {LARGEST}")
    if kind.name == TRACE and raw.lstrip()[:1] != b"{":
        return traced(raw, (known or {}).get("step"), kind)
    try:
        text = decode(raw)
    except NotText as wrong:
        raise BadInput("file", str(wrong), "JSON or CSV") from None
    if not text.strip():
        raise BadInput("file", "empty", "JSON or CSV")
    given = _json(text) if text.lstrip()[0] in "{[" else _csv(kind, text)
    fields = {field.name: field for field in kind.fields}
    return {name: _meant(fields[name], value) if name in fields else value for name, value in given.items()}


def traced(raw: bytes, step: float | None, kind: Kind | None = None) -> dict[str, Any]:
    """Heights and step of a trace's file, and other fields that its comment lines name. Raises `BadInput`."""
    reading = read_trace("trace", raw, step)
    if reading.trace is None:
        first = reading.faults[0]
        where = ", ".join(one for one in (f"line {first.row}" if first.row else "", first.column) if one)
        raise BadInput(f"file, {where}" if where else "file", "no trace", first.message)
    found: dict[str, Any] = {"heights": list(reading.trace.heights), "step": reading.trace.step}
    if kind is not None and raw.lstrip()[:1] == b"#":
        found |= {name: value for name, value in _told(kind, decode(raw))[0].items() if name not in found}
    return found


def _json(text: str) -> dict[str, Any]:
    try:
        found = json.loads(text)
    except ValueError as wrong:
        raise BadInput("file", f"no JSON ({wrong})", "one object: field names and values") from None
    if not isinstance(found, dict):
        raise BadInput("file", "a list", "one object: field names and values")
    return found


def given_fields(kind: Kind, given: Sequence[str]) -> dict[str, Any]:
    """What a bill knows beforehand of a kind: `voltage = 208 V` as its fields."""
    known = {one.name: one for one in kind.fields}
    told = [[part.strip() for part in one.partition("=")] for one in given]
    return {name: meant(known[name], value) for name, _, value in told if name in known}


def meant(field: Field, typed: str) -> Any:
    """One field as typed on the command line or in a cell; several numbers are separated by blanks or semicolons.

    >>> meant(Field("t", "", "degC"), "22,5 degC"), meant(Field("r", "", form=NUMBERS), "1.5; 2")
    (22.5, [1.5, 2.0])
    """
    if field.form == NUMBERS:
        return [_number(field, one) for one in re.split(r"[;\s]+", typed.strip()) if one]
    return _meant(field, typed)


def _meant(field: Field, value: Any) -> Any:
    if isinstance(value, str) and field.form == NUMBER:
        return _number(field, value)
    if isinstance(value, list) and field.form == NUMBERS:
        return [_number(field, one) if isinstance(one, str) else one for one in value]
    return value


def _number(field: Field, typed: str) -> float:
    read = read_quantity(typed)
    if read is None:
        raise BadInput(field.name, typed, f"a number{f' in {field.unit}' if field.unit else ''}")
    if not read.unit or read.unit == field.unit:
        return float(read.value)
    times = factor(read.unit, field.unit)
    if times is None:
        raise BadInput(field.name, typed, f"a number in {field.unit or 'no unit'}")
    return float(read.value * times)


def _csv(kind: Kind, text: str) -> dict[str, Any]:
    names = {field.name: field for field in kind.fields}
    given, table = _told(kind, text)
    if not table:
        return given
    mark = told_separator(table)
    known = {_plain(one) for field in kind.fields for one in (field.name, *field.columns)}
    separator = mark or best_separator(table, lambda cells: sum(_plain(cell) in known for cell in cells))
    rows = [(n, [cell.strip() for cell in cells]) for n, cells in enumerate(split(table, separator), 1)]
    rows = [(n, cells) for n, cells in rows if any(cells)][1 if mark else 0 :]
    if all(_plain(cells[0]) in {*names, "field"} and len(cells) >= 2 for _, cells in rows) and not _is_heading(
        kind, rows
    ):
        pairs = {_plain(cells[0]): separator.join(cells[1:]).strip(separator) for _, cells in rows}
        return given | {name: meant(names[name], value) for name, value in pairs.items() if name in names and value}
    return given | _columns(kind, rows)


def _told(kind: Kind, text: str) -> tuple[dict[str, Any], str]:
    """Fields that comment lines name, and what is left without comments."""
    names = {field.name: field for field in kind.fields}
    given: dict[str, Any] = {}
    body = []
    for line in text.split("\n"):
        told = re.fullmatch(r"\s*#\s*([A-Za-z0-9_ -]+?)\s*[:=]\s*(.*?)\s*", line)
        if told and _plain(told[1]) in names:
            given[_plain(told[1])] = meant(names[_plain(told[1])], told[2])
        elif not line.lstrip().startswith("#"):
            body.append(line)
    return given, "\n".join(body).strip("\n")


def _is_heading(kind: Kind, rows: list[tuple[int, list[str]]]) -> bool:
    """True where the first row names columns: all its cells are names, and there are rows beneath."""
    columns = {one for field in kind.fields for one in (field.columns or (field.name,))}
    return len(rows) > 1 and all(_plain(cell) in columns for cell in rows[0][1] if cell)


def _columns(kind: Kind, rows: list[tuple[int, list[str]]]) -> dict[str, Any]:
    """A table of numbers, with or without headings, for the one field that takes rows, and for rows of numbers."""
    headed = any(not _is_number(cell) for cell in rows[0][1] if cell)
    table = next((field for field in kind.fields if field.form == TABLE), None)
    lists = [field for field in kind.fields if field.form == NUMBERS]
    if table is None and not lists:
        raise BadInput("file", "a table", "rows of field and value: " + ", ".join(field.name for field in kind.fields))
    columns = list(table.columns) if table else [field.name for field in lists]
    heads = [_plain(cell) for cell in rows[0][1]] if headed else columns[: len(rows[0][1])]
    body = rows[1:] if headed else rows
    if not headed and table and not table.columns:
        heads = [str(n) for n in range(len(rows[0][1]))]
    wanted = heads if table and not table.columns else columns
    missing = [name for name in (table.columns if table else ()) if name not in heads]
    if missing:
        raise BadInput("file, headings", ", ".join(heads), "columns " + ", ".join(columns))
    places = {name: heads.index(name) for name in wanted if name in heads}
    found = {name: [_cell(number, name, cells, place) for number, cells in body] for name, place in places.items()}
    if table:
        return {table.name: [list(row) for row in zip(*(found[name] for name in wanted), strict=True)]}
    return {name: [value for value in values if value is not None] for name, values in found.items()}


def _cell(number: int, name: str, cells: list[str], place: int) -> float:
    typed = cells[place] if place < len(cells) else ""
    if not _is_number(typed):
        raise BadInput(f"file, row {number}, {name}", typed or "empty", "a number")
    return float(typed.replace(",", "."))


def _is_number(typed: str) -> bool:
    return re.fullmatch(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?", typed) is not None


def _plain(name: str) -> str:
    """A heading or field name as it is compared: `Height (mm)` is height."""
    return "_".join(_UNIT.sub("", name.strip()).casefold().replace("-", " ").split()).strip("_")
