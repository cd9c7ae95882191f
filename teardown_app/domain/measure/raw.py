"""The raw readings among the fields of a kind: what its instrument showed, and in which unit."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal
from typing import Any, NamedTuple

from teardown_app.domain.bill.check import Check
from teardown_app.domain.measure.demanded import demanded
from teardown_app.domain.measure.judging import band, quantity_in
from teardown_app.domain.measure.units import factor
from teardown_app.metrology.kind import NUMBER, NUMBERS, Field, Kind, Raw


class Shown(NamedTuple):
    """One number that an instrument showed."""

    field: str
    place: tuple[int, ...]
    """Where it stands in its field: row, column."""
    value: Decimal
    unit: str


def shown(kind: Kind, given: Mapping[str, Any], unit: str) -> Iterator[Shown]:
    """Every number that an instrument with this unit showed, as a kind's fields hold it."""
    for field, raw in own_fields(kind, given, unit):
        for place, value in _numbers(field, raw, given.get(field.name)):
            yield Shown(field.name, place, Decimal(repr(value)), unit_of(field, given))


def own_readings_of(kind: Kind, given: Mapping[str, Any]) -> list[Decimal]:
    """Every raw reading of the check's instrument, whatever its unit."""
    fields = {one.name: one for one in kind.fields}
    own = [(fields[raw.field], raw) for raw in kind.reads if raw.own]
    return [Decimal(repr(value)) for field, raw in own for _, value in _numbers(field, raw, given.get(field.name))]


def own_fields(kind: Kind, given: Mapping[str, Any], unit: str) -> list[tuple[Field, Raw]]:
    """Fields that the instrument shows, where it shows a unit of that sort."""
    fields = {one.name: one for one in kind.fields}
    own = [(fields[raw.field], raw) for raw in kind.reads if raw.own]
    return [(field, raw) for field, raw in own if factor(unit_of(field, given), unit) is not None]


def unit_of(field: Field, given: Mapping[str, Any]) -> str:
    """The unit that a field is in: its own, or what another field says."""
    return str(given.get(field.unit_in) or field.unit) if field.unit_in else field.unit


def _numbers(field: Field, raw: Raw, held: Any) -> Iterator[tuple[tuple[int, ...], float]]:
    for place, value in _each(held):
        if not raw.columns or field.columns[place[-1]] in raw.columns:
            yield place, value


def moved(field: Field, raw: Raw, held: Any, by: Callable[[float], float]) -> Any:
    """What a field holds, with each number of it that is read made another one."""
    return _moved(field, raw, held, by, ())


def one_moved(given: Mapping[str, Any], one: Shown, by: float) -> dict[str, Any]:
    """The fields with one reading of them moved."""
    return {**given, one.field: _at_place(given[one.field], one.place, by)}


def _at_place(held: Any, place: tuple[int, ...], by: float) -> Any:
    if not place:
        return float(held) + by
    return [_at_place(one, place[1:], by) if n == place[0] else one for n, one in enumerate(held)]


def _moved(field: Field, raw: Raw, held: Any, by: Callable[[float], float], place: tuple[int, ...]) -> Any:
    if isinstance(held, list):
        return [_moved(field, raw, one, by, (*place, n)) for n, one in enumerate(held)]
    is_read = isinstance(held, int | float) and (not raw.columns or field.columns[place[-1]] in raw.columns)
    return by(float(held)) if is_read else held


def _each(held: Any) -> Iterator[tuple[tuple[int, ...], float]]:
    """Numbers of a field with their places: of one number, of a row, of rows of rows."""
    if isinstance(held, list):
        yield from ((((n, *place)), value) for n, one in enumerate(held) for place, value in _each(one))
    elif isinstance(held, int | float):
        yield (), float(held)


def own_readings(kind: Kind, check: Check, given: Mapping[str, Any]) -> dict[str, Any]:
    """The raw readings as a record holds typed ones, where the check's limit is one of them (a kind that judges by
    itself); else nothing."""
    if check.limit is None or check.limit.compare or band(check.limit) is None:
        return {}
    texts = [f"{one.value:f} {one.unit}".strip() for one in shown(kind, given, check.limit.unit)]
    if len(texts) > 1:
        return {"readings": texts}
    return {"value": dict(zip(("text", "unit"), (*texts[0].split(" ", 1), ""), strict=False))} if texts else {}


def fields_of_readings(kind: Kind, check: Check, body: Mapping[str, Any]) -> dict[str, Any] | None:
    """Typed readings as a field of the kind; None where it has no one field for them, or more is needed than the bill
    says."""
    found = own_fields(kind, {}, check.limit.unit if check.limit else "")
    many = [{"text": text, "unit": ""} for text in body.get("readings") or ()] or [body["value"]]
    if len(found) != 1 or not _is_row(found[0][0], len(many)):
        return None
    field = found[0][0]
    if _needed(kind) - demanded(kind, check).keys() - {field.name}:
        return None
    values = [float(quantity_in(one, field.unit) or 0) for one in many]
    return {field.name: values if field.form == NUMBERS else values[0]}


def _needed(kind: Kind) -> set[str]:
    return {one.name for one in kind.fields if not one.optional and one.default is None}


def _is_row(field: Field, many: int) -> bool:
    """True where a field takes so many readings."""
    return field.form == NUMBERS or (field.form == NUMBER and many == 1)
