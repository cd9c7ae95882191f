"""Random input through a file, through `--set` and on the pad comes to one verdict, and moved across its limit it gets
another one: for every kind of measurement. Limits are the computed value itself, a step beside it."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from decimal import Decimal
from functools import partial
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from teardown_app.cli.measure import given_by_set
from teardown_app.domain.bill.check import Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.measure.came_out import came_out
from teardown_app.domain.measure.demanded import whole_fields
from teardown_app.domain.measure.judging import Reading, judge
from teardown_app.domain.measure.measuring import checked, measure, verdict_of
from teardown_app.domain.measure.raw import moved, unit_of
from teardown_app.intake.measured import TRACE, read_measured
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import NUMBERS, TABLE, Field, Kind
from teardown_app.metrology.kinds import all_kinds
from teardown_app.ui.forms.kinds import ACROSS, fields_entered, wanted_of

KINDS = all_kinds()
READ = [
    kind for kind in KINDS.values() if any(raw.own and kind.example.get(raw.field) is not None for raw in kind.reads)
]
JUDGED = [kind for kind in READ if kind.judged and kind.name != TRACE]
SCALES = st.integers(-40, 40).map(lambda n: 1 + n / 1000)
"""How a random input differs from a kind's example: each reading by up to 4 %, so that formulas hold."""


AT_THE_BENCH: dict[str, dict[str, Any]] = {
    "roundness": {"points": None, "radii": [25.01, 25.02, 25.0, 25.015, 25.005, 25.012]},
    "bend": {"radius": None, "chord": 40.0, "height": 5.0},
    "vibration": {"displacement": None, "velocity": 2.8},
    "bonding": {"voltage": None, "current": None, "resistance": 0.085},
}
"""Of kinds that are read in several ways what the pad asks for, where the example has another one."""


def scaled(kind: Kind, factors: list[float]) -> dict[str, Any]:
    """The example with each raw reading scaled by the next factor, in seven digits as somebody would type it."""
    left = iter(factors * 1000)
    fields = {one.name: one for one in kind.fields}
    given = {**kind.example, **AT_THE_BENCH.get(kind.name, {})}
    for raw in kind.reads:
        if raw.own and given.get(raw.field) is not None:
            given[raw.field] = moved(
                fields[raw.field], raw, given[raw.field], lambda one: float(f"{one * next(left):.7g}")
            )
    return {name: value for name, value in given.items() if value is not None}


# the doors


def as_json(kind: Kind, check: Check, given: dict[str, Any]) -> dict[str, Any]:
    return read_measured(kind, json.dumps(given).encode())


def as_text(kind: Kind, check: Check, given: dict[str, Any]) -> dict[str, Any]:
    """JSON whose numbers are texts with their units, with decimal commas where those are clear."""
    fields = {one.name: one for one in kind.fields}
    return read_measured(kind, json.dumps({name: _worded(fields[name], one) for name, one in given.items()}).encode())


def _worded(field: Field, value: Any) -> Any:
    if isinstance(value, list):
        return [_worded(field, one) for one in value]
    return f"{value!r} {field.unit}".strip() if isinstance(value, int | float) else value


def as_set(kind: Kind, check: Check, given: dict[str, Any]) -> dict[str, Any]:
    """Tables have no way through `--set`; they come from the file beside it."""
    tables = [one.name for one in kind.fields if one.form == TABLE]
    words = [f"{name}={_line(value)}" for name, value in given.items() if name not in tables]
    return {**{name: given[name] for name in tables if name in given}, **given_by_set(kind, words)}


def _line(value: Any) -> str:
    return "; ".join(map(repr, value)) if isinstance(value, list) else str(value)


def on_the_pad(kind: Kind, check: Check, given: dict[str, Any]) -> dict[str, Any]:
    """Field by field, reading by reading, cell by cell; what the pad does not ask is the bill's."""
    values: dict[str, Any] = {}
    for one in wanted_of(kind, check):
        if one.name in given:
            values |= _entered(one, given[one.name])
    return fields_entered(kind, check, values)


def _entered(field: Field, value: Any) -> dict[str, str]:
    if field.form == NUMBERS:
        return {f"{field.name} {n}": repr(one) for n, one in enumerate(value, 1)}
    if field.form == TABLE:
        columns = field.columns or tuple(str(n + 1) for n in range(len(value[0])))
        cells = {f"{field.name} {n} {name}": repr(one) for n, row in enumerate(value, 1)
                 for name, one in zip(columns, row, strict=True)}  # fmt: skip
        return {f"{field.name} {ACROSS}": str(len(columns)), **cells}
    return {field.name: str(value)}


Door = Callable[[Kind, Check, dict[str, Any]], dict[str, Any]]
DOORS: tuple[Door, ...] = (as_json, as_text, as_set, on_the_pad)


def by_bill(kind: Kind, given: dict[str, Any], limit: Limit | None) -> Check:
    """A check whose bill gives all that is not read and can stand in a bill."""
    read = {raw.field for raw in kind.reads if raw.own}
    rest = {one.name for one in kind.fields if one.form != TABLE} - read
    told = tuple(f"{name} = {_line(value)}" for name, value in given.items() if name in rest)
    return Check("c", type=kind.name, limit=limit, given=told)


def verdict(kind: Kind, check: Check, brought: dict[str, Any]) -> str:
    """As the workflow judges what a door brought."""
    body = came_out(kind, check, whole_fields(kind, check, brought))
    read = Reading.of(check, body)
    own = str(body.get("verdict", ""))
    return verdict_of(own, judge(check, read).verdict) if read else own


def value_of(kind: Kind, given: dict[str, Any]) -> tuple[Decimal, str]:
    body = came_out(kind, Check("c", type=kind.name), checked(kind.fields, given))
    assume("value" in body)
    return Decimal(body["value"]["text"]), body["value"]["unit"]


FACTORS = st.lists(SCALES, min_size=3, max_size=12)
QUICK = partial(settings, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])


@pytest.mark.parametrize("kind", JUDGED, ids=lambda kind: kind.name)
@QUICK(max_examples=8)
@given(factors=FACTORS, step=st.sampled_from([Decimal("1e-6"), Decimal("0.01")]), upper=st.booleans())
def test_every_door_comes_to_one_verdict_and_the_limit_decides_it(
    kind: Kind, factors: list[float], step: Decimal, upper: bool
) -> None:
    try:
        given_ = scaled(kind, factors)
        value, unit = value_of(kind, given_)
    except BadInput:
        assume(False)
    off = abs(value) * step
    assume(off)
    near = {"accept": value + off, "reject": value - off} if upper else {"accept": value - off, "reject": value + off}
    for wanted, end in near.items():
        low, high = (Decimal(-(10**12)), end) if upper else (end, Decimal(10) ** 12)
        check = by_bill(kind, given_, Limit("", min=low, max=high, unit=unit))
        found = {verdict(kind, check, door(kind, check, given_)) for door in DOORS}
        own = measure(kind, given_).verdict
        assert found == {verdict_of(own, wanted)}
        by_measure = measure(kind, {**given_, "limit_min": float(low), "limit_max": float(high)}).verdict
        assert found == {by_measure}


ALONE = [kind for kind in READ if not kind.judged]
BORDERS = {
    "roughness": ("readings", 0.4), "fit": ("reading", 20.021), "heater": ("measured", 208**2 / 1800),
    "residual-unbalance": ("residual_a", 114.59155902616465),
    "decision": ("value", 9.8355146),
}  # fmt: skip
"""Of kinds that judge by themselves a reading and where it passes its limit: 0.4 um; 20 H7 ends at 20.021 mm
(ISO 286-2); 208 V, 2000 W less 10 % (R = V2 / P); 191 g mm by 300 of 500 mm (ISO 21940-11); 10 less 1.644854 x 0.1
(ISO 14253-1)."""


def test_every_kind_that_judges_by_itself_is_tried() -> None:
    judging = {kind.name for kind in ALONE if measure(kind, kind.example).verdict}
    assert judging == set(BORDERS)


@pytest.mark.parametrize("name", BORDERS)
@QUICK(max_examples=8)
@given(off=st.floats(1e-6, 9e-4))
def test_a_kind_that_judges_by_itself_does_so_at_every_door(name: str, off: float) -> None:
    kind, (field, border) = KINDS[name], BORDERS[name]
    verdicts = []
    for value in (border * (1 - off), border * (1 + off)):
        given_ = {
            one: what for one, what in {**kind.example, "rule": kind.example.get("rule")}.items() if what is not None
        }
        given_[field] = [value, value, value] if name == "roughness" else value
        check = by_bill(kind, given_, None)
        found = {verdict(kind, check, door(kind, check, given_)) for door in (as_json, as_text, as_set)}
        assert len(found) == 1
        verdicts += found
    assert verdicts[0] == "accept" and verdicts[1] in ("reject", "inconclusive")


TRACED = KINDS[TRACE]


@QUICK(max_examples=4)
@given(size=st.integers(200, 900), upper=st.booleans())
def test_a_trace_comes_to_one_verdict_from_csv_json_and_smd(size: int, upper: bool) -> None:
    """Ra of a sine that the cut-off passes is 2/pi of its height (ISO 21920-2); the limit is one percent off."""
    heights = [round(size / 1000 * math.sin(math.tau * n / 100), 4) for n in range(2400)]
    found = value_of(TRACED, {"heights": heights, "step": 0.0005, "cut_off": 0.2})[0]
    limit = Limit("", max=found * Decimal("1.01" if upper else "0.99"), unit="um")
    check = Check("c", type=TRACE, limit=limit, given=("cut_off = 0.2 mm",))
    table = "x (mm);z (um)\n" + "".join(f"{n * 0.0005:.4f};{one}\n".replace(".", ",") for n, one in enumerate(heights))
    rows = "\r\n".join(map(str, heights))
    head = "'ISO 5436 - 2000' 'T'\r\nPRF 0 'x'\r\nCX I 2400 MM 1.0E0 D 5.0E-4\r\n"
    head += "CZ A 2400 UM 1.0E0 D\r\n\x03\r\n"
    smd = f"{head}{rows}\r\n\x03\r\n1\r\n\x03\r\n"
    files = (table, smd, json.dumps({"heights": heights, "step": 0.0005}))
    verdicts = {verdict(TRACED, check, read_measured(TRACED, text.encode())) for text in files}
    assert verdicts == {"accept" if upper else "reject"}
    assert unit_of(TRACED.fields[0], {}) == "um"
