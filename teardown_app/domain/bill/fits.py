"""Which part numbers fit a line: its own, alternates, successors of either, its interchange group."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from attrs import frozen

from teardown_app.domain.bill.line import Line


@frozen
class Component:
    """Facts about a part number, given once."""

    part_number: str
    alternates: tuple[str, ...] = ()
    superseded_by: str = ""
    shelf_life_days: int | None = None
    lead_days: int | None = None
    maker_number: str = ""


def successors(number: str, components: Mapping[str, Component]) -> tuple[str, ...]:
    """All that took the place of a part number, one after the other. A circle is followed once.

    >>> two = {"P1": Component("P1", superseded_by="P2"), "P2": Component("P2", superseded_by="P3")}
    >>> successors("P1", two)
    ('P2', 'P3')
    """
    found: list[str] = []
    seen = {number}
    component = components.get(number)
    while component and component.superseded_by and component.superseded_by not in seen:
        found.append(component.superseded_by)
        seen.add(component.superseded_by)
        component = components.get(component.superseded_by)
    return tuple(found)


def groups(lines: Iterable[Line]) -> dict[str, frozenset[str]]:
    """Part numbers of each interchange group."""
    found: dict[str, set[str]] = {}
    for line in lines:
        if line.interchange_group:
            found.setdefault(line.interchange_group, set()).add(line.part_number)
    return {name: frozenset(numbers) for name, numbers in found.items()}


def fitting(line: Line, components: Mapping[str, Component], group: Mapping[str, frozenset[str]]) -> frozenset[str]:
    """All part numbers that fit the positions of a line."""
    component = components.get(line.part_number)
    own = (line.part_number, *(component.alternates if component else ()))
    later = (number for each in own for number in successors(each, components))
    return frozenset((*own, *later)) | group.get(line.interchange_group, frozenset())
