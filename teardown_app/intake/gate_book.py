"""The gates a model has (`gates.toml`, sheet `gates`) and its recipes (`recipes.toml`, sheet `recipes`)."""

from __future__ import annotations

from collections.abc import Container, Iterator
from decimal import Decimal
from typing import Any

from teardown_app.domain.bill.gate import GATES, Gate
from teardown_app.intake.check_book import GATE_NAMES
from teardown_app.intake.faults import Findings, Place
from teardown_app.intake.not_asked import tell_not_asked, tell_not_asked_of
from teardown_app.intake.sheet import as_text
from teardown_app.intake.table import Entry, Table
from teardown_app.intake.told import Told, first_of_name, spaced, told_row
from teardown_app.intake.toml_text import TomlText

KEYS = ("assemblies", "needs")


def gates_of_toml(text: TomlText, lines: Container[str], findings: Findings) -> dict[str, Gate]:
    """Every gate of a file: a table with `assemblies`, or a list of positions."""
    found: dict[str, tuple[Gate, Told]] = {}
    for name, values in _named_gates(text.values):
        place = Place(text.file, text.line(name), name)
        given = values if isinstance(values, dict) else {"assemblies": values if values is not True else []}
        told = Told(given, lambda key, name=name: Place(text.file, text.line(name, key), key), findings)  # type: ignore[misc]
        told.note_unknown(KEYS)
        _keep(found, name, told, place, lines, findings)
    return _ordered(found, findings)


def _named_gates(values: dict[str, Any]) -> Iterator[tuple[str, Any]]:
    """Gates by name; also those in a list `gates`, or in tables `[[gate]]` with a `name`."""
    for name, given in values.items():
        if spaced(name) not in ("gate", "gates") or not isinstance(given, list | dict):
            yield name, given
        elif isinstance(given, dict):
            yield from given.items()
        else:
            yield from (_listed(name, each) for each in given)


def _listed(name: str, given: Any) -> tuple[str, Any]:
    if isinstance(given, dict):
        return str(given.get("name", name)), {key: value for key, value in given.items() if key != "name"}
    return str(given), True


def gates_of_sheet(table: Table, lines: Container[str], findings: Findings) -> dict[str, Gate]:
    """Every gate of a sheet, one a row."""
    found: dict[str, tuple[Gate, Told]] = {}
    for name, entry in first_of_name(table, findings):
        told = told_row(entry, KEYS, findings)
        _refuse_number(told)
        _keep(found, name, told, entry.place("name"), lines, findings)
    return _ordered(found, findings)


def _refuse_number(told: Told) -> None:
    value = told.values.get("assemblies")
    if isinstance(value, Decimal) and value != value.to_integral_value():
        told.wrong(
            "assemblies",
            f"{as_text(value)} is a number cell and may have been {as_text(value)}0; format it as text",
        )


def _keep(
    found: dict[str, tuple[Gate, Told]],
    name: str,
    told: Told,
    place: Place,
    lines: Container[str],
    findings: Findings,
) -> None:
    gate = GATE_NAMES.get(spaced(name), spaced(name))
    if gate not in GATES:
        findings.fault(place, f"“{name[:40]}” is no gate; write one of {', '.join(GATES)}")
    needed = tuple(dict.fromkeys(each for key in KEYS for each in told.many(key)))
    for each in needed:
        if each not in lines:
            told.wrong("assemblies", f"“{each[:40]}” is no line of this bill; write the position of an assembly")
    found[gate] = Gate(gate, needed), told


def _ordered(found: dict[str, tuple[Gate, Told]], findings: Findings) -> dict[str, Gate]:
    tell_not_asked_of("gates", found.values(), findings)
    return {name: found[name][0] for name in GATES if name in found}


def recipes_of_toml(text: TomlText, findings: Findings) -> dict[str, Any]:
    """Recipes as they are written; dates become text, fractions numbers."""
    found = {}
    places = []
    for name, values in text.values.items():
        place = Place(text.file, text.line(name), name)
        if isinstance(values, dict | list):
            found[name] = _kept(values)
            places.append(place)
        else:
            findings.fault(place, f"“{name}” is in no recipe; put it beneath a [name]")
    tell_not_asked("recipes", {"name": places}, findings)
    return found


def recipes_of_sheet(table: Table, findings: Findings) -> dict[str, Any]:
    """Recipes of a sheet: the rows of one name are its steps; one without a name belongs to that above."""
    found: dict[str, Any] = {}
    firsts: dict[str, Entry] = {}
    name = ""
    for entry in table.entries:
        name = entry.text("name") or name
        firsts.setdefault(name, entry)
        told = {column: entry.text(column) for column in table.columns if column != "name"}
        step = {column: text for column, text in told.items() if text}
        found.setdefault(name, {"steps": []})["steps"].append(step)
    tell_not_asked("recipes", {"name": [entry.place("name") for entry in firsts.values()]}, findings)
    return found


def _kept(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _kept(each) for key, each in value.items()}
    if isinstance(value, list):
        return [_kept(each) for each in value]
    if isinstance(value, Decimal):
        return float(value) if value.is_finite() else str(value)
    return value if isinstance(value, str | int | bool) else value.isoformat()
