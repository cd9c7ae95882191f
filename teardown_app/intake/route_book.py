"""The routes of a bill: `routes.toml`, or the sheet `routes`."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import Factory, frozen

from teardown_app.domain.bill.route import ORIGINS, Operation, Route
from teardown_app.intake.faults import Findings
from teardown_app.intake.headings import OPERATION_KEYS
from teardown_app.intake.not_asked import tell_not_asked_of
from teardown_app.intake.table import Table
from teardown_app.intake.told import Told, told_list, told_row, told_tables
from teardown_app.intake.toml_text import TomlText


@frozen
class RouteBook:
    """Every route by its name, and what was told of it and of each operation."""

    routes: dict[str, Route] = Factory(dict)
    told: dict[str, Told] = Factory(dict)
    operations: dict[str, tuple[tuple[Operation, Told], ...]] = Factory(dict)
    """Of each route, in their order."""

    @property
    def operation_names(self) -> frozenset[str]:
        """Of all routes."""
        return frozenset(operation.id for route in self.routes.values() for operation in route.operations)


def routes_of_toml(text: TomlText, checks: dict[str, str] | None, findings: Findings) -> RouteBook:
    """Every route of a file. `checks`: names without case -> as given; None when they could not be read."""
    told = dict(told_tables(text, "route", findings))
    for each in told.values():
        each.note_unknown(("origin", "operation"))
    operations = {name: tuple(told_list(text, name, "operation", findings)) for name in told}
    return _book(told, operations, checks, findings)


def routes_of_sheet(table: Table, checks: dict[str, str] | None, findings: Findings) -> RouteBook:
    """Every route of a sheet, one operation a row; a row without a name belongs to the route above it."""
    rows: dict[str, tuple[Told, ...]] = {}
    name = ""
    for entry in table.entries:
        name = entry.text("name") or name
        if name:
            rows[name] = (*rows.get(name, ()), told_row(entry, ("origin", *OPERATION_KEYS), findings))
        else:
            findings.fault(entry.place("name"), "name is empty; the first row needs the name of its route")
    return _book({each: told[0] for each, told in rows.items()}, rows, checks, findings)


def _book(
    told: dict[str, Told], rows: dict[str, tuple[Told, ...]], checks: dict[str, str] | None, findings: Findings
) -> RouteBook:
    made: dict[str, tuple[tuple[Operation, Told], ...]] = {}
    routes = {}
    for name, each in told.items():
        seen: set[str] = set()
        made[name] = tuple((_operation(row, seen, checks), row) for row in rows[name])
        routes[name] = Route(name, _origin(each, rows[name]), tuple(operation for operation, _ in made[name]))
        if not made[name]:
            findings.note(each.place("operation"), f"route “{name}” has no operation")
    tell_not_asked_of("routes", (each for operations in made.values() for each in operations), findings)
    return RouteBook(routes, told, made)


def _origin(told: Told, rows: Iterable[Told]) -> str:
    """For parts of which origin a route is; none of its operations is for those of another."""
    origin = told.choice("origin", ORIGINS, empty=ORIGINS[0])
    for row in rows:
        if row is not told and row.choice("origin", ORIGINS, empty=origin) != origin:
            row.wrong("origin", f"is another than that of the route, {origin}; write a route for each origin")
    return origin


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
