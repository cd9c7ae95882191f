"""The routes of a bill: `routes.toml`, or the sheet `routes`."""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.bill.route import ORIGINS, Operation, Route
from teardown_app.intake.faults import Findings
from teardown_app.intake.headings import OPERATION_KEYS
from teardown_app.intake.table import Table
from teardown_app.intake.told import Told, told_list, told_row, told_tables
from teardown_app.intake.toml_text import TomlText


def routes_of_toml(text: TomlText, checks: dict[str, str] | None, findings: Findings) -> dict[str, Route]:
    """Every route of a file. `checks`: names without case -> as given; None when they could not be read."""
    found = {}
    for name, told in told_tables(text, "route", findings):
        told.note_unknown(("origin", "operation"))
        found[name] = _route(name, told, told_list(text, name, "operation", findings), checks)
    return found


def routes_of_sheet(table: Table, checks: dict[str, str] | None, findings: Findings) -> dict[str, Route]:
    """Every route of a sheet, one operation a row; a row without a name belongs to the route above it."""
    rows: dict[str, list[Told]] = {}
    name = ""
    for entry in table.entries:
        name = entry.text("name") or name
        if name:
            rows.setdefault(name, []).append(told_row(entry, ("origin", *OPERATION_KEYS), findings))
        else:
            findings.fault(entry.place("name"), "name is empty; the first row needs the name of its route")
    return {each: _route(each, told[0], told, checks) for each, told in rows.items()}


def _route(name: str, told: Told, operations: Iterable[Told], checks: dict[str, str] | None) -> Route:
    seen: set[str] = set()
    made = tuple(_operation(each, seen, checks) for each in operations)
    if not made:
        told.findings.note(told.place("operation"), f"route “{name}” has no operation")
    return Route(name, told.choice("origin", ORIGINS, empty=ORIGINS[0]), made)


def _operation(told: Told, seen: set[str], checks: dict[str, str] | None) -> Operation:
    told.note_unknown((*OPERATION_KEYS, "origin"))
    return Operation(
        id=_id(told, seen),
        says=told.text("says"),
        trade=told.text("trade"),
        medium=told.text("medium"),
        temperature=told.text("temperature"),
        time=told.text("time"),
        wait_h=told.hours("wait"),
        record=_record(told),
        check=_checks(told, "check", checks),
        spoils=_checks(told, "spoils", checks),
        not_with=told.many("not_with"),
        outside=told.is_yes("outside"),
    )


def _id(told: Told, seen: set[str]) -> str:
    name = told.text("id")
    if not name and "id" not in told.values:
        told.wrong("id", "is missing; every operation needs one")
    elif not name:
        told.wrong("id", "is empty; every operation needs one")
    elif name in seen:
        told.wrong("id", f"“{name[:40]}” is in this route already; give each operation its own")
    seen.add(name)
    return name


def _record(told: Told) -> tuple[str, ...]:
    """What is written down; `true` means that it was done."""
    value = told.values.get("record")
    if isinstance(value, bool):
        return ("done",) if value else ()
    return told.many("record")


def _checks(told: Told, key: str, known: dict[str, str] | None) -> tuple[str, ...]:
    found = []
    for name in told.many(key):
        spelt = name if known is None else known.get(name.casefold())
        if spelt is None:
            told.wrong(key, f"names check “{name[:40]}”, which is not known; define it or correct the name")
        else:
            found.append(spelt)
    return tuple(found)
