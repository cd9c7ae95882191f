"""One reader of numbers and units at every door: what could be read in two ways is refused, a unit goes where its like
goes, an unknown one goes nowhere. Readings are invented."""

from __future__ import annotations

import json
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.domain.measure.measuring import fields_of
from teardown_app.domain.measure.reading import read_quantity
from teardown_app.domain.measure.torque import newton_metres, read_torque
from teardown_app.domain.measure.typed import meant, without_unit
from teardown_app.domain.measure.units import converted, factor
from teardown_app.domain.parts.instrument import read_doubt, read_uncertainty
from teardown_app.intake.measured import TRACE, read_measured
from teardown_app.intake.trace_units import length_in_mm
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import NUMBER, NUMBERS, Field, Kind
from teardown_app.metrology.kinds import all_kinds

KINDS = all_kinds()

NIST_SP_811_B = (
    ("kPa", "mbar", "10"), ("hPa", "mbar", "1"), ("psi", "mbar", "68.94757293168"), ("mbar", "Pa", "100"),
    ("atm", "mbar", "1013.25"), ("min", "s", "60"), ("h", "min", "60"), ("l/min", "l/h", "60"), ("mil", "mm", "0.0254"),
    ("mil", "um", "25.4"), ("Angstrom", "nm", "0.1"), ("Å", "um", "0.0001"), ("inch", "mm", "25.4"),
    ("micron", "um", "1"), ("uin", "um", "0.0254"), ("ft", "in", "12"), ("lbf ft", "lbf in", "12"),
    ("lbf in", "N m", "0.1129848290276167"), ("m3", "l", "1000"), ("Mohm cm", "kohm cm", "1000"),
    ("uS/cm", "mS/m", "0.1"), ("Pa m3/s", "mbar l/s", "10"), ("rpm", "r/min", "1"), ("mm2", "cm2", "0.01"),
    ("g mm/kg", "um", "1"),
)  # fmt: skip
"""NIST SP 811, appendix B, and SI Brochure, 9th edition, table 7."""


@pytest.mark.parametrize(("one", "other", "times"), NIST_SP_811_B)
def test_a_unit_goes_where_its_like_goes(one: str, other: str, times: str) -> None:
    assert factor(one, other) == Decimal(times)
    assert converted(Decimal(times), other, one) == 1


@pytest.mark.parametrize(
    ("one", "other"),
    [("min", "m"), ("mil", "l"), ("h", "H"), ("furlong", "mm"), ("mm", "mm2"), ("N m", "N"), ("C", "K")],
)
def test_what_measures_something_else_goes_nowhere(one: str, other: str) -> None:
    assert factor(one, other) is None and converted(Decimal(1), other, one) is None


@given(
    st.decimals(-10000, 10000, places=4), st.sampled_from([("in", "mm"), ("psi", "kPa"), ("lb", "kg"), ("min", "h")])
)
def test_there_and_back_is_the_same_number(value: Decimal, units: tuple[str, str]) -> None:
    there = converted(value, *units)
    assert there is not None and abs((converted(there, *units[::-1]) or 0) - value) < Decimal("1e-60")


# the doors

Door = Callable[[Kind, Field, str], Any]


def as_set(kind: Kind, field: Field, typed: str) -> Any:
    return meant(field, typed)


def as_json(kind: Kind, field: Field, typed: str) -> Any:
    value: Any = [typed] if field.form == NUMBERS else typed
    return read_measured(kind, json.dumps({field.name: value}).encode())[field.name]


def as_row(kind: Kind, field: Field, typed: str) -> Any:
    return read_measured(kind, f"field;value\n{field.name};{typed}\n".encode())[field.name]


def as_comment(kind: Kind, field: Field, typed: str) -> Any:
    return read_measured(kind, f"# {field.name}: {typed}\n".encode())[field.name]


DOORS: tuple[Door, ...] = (as_set, as_json, as_row, as_comment)
FIELDS = [
    (kind, field)
    for kind in KINDS.values()
    for field in fields_of(kind)
    if field.form in (NUMBER, NUMBERS) and kind.name != TRACE
]
NAMES = [f"{kind.name}: {field.name}" for kind, field in FIELDS]


@pytest.mark.parametrize("door", DOORS)
@pytest.mark.parametrize(("kind", "field"), FIELDS, ids=NAMES)
def test_what_could_be_read_in_two_ways_is_refused_in_every_field(kind: Kind, field: Field, door: Door) -> None:
    for typed in ("1,500", f"-12,345 {field.unit}"):
        with pytest.raises(BadInput) as refused:
            door(kind, field, typed)
        assert field.name in refused.value.field
    one = door(kind, field, f"1,5 {field.unit}")
    assert (one[0] if isinstance(one, list) else one) == 1.5


@pytest.mark.parametrize("door", DOORS)
@pytest.mark.parametrize(("kind", "field"), FIELDS, ids=NAMES)
def test_an_unknown_unit_is_refused_in_every_field(kind: Kind, field: Field, door: Door) -> None:
    with pytest.raises(BadInput) as refused:
        door(kind, field, "3 furlong")
    assert field.name in refused.value.field


@pytest.mark.parametrize(("kind", "field"), FIELDS, ids=NAMES)
def test_every_door_reads_the_same_number_and_unit(kind: Kind, field: Field) -> None:
    units = ("kPa", "psi", "min", "Angstrom", "mil", "g", "kohm")
    for unit in [one for one in units if factor(one, field.unit) not in (None, 1)]:
        found = {str(door(kind, field, f"0.37 {unit}")) for door in DOORS}
        assert len(found) == 1 and found != {str(door(kind, field, "0.37")) for door in DOORS}


# headings, tables, other numbers


@pytest.mark.parametrize(("name", "text"), [
    ("dispensed-volume", "weighings (g)\n0.1\n0.2\n"),
    ("winding-unbalance", "resistances (furlong)\n1\n2\n"),
    ("particle-counts", "# count (mm): 3\n"),
])  # fmt: skip
def test_a_unit_over_numbers_that_have_none_or_another_is_refused(name: str, text: str) -> None:
    with pytest.raises(BadInput) as refused:
        read_measured(KINDS[name], text.encode())
    assert "heading" in refused.value.field


def test_numbers_beside_it_settle_what_a_comma_is() -> None:
    kind = KINDS["winding-unbalance"]
    assert read_measured(kind, b"resistances (ohm)\n1,500\n0,35\n") == {"resistances": [1.5, 0.35]}
    assert meant(kind.fields[0], "1,500; 0,35") == [1.5, 0.35]
    for text in (b"resistances (ohm)\n1,500\n2,500\n", b"resistances (ohm);x\n1,500;\n0.35;\n"):
        with pytest.raises(BadInput):
            read_measured(kind, text)


def test_a_trace_is_asked_the_same() -> None:
    kind = KINDS[TRACE]
    clear = read_measured(kind, b"x (mm);z (um)\n0;1,500\n0,0005;1,6\n")
    assert clear["heights"] == [1.5, 1.6]
    with pytest.raises(BadInput) as refused:
        read_measured(kind, b"z (um)\n1,500\n1,600\n", {"step": 0.0005})
    assert "two ways" in refused.value.allowed
    assert length_in_mm("mil") == 0.0254 and length_in_mm("furlong") is None


@pytest.mark.parametrize("typed", ["1,500 um", "-1,500 um", "12,345 N m"])
def test_uncertainty_error_and_torque_are_read_alike(typed: str) -> None:
    assert read_quantity(typed) is None and read_uncertainty(typed) is None and read_doubt(typed) is None
    assert isinstance(read_torque(typed), str) and newton_metres(typed) is None


def test_a_unit_that_nobody_wrote_is_said() -> None:
    kind = KINDS["bonding"]
    given = read_measured(kind, b'{"voltage": "850 mV", "current": 10}')
    assert without_unit(kind, given) == "No unit was written; taken in its own: current A."
    assert without_unit(kind, read_measured(kind, b"voltage (mV);850\ncurrent;10 A\n")) == ""
