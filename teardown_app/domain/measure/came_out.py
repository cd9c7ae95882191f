"""What comes out of the fields of a kind, as a record holds it; the verdict on that, also with an error taken off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import partial
from typing import Any, NamedTuple

from teardown_app.domain.bill.check import Check
from teardown_app.domain.measure.judging import Reading, judge
from teardown_app.domain.measure.measuring import computed, numbers_in, under_limit, verdict_of, without_noise
from teardown_app.domain.measure.raw import moved, own_fields, own_readings, unit_of
from teardown_app.domain.measure.units import factor
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import Kind, Result


class Error(NamedTuple):
    """How much too much an instrument showed: a size in its unit, and a share of what it read in truth."""

    size: Decimal
    share: Decimal


def came_out(kind: Kind, check: Check, fields: Mapping[str, Any]) -> dict[str, Any]:
    """All values, what is said, the kind's own verdict; and the value that is judged, or the raw readings where the
    kind judges by itself. Raises `BadInput`."""
    result = under_limit(kind, check.limit, computed(kind, fields))
    out = {one.name: {"value": one.value, "unit": one.unit} for one in result.values if one.value is not None}
    body: dict[str, Any] = {} if kind.judged else own_readings(kind, check, fields)
    body["came_out"] = out
    if result.notes:
        body["said"] = list(result.notes)
    if result.verdict:
        body["verdict"] = result.verdict
    return body | _value(kind, fields, result)


def _value(kind: Kind, fields: Mapping[str, Any], result: Result) -> dict[str, Any]:
    """What is judged of a result, without the noise of the computing."""
    judged = next((one for one in result.values if one.name == kind.judged and one.value is not None), None)
    if judged is None:
        return {}
    value = without_noise(float(judged.value or 0), numbers_in(kind, fields, judged.unit))
    return {"value": {"text": f"{value:f}", "unit": judged.unit}}


def verdict_without(check: Check, kind: Kind, body: Mapping[str, Any], unit: str, error: Error) -> str:
    """The verdict of a record's raw readings with an error taken off each that is read in such a unit.

    Empty where nobody can compute that: no reading is of that sort, or what
    is left is no reading.
    """
    fields = _corrected(kind, body["measured"], unit, error)
    if fields is None:
        return ""
    try:
        out = came_out(kind, check, fields)
    except BadInput:
        return ""
    read = Reading.of(check, {**{name: body[name] for name in ("uncertainty", "against") if name in body}, **out})
    own = str(out.get("verdict", ""))
    return verdict_of(own, judge(check, read).verdict) if read else own


def _corrected(kind: Kind, given: Mapping[str, Any], unit: str, error: Error) -> dict[str, Any] | None:
    found = [(field, raw) for field, raw in own_fields(kind, given, unit) if given.get(field.name) is not None]
    if error.share == -1 or not found:
        return None
    fields = dict(given)
    for field, raw in found:
        off = float(error.size * (factor(unit, unit_of(field, given)) or 0))
        fields[field.name] = moved(field, raw, given[field.name], partial(_truth, off, float(1 + error.share)))
    return fields


def _truth(off: float, times: float, shown: float) -> float:
    return (shown - off) / times


def sorts_read(kind: Kind, given: Mapping[str, Any]) -> Iterator[str]:
    """One unit of each sort that an instrument of the kind reads."""
    fields = {one.name: one for one in kind.fields}
    seen: list[str] = []
    for raw in kind.reads:
        unit = unit_of(fields[raw.field], given)
        if raw.own and given.get(raw.field) is not None and all(factor(unit, one) is None for one in seen):
            seen.append(unit)
            yield unit
