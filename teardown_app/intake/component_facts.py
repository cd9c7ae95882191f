"""Facts about part numbers: `components.csv`, or the sheet `components`."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping

from teardown_app.domain.bill.fits import Component, fitting, groups
from teardown_app.domain.bill.line import Line
from teardown_app.domain.bill.order import circles, shortened
from teardown_app.domain.bill.units import UNCOUNTED
from teardown_app.intake.faults import Findings
from teardown_app.intake.not_asked import NOT_ASKED, tell_not_asked
from teardown_app.intake.numbers import settled_mark
from teardown_app.intake.table import Entry, Table
from teardown_app.intake.told import Told

NUMBERS = ("shelf_life_days", "lead_days")


def read_components(table: Table, lines: tuple[Line, ...], findings: Findings) -> dict[str, Component]:
    """Every component, once."""
    if not table.has("part_number"):
        findings.fault(table.place("part_number"), "column part_number is missing; add it")
        return {}
    rows = _rows(table, findings)
    mark = settled_mark(
        entry.text(key) for entry in rows.values() for key in NUMBERS if isinstance(entry.cell(key), str)
    )
    found = {number: _component(number, entry, mark, findings) for number, entry in rows.items()}
    numbers = frozenset(line.part_number for line in lines)
    for number, component in found.items():
        _say_alternates(rows[number], component, numbers, findings)
    _say_circles(found, rows, findings)
    _say_shelf_lives(found, rows, lines, findings)
    uses = {key: [row.place(key) for row in rows.values() if row.text(key)] for key in NOT_ASKED["components"]}
    tell_not_asked("components", uses, findings)
    return found


def _rows(table: Table, findings: Findings) -> dict[str, Entry]:
    found: dict[str, Entry] = {}
    for entry in table.entries:
        number = entry.text("part_number")
        if not number and not entry.is_spoilt("part_number"):
            findings.fault(entry.place("part_number"), "part number is empty; every row needs one")
        elif number in found:
            row = found[number].row.number
            findings.fault(
                entry.place("part_number"),
                f"{number} stands in row {row} already; put its facts into one row",
            )
        elif number:
            found[number] = entry
    return found


def _component(number: str, entry: Entry, mark: str, findings: Findings) -> Component:
    later = entry.many("superseded_by")
    if len(later) > 1:
        findings.fault(entry.place("superseded_by"), "names more than one part number; name the one that follows")
    return Component(
        part_number=number,
        alternates=tuple(dict.fromkeys(entry.many("alternates"))),
        superseded_by=later[0] if later else "",
        shelf_life_days=_days(entry, "shelf_life_days", mark, findings),
        lead_days=_days(entry, "lead_days", mark, findings),
        maker_number=entry.text("maker_number"),
    )


def _days(entry: Entry, key: str, mark: str, findings: Findings) -> int | None:
    value = entry.cell(key) if entry.text(key) else ""
    return Told({key: value}, entry.place, findings, mark).whole(key, None, 0)


def _say_alternates(entry: Entry, component: Component, numbers: Container[str], findings: Findings) -> None:
    for each in component.alternates:
        if each not in numbers:
            findings.note(
                entry.place("alternates"),
                f"alternate {each[:60]} of {component.part_number} is no line of this bill",
            )


def _say_circles(found: dict[str, Component], rows: dict[str, Entry], findings: Findings) -> None:
    graph = {number: (each.superseded_by,) if each.superseded_by else () for number, each in found.items()}
    for circle in circles(graph):
        last = max((rows[number] for number in circle), key=lambda entry: entry.row.number)
        way = " by ".join((*shortened(circle), circle[0]))
        findings.fault(last.place("superseded_by"), f"superseded in a circle: {way}; take one of these out")


def _say_shelf_lives(
    found: Mapping[str, Component], rows: Mapping[str, Entry], lines: Iterable[Line], findings: Findings
) -> None:
    """A shelf life is asked when a consumable is renewed; that of a number no consumable takes never is."""
    lines = tuple(lines)
    sets = groups(lines)
    renewed = [line for line in lines if line.kind == "consumable" and line.unit not in UNCOUNTED]
    asked = {number for line in renewed for number in fitting(line, found, sets)}
    for number, component in found.items() if lines else ():
        if component.shelf_life_days is not None and number not in asked:
            findings.fault(
                rows[number].place("shelf_life_days"),
                f"no consumable of this bill takes {number[:60]}, so its shelf life is never asked; "
                "correct the number, or make its line a consumable",
            )
