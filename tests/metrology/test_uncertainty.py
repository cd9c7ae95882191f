"""Uncertainties: what must hold for any readings and parts, what is refused, and the kinds as a person uses them."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.metrology.coverage import coverage_factor, effective_degrees
from teardown_app.metrology.kinds.decision import KINDS
from teardown_app.metrology.uncertainty import (
    combined,
    expanded,
    from_limits,
    from_resolution,
    of_instrument,
    repeated_readings,
    standard,
)
from tests.metrology.refusal import refuses

KIND = {kind.name: kind for kind in KINDS}


@given(st.lists(st.floats(-1e3, 1e3), min_size=2, max_size=30), st.sampled_from([-1e6, 0.0, 1e6]))
def test_an_offset_leaves_the_spread_as_it_is(readings: list[float], offset: float) -> None:
    """Coordinates far from zero lose nothing but their own digits."""
    here, there = repeated_readings(readings), repeated_readings([one + offset for one in readings])
    assert there.mean == pytest.approx(here.mean + offset, abs=1e-9)
    assert there.s == pytest.approx(here.s, abs=1e-9)


def test_equal_readings_have_no_spread() -> None:
    """Not even that of the machine's digits."""
    assert repeated_readings([0.1] * 7) == (0.1, 0.0, 0.0, 7)
    found = KIND["repeated-readings"].compute(readings=[0.1] * 7)
    assert "resolution" in found.notes[0]


@given(st.lists(st.floats(0.0, 1e6), min_size=1, max_size=8), st.floats(1.0, 50.0))
def test_a_combined_uncertainty_lies_between_its_greatest_part_and_the_sum(parts: list[float], v: float) -> None:
    """And its degrees of freedom between the least of a part and their sum."""
    u = combined(parts)
    assert max(parts) * (1 - 1e-12) <= u <= sum(parts) * (1 + 1e-12)
    if min(parts) > 1e-3:
        assert v * (1 - 1e-9) <= effective_degrees(parts, [v] * len(parts)) <= v * len(parts) * (1 + 1e-9)


def _budget(**other: Any) -> Any:
    kind = KIND["uncertainty-budget"]
    return kind.compute(**{**kind.example, **other})


REFUSED: list[tuple[Callable[[], Any], str, str]] = [
    (lambda: repeated_readings([1.0]), "readings", "2 or more"),
    (lambda: repeated_readings([1e308, -1e308]), "readings", "differences"),
    (lambda: from_resolution(-0.1), "resolution", "0 or above"),
    (lambda: from_limits(-0.1), "half_width", "0 or above"),
    (lambda: of_instrument(1.0, -0.1), "fixed", "0 or above"),
    (lambda: of_instrument(1.0, 0.1, -0.1), "share", "0 or above"),
    (lambda: of_instrument(math.inf, 0.1, 0.1), "reading", "a number"),
    (lambda: standard(-1.0), "uncertainty", "0 or above"),
    (lambda: standard(1.0, 0.0), "k", "above 0"),
    (lambda: expanded(-1.0), "u", "0 or above"),
    (lambda: combined([]), "uncertainties", "1 or more"),
    (lambda: combined([1.0, -1.0]), "uncertainties, no. 2", "0 or above"),
    (lambda: coverage_factor(0.5), "degrees", "1 or above"),
    (lambda: coverage_factor(3.0, 1.0), "level", "below 1"),
    (lambda: effective_degrees([1.0, 2.0], [3]), "degrees", "as many as uncertainties"),
    (lambda: effective_degrees([1.0], [0.0]), "degrees", "1 or above"),
    (lambda: effective_degrees([-1.0], [2]), "uncertainties", "0 or above"),
    (lambda: _budget(reading=None, readings=None), "reading", "a share of the reading"),
    (lambda: _budget(instrument_says="guess"), "instrument_says", "expanded or limits"),
    (lambda: _budget(readings=[1.0, 1.0], resolution=0.0, instrument=0.0, instrument_share=0.0, others=None),
     "budget", "a resolution"),
]  # fmt: skip


@pytest.mark.parametrize(("call", "field", "allowed"), REFUSED)
def test_a_number_that_cannot_be_right_is_refused(call: Callable[[], Any], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(call, field, allowed)


@pytest.mark.parametrize(("name", "value", "is_"), [
    ("repeated-readings", "mean", 10.024),
    ("repeated-readings", "s", 0.011402),
    ("uncertainty-budget", "combined", 0.016873),
    ("uncertainty-budget", "expanded", 0.033746),
])  # fmt: skip
def test_the_example_of_each_kind_is_computed(name: str, value: str, is_: float) -> None:
    """As the command shows it."""
    kind = KIND[name]
    found = kind.compute(**kind.example)
    assert found[value] == pytest.approx(is_, abs=6e-7)
    assert not found.verdict
    assert {field.name for field in kind.fields} == set(kind.example)


def test_a_budget_takes_what_is_given_and_says_what_is_weak() -> None:
    """Limits of error for a certificate's uncertainty, one reading for many, few readings named."""
    limits = _budget(readings=None, reading=50.0, resolution=0.0, instrument=0.02, instrument_share=0.001,
                     instrument_says="limits", others=None)  # fmt: skip
    assert limits["combined"] == pytest.approx(0.07 / math.sqrt(3), rel=1e-12)
    assert (limits["largest"], limits["effective_degrees"], limits.notes) == ("u_instrument", None, ())
    few = _budget(readings=[1.0, 2.0], instrument=0.0, instrument_share=0.0, others=None, resolution=0.0)
    assert few["effective_degrees"] == pytest.approx(1.0)
    assert "k = 13.97" in few.notes[0]
