"""Readings as typed: prefixes, units, and the edge of a limit."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.measure.reading import read_quantity, verdict
from teardown_app.domain.measure.units import EXPONENTS, factor

SI_BROCHURE_TABLE_7 = {
    "da": 1, "h": 2, "k": 3, "M": 6, "G": 9, "T": 12, "P": 15, "E": 18, "Z": 21, "Y": 24, "R": 27, "Q": 30,
    "d": -1, "c": -2, "m": -3, "u": -6, "n": -9, "p": -12, "f": -15, "a": -18, "z": -21, "y": -24, "r": -27, "q": -30,
}  # fmt: skip
"""SI Brochure, 9th edition, table 7; u for the micro sign."""

NUMBERS = st.decimals(-1000000, 1000000, places=6)


@pytest.mark.parametrize(("prefix", "power"), SI_BROCHURE_TABLE_7.items())
def test_every_prefix(prefix: str, power: int) -> None:
    assert factor(prefix + "m", "m") == Decimal(10) ** power
    assert factor("V", prefix + "V") == Decimal(10) ** -power


def test_no_prefix_is_one_more_than_the_table_has() -> None:
    assert EXPONENTS.keys() - {""} == SI_BROCHURE_TABLE_7.keys()


NO_READING = ("", "um", "0.3.1", "1 2 mm", "1,234.5 mm", "٣ mm", "nan", "inf", "1e99 mm", "1" * 29)


@pytest.mark.parametrize("typed", NO_READING)
def test_what_is_no_reading(typed: str) -> None:
    assert read_quantity(typed) is None


@pytest.mark.parametrize(("one", "other"), [("Nm", "mm"), ("Pa", "mm"), ("min", "m"), ("rpm", "m"), ("%", "um")])
def test_different_things_have_no_factor(one: str, other: str) -> None:
    assert factor(one, other) is None


@given(value=NUMBERS, limit=NUMBERS, power=st.sampled_from(["n", "u", "m", "", "k", "M"]))
def test_a_prefix_never_changes_the_verdict(value: Decimal, limit: Decimal, power: str) -> None:
    """Moving the decimal point and the prefix together leaves both sides of a limit where they were."""
    moved = value.scaleb(-SI_BROCHURE_TABLE_7.get(power, 0))
    read = read_quantity(f"{moved} {power}m")
    assert read is not None
    times = factor(read.unit, "m")
    assert times is not None
    assert verdict(Limit("", max=limit), read.value * times) == ("accept" if value <= limit else "reject")
    assert verdict(Limit("", min=limit), read.value * times) == ("accept" if value >= limit else "reject")
