"""Platinum thermometers, thermocouples and thermistors: both ways, refusals."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardown_app.metrology import ntc, pt100, steinhart_hart, thermocouple
from teardown_app.metrology.thermocouple_its90 import PIECES
from tests.metrology.refusal import refuses

near = pytest.approx
platinum, beads = st.floats(-200, 850), st.floats(-100, 400)
letters, shares = st.sampled_from(thermocouple.LETTERS), st.floats(0, 1)
CLASSES = tuple(pt100.TOLERANCES)
BACK_K = 1e-6
A, B, C = 1.125e-3, 2.347e-4, 8.566e-8
NAN = float("nan")


def at(letter: str, share: float) -> float:
    """A temperature of the range, 0 at the cold end, 1 at the hot."""
    low, high = thermocouple.RANGES_C[letter]
    return min(max(low + share * (high - low), low), high)


@given(platinum, st.floats(1, 1e4))
def test_platinum_comes_back(t: float, r0: float) -> None:
    """Over the whole range and any resistance at 0 degC."""
    assert pt100.temperature(pt100.resistance(t, r0=r0), r0=r0) == near(t, abs=1e-9)
    assert pt100.resistance(t, r0=r0) == near(r0 / 100 * pt100.resistance(t), rel=1e-12)


@given(platinum, platinum)
def test_platinum_rises(first: float, second: float) -> None:
    """Resistance with temperature, across 0 degC too."""
    low, high = sorted((first, second))
    assert high - low < 1e-9 or pt100.resistance(low) < pt100.resistance(high)


def test_platinum_at_zero_and_at_the_ends() -> None:
    """Exact at 0 degC; a printed value at the end is taken for the end."""
    assert pt100.resistance(0) == 100 and pt100.temperature(100) == 0
    assert pt100.temperature(18.52) == -200 and pt100.temperature(390.484) == 850
    assert pt100.temperature(185.20, r0=1000) == -200
    assert pt100.temperature(100 + 1e-9) == near(1e-9 / 0.39083, rel=1e-4)


@given(platinum, st.sampled_from(CLASSES))
def test_classes_widen_from_zero_and_from_class_to_class(t: float, one: str) -> None:
    """Least at 0 degC, alike either side, AA below A below B below C."""
    assert pt100.tolerance(0, one) <= pt100.tolerance(t, one)
    assert abs(t) > 200 or pt100.tolerance(t, one) == pt100.tolerance(-t, one)
    assert sorted(CLASSES, key=lambda name: pt100.tolerance(t, name)) == list(CLASSES)
    assert pt100.tolerance_ohm(t, one, r0=1000) == near(10 * pt100.tolerance_ohm(t, one))


@given(letters, shares, st.floats(-20, 85))
@settings(max_examples=300, deadline=None)
def test_thermocouples_come_back(letter: str, share: float, junction: float) -> None:
    """Over the whole range with any cold junction."""
    t = at(letter, share)
    voltage = thermocouple.emf(letter, t, junction=junction)
    assert thermocouple.temperature(letter, voltage, junction=junction) == near(t, abs=BACK_K)


@given(letters, shares, shares)
def test_thermocouples_rise(letter: str, first: float, second: float) -> None:
    """Voltage with temperature."""
    low, high = sorted((at(letter, first), at(letter, second)))
    assert high - low < 1e-6 or thermocouple.emf(letter, low) < thermocouple.emf(letter, high)


@given(letters, shares, shares, shares)
def test_junctions_add_up(letter: str, hot: float, middle: float, cold: float) -> None:
    """Law of intermediate temperatures; both junctions alike give nothing."""
    t, between, junction = (at(letter, share) for share in (hot, middle, cold))
    steps = thermocouple.emf(letter, t, junction=between) + thermocouple.emf(letter, between, junction=junction)
    assert thermocouple.emf(letter, t, junction=junction) == near(steps, abs=1e-12)
    assert thermocouple.emf(letter, t, junction=t) == 0


def test_pieces_meet() -> None:
    """Ranges join without a gap and the voltage steps by less than 1e-7 mV; back is exact beside the border."""
    for letter, (colder, hotter) in PIECES.items():
        assert colder.high == hotter.low
        step = thermocouple.emf(letter, colder.high + 1e-9) - thermocouple.emf(letter, colder.high)
        assert 0 <= step < 2e-7
        for t in (colder.high - 1e-5, colder.high, colder.high + 1e-5):
            assert thermocouple.temperature(letter, thermocouple.emf(letter, t)) == near(t, abs=BACK_K)
    between = thermocouple.emf("J", 760) + 3e-8
    assert thermocouple.temperature("J", between) == near(760, abs=BACK_K)


def test_printed_ends_are_taken_for_the_ends() -> None:
    """The table is rounded to 0.001 mV and the curve is flat at the cold end."""
    for letter, cold, hot in (("K", -6.458, 54.886), ("J", -8.095, 69.553), ("T", -6.258, 20.872)):
        low, high = thermocouple.RANGES_C[letter]
        coldest, hottest = thermocouple.temperature(letter, cold), thermocouple.temperature(letter, hot)
        assert low <= coldest <= low + 0.5 and high - 0.02 <= hottest <= high


def test_hot_iron_constantan_is_inverted_rightly() -> None:
    """Above 760 degC, where inverse polynomials are easily mistaken."""
    for t in range(760, 1201, 10):
        assert thermocouple.temperature("J", thermocouple.emf("J", t)) == near(t, abs=BACK_K)


@given(beads, st.floats(1, 1e6), st.floats(500, 10000), st.floats(-40, 100))
def test_thermistors_come_back(t: float, nominal: float, beta: float, known: float) -> None:
    """Over the whole range; at the nominal point it is the nominal resistance."""
    found = ntc.resistance(t, nominal, beta, nominal_temperature=known)
    assert ntc.temperature(found, nominal, beta, nominal_temperature=known) == near(t, abs=BACK_K)
    assert ntc.resistance(known, nominal, beta, nominal_temperature=known) == nominal


@given(beads, beads)
def test_thermistors_fall(first: float, second: float) -> None:
    """Resistance falls with temperature, by either equation."""
    low, high = sorted((first, second))
    if high - low > 1e-6:
        assert ntc.resistance(low, 1e4, 3950) > ntc.resistance(high, 1e4, 3950)
        assert steinhart_hart.resistance(low, A, B, C) > steinhart_hart.resistance(high, A, B, C)


@given(beads, st.floats(-0.002, 0.002), st.floats(5e-5, 0.01), st.just(0.0) | st.floats(1e-30, 1e-4))
def test_steinhart_hart_comes_back(t: float, a: float, b: float, c: float) -> None:
    """From no third coefficient to a large one."""
    assert steinhart_hart.temperature(steinhart_hart.resistance(t, a, b, c), a, b, c) == near(t, abs=BACK_K)


REFUSED: list[tuple[Callable[[], object], str, str]] = [
    (lambda: pt100.resistance(-200.1), "temperature", "-200 to 850"),
    (lambda: pt100.resistance(0, r0=0), "r0", "above 0 ohm"),
    (lambda: pt100.temperature(18.51), "resistance", "-200 to 850"),
    (lambda: pt100.temperature(390.5), "resistance", "-200 to 850"),
    (lambda: pt100.temperature(NAN), "resistance", "-200 to 850"),
    (lambda: pt100.temperature(100, r0=-100), "r0", "above 0 ohm"),
    (lambda: pt100.tolerance(0, "D"), "tolerance_class", "AA, A, B, C"),
    (lambda: pt100.tolerance(851, "A"), "temperature", "-200 to 850"),
    (lambda: pt100.tolerance_ohm(0, "A", r0=0), "r0", "above 0 ohm"),
    (lambda: thermocouple.emf("X", 0), "letter", "K, J, T"),
    (lambda: thermocouple.emf("K", 1372.1), "temperature", "-270 to 1372"),
    (lambda: thermocouple.emf("J", -211), "temperature", "-210 to 1200"),
    (lambda: thermocouple.emf("T", 20, junction=401), "junction", "-270 to 400"),
    (lambda: thermocouple.temperature("k", 0), "letter", "K, J, T"),
    (lambda: thermocouple.temperature("K", 54.9), "voltage", "-6.458 to 54.886 mV"),
    (lambda: thermocouple.temperature("K", 54.5, junction=25), "voltage", "53.886 mV"),
    (lambda: thermocouple.temperature("T", -6.26), "voltage", "type T"),
    (lambda: thermocouple.temperature("T", NAN), "voltage", "type T"),
    (lambda: thermocouple.temperature("T", 0, junction=-300), "junction", "-270 to 400"),
    (lambda: ntc.resistance(-101, 1e4, 3950), "temperature", "-100 to 400"),
    (lambda: ntc.resistance(25, 0, 3950), "nominal", "above 0 ohm"),
    (lambda: ntc.resistance(25, 1e4, 0), "beta", "500 to 10000"),
    (lambda: ntc.resistance(25, 1e4, 3950, nominal_temperature=500), "nominal_temperature", "-100 to 400"),
    (lambda: ntc.temperature(0, 1e4, 3950), "resistance", "above 0 ohm"),
    (lambda: ntc.temperature(1e4, -1, 3950), "nominal", "above 0 ohm"),
    (lambda: ntc.temperature(1e-4, 1e4, 3950), "resistance", "-100 to 400"),
    (lambda: ntc.temperature(1e12, 1e4, 3950), "resistance", "-100 to 400"),
    (lambda: steinhart_hart.temperature(0, A, B, C), "resistance", "above 0 ohm"),
    (lambda: steinhart_hart.temperature(1e-9, A, B, C), "resistance", "-100 to 400"),
    (lambda: steinhart_hart.temperature(1e4, 1, B, C), "a", "-0.01 to 0.01"),
    (lambda: steinhart_hart.temperature(1e4, A, 0, C), "b", "5e-5 to 0.01"),
    (lambda: steinhart_hart.resistance(25, A, B, -1e-9), "c", "0 to 1e-4"),
    (lambda: steinhart_hart.resistance(401, A, B, C), "temperature", "-100 to 400"),
]


@pytest.mark.parametrize(("wrong", "field", "allowed"), REFUSED)
def test_what_cannot_be_is_refused(wrong: Callable[[], object], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(wrong, field, allowed)
