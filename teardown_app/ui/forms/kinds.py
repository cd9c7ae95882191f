"""What a kind of measurement asks for on the pad: field by field, reading by reading, row by row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from attrs import evolve

from teardown_app.domain.bill.check import Check
from teardown_app.domain.measure.demanded import demanded
from teardown_app.domain.measure.typed import meant
from teardown_app.intake.measured import TRACE, measured_file, traced
from teardown_app.metrology.kind import CHOICE as WORDS
from teardown_app.metrology.kind import NUMBER as ONE
from teardown_app.metrology.kind import NUMBERS, TABLE, Kind
from teardown_app.metrology.kind import Field as Wanted
from teardown_app.ui.form import Values
from teardown_app.ui.forms.asking import choose, first_open, text
from teardown_app.ui.view import COUNT, NUMBER, Field

CANNOT, ENOUGH = "cannot be measured", "that is all"
ACROSS, MOST_ACROSS = "across", 40
"""Ends the name of the field that says how many readings of a grid lie in a row."""

KEEP = "keep it"
RESULT = "the result itself"
"""Where the instrument shows what the kind would compute."""


def wanted_of(kind: Kind, check: Check) -> Iterator[Wanted]:
    """Fields that nobody knows beforehand: not given by the bill, without a usual value."""
    given = demanded(kind, check)
    needed = (one for one in kind.fields if one.name in kind.asks or (not one.optional and one.default is None))
    return (one for one in needed if one.name not in given)


def ask_kind(kind: Kind, check: Check, values: Values, title: str, traces: Sequence[Path] = ()) -> Field | None:
    """The first field of the kind that is not entered; at the very first the result itself may be given instead.
    A trace is a file in the folder `traces`."""
    if kind.name == TRACE:
        hint = f"{title}. Files lie in the folder traces; touch the one of this place"
        files = (*(one.name for one in traces), RESULT, CANNOT)
        asks = f"{values.get('file', '')}: is this the one?"
        sure = choose("sure", asks, (KEEP,), f"{title}. Its picture stands beside")
        return first_open(values, choose("file", "Which trace?", files, hint), sure)
    for n, wanted in enumerate(wanted_of(kind, check)):
        asked = _ask_field(wanted, check, values, title)
        if asked is not None:
            first = n == 0 and not any(name.startswith(wanted.name) for name in values)
            return evolve(asked, choices=(*asked.choices, RESULT)) if first and kind.judged and check.limit else asked
    return None


def wants_kind(kind: Kind | None, check: Check, values: Values) -> bool:
    """True while the fields of a kind are what is asked. A kind that only judges, of a check with a limit of its
    own, asks nothing more than the readings themselves."""
    if kind is None or (not kind.judged and check.limit is not None) or RESULT in values.values():
        return False
    return next(wanted_of(kind, check), None) is not None


def _ask_field(wanted: Wanted, check: Check, values: Values, title: str) -> Field | None:
    hint = f"{title}. {wanted.says}" if wanted.says else title
    says = f"{wanted.says[0].upper()}{wanted.says[1:]}"
    if wanted.form == WORDS:
        return first_open(values, choose(wanted.name, says, (*wanted.choices, CANNOT), title))
    if wanted.form == ONE:
        return first_open(
            values,
            Field(wanted.name, says, NUMBER, unit=wanted.unit, units=(wanted.unit,), choices=(CANNOT,), hint=title),
        )
    if wanted.form == NUMBERS:
        return _ask_row(wanted, check, values, says, title)
    if wanted.form == TABLE:
        return _ask_table(wanted, check, values, says, title)
    return first_open(values, text(wanted.name, says, hint=hint))


def _ask_row(wanted: Wanted, check: Check, values: Values, says: str, title: str) -> Field | None:
    """Readings of one row until there are as many as the check wants, or until that is all."""
    n = 1
    while f"{wanted.name} {n}" in values:
        if values[f"{wanted.name} {n}"] == ENOUGH:
            return None
        n += 1
    if check.readings > 1 and n > check.readings:
        return None
    of = f" of {check.readings}" if check.readings > 1 else ""
    more = (ENOUGH,) if n > 1 and check.readings <= 1 else ()
    return Field(
        f"{wanted.name} {n}", f"{says}: {n}{of}", NUMBER,
        unit=wanted.unit, units=(wanted.unit,), choices=(*more, CANNOT), hint=title,
    )  # fmt: skip


def _ask_table(wanted: Wanted, check: Check, values: Values, says: str, title: str) -> Field | None:
    """Cell by cell, row by row; of a table without named columns it is asked first how many there are in a row."""
    across = f"{wanted.name} {ACROSS}"
    if not wanted.columns and across not in values:
        return Field(across, f"{says}: how many in a row?", COUNT, choices=("3", "4", "5"), hint=title)
    columns = _columns(wanted, values)
    rows = check.readings if check.readings > 1 else 0
    row = 1
    while not rows or row <= rows:
        for column in columns:
            name = f"{wanted.name} {row} {column}"
            if values.get(name) == ENOUGH:
                return None
            if name not in values:
                more = (ENOUGH,) if row > 1 and column == columns[0] and not rows else ()
                return Field(
                    name, f"{says}: row {row}, {column}", NUMBER,
                    unit=wanted.unit, units=(wanted.unit,), choices=(*more, CANNOT), hint=title,
                )  # fmt: skip
        row += 1
    return None


def _columns(wanted: Wanted, values: Values) -> tuple[str, ...]:
    told = str(values.get(f"{wanted.name} {ACROSS}", ""))
    many = int(told) if told.isdecimal() and 0 < int(told) <= MOST_ACROSS else 3
    return wanted.columns or tuple(str(n + 1) for n in range(many))


def fields_entered(kind: Kind, check: Check, values: Values, traces: Sequence[Path] = ()) -> dict[str, Any]:
    """The fields of the kind: what the bill gives, and what was entered so far."""
    if kind.name == TRACE:
        path = next((one for one in traces if one.name == values.get("file")), None)
        return {**demanded(kind, check), **(traced(measured_file(path), None) if path else {})}
    found = demanded(kind, check)
    for wanted in wanted_of(kind, check):
        value = _entered(wanted, check, values)
        if value is not None:
            found[wanted.name] = value
    return found


def field_shown(kind: Kind, check: Check, values: Values, band: int) -> str:
    """The name of the field whose reading the n-th square of a plate's picture shows; empty where there is none."""
    table = next((one for one in wanted_of(kind, check) if one.form == TABLE), None)
    if table is None:
        return ""
    columns = _columns(table, values)
    if table.columns:  # a square a row: its height stands last
        return f"{table.name} {band + 1} {columns[-1]}"
    return f"{table.name} {band // len(columns) + 1} {columns[band % len(columns)]}"


def _entered(wanted: Wanted, check: Check, values: Values) -> Any:
    if wanted.form in (NUMBERS, TABLE):
        mine = [name for name in values if name.startswith(wanted.name + " ") and not name.endswith(ACROSS)]
        told = [(name, str(values[name])) for name in mine]
        read = {name: meant(wanted._replace(form=ONE), value) for name, value in told if value not in (ENOUGH, CANNOT)}
        if wanted.form == NUMBERS:
            return [read[name] for name in sorted(read, key=lambda name: int(name.rsplit(" ", 1)[1]))] or None
        columns = _columns(wanted, values)
        rows = sorted({int(name.removeprefix(wanted.name + " ").partition(" ")[0]) for name in read})
        table = [[read.get(f"{wanted.name} {row} {column}") for column in columns] for row in rows]
        return [row for row in table if None not in row] or None
    return meant(wanted, str(values[wanted.name])) if wanted.name in values else None
