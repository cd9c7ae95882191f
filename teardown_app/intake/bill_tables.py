"""The lesser tables of a bill, each from whichever file holds it: checks, routes, components and others."""

from __future__ import annotations

from collections.abc import Container, Iterable
from typing import Any

from teardown_app.domain.bill.bill import Callout
from teardown_app.domain.bill.fits import Component
from teardown_app.domain.bill.gate import Gate
from teardown_app.domain.bill.line import Line
from teardown_app.intake.bill_files import BillFiles
from teardown_app.intake.callout_table import read_callouts
from teardown_app.intake.check_book import CheckBook, checks_of_sheet, checks_of_toml
from teardown_app.intake.component_facts import read_components
from teardown_app.intake.drawings import Drawings
from teardown_app.intake.gate_book import gates_of_sheet, gates_of_toml, recipes_of_sheet, recipes_of_toml
from teardown_app.intake.route_book import RouteBook, routes_of_sheet, routes_of_toml


def spelt(named: dict[str, Any], name: str, files: BillFiles) -> dict[str, str] | None:
    """Names without case -> names as given; None when their file is there but could not be read."""
    return None if name in files.broken else {each.casefold(): each for each in named}


def checks_in(files: BillFiles, drawings: Drawings) -> CheckBook:
    """Every check."""
    text, table = files.toml("checks"), files.table("checks")
    if text is not None:
        return checks_of_toml(text, drawings, files.findings)
    return checks_of_sheet(table, drawings, files.findings) if table is not None else CheckBook()


def routes_in(files: BillFiles, checks: dict[str, Any]) -> RouteBook:
    """Every route."""
    known = spelt(checks, "checks", files)
    text, table = files.toml("routes"), files.table("routes")
    if text is not None:
        return routes_of_toml(text, known, files.findings)
    return routes_of_sheet(table, known, files.findings) if table is not None else RouteBook()


def components_in(files: BillFiles, lines: Iterable[Line]) -> dict[str, Component]:
    """Facts about part numbers."""
    table = files.table("components")
    return read_components(table, tuple(lines), files.findings) if table is not None else {}


def gates_in(files: BillFiles, lines: Container[str]) -> dict[str, Gate]:
    """The gates this model has. `lines` are positions of lines."""
    text, table = files.toml("gates"), files.table("gates")
    if text is not None:
        return gates_of_toml(text, lines, files.findings)
    return gates_of_sheet(table, lines, files.findings) if table is not None else {}


def recipes_in(files: BillFiles) -> dict[str, Any]:
    """Recipes, as they are."""
    text, table = files.toml("recipes"), files.table("recipes")
    if text is not None:
        return recipes_of_toml(text, files.findings)
    return recipes_of_sheet(table, files.findings) if table is not None else {}


def callouts_in(
    files: BillFiles, lines: Container[str], keys: Container[str] | None, drawings: Drawings
) -> tuple[Callout, ...]:
    """Where lines and positions are on drawings. `keys` is None when positions could not be told."""
    table = files.table("callouts")
    return read_callouts(table, lines, keys, drawings, files.findings) if table is not None else ()
