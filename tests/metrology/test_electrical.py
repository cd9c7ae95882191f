"""Windings, insulation, bonding and heating elements: laws that hold for every reading, refusals."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.metrology.bonding import bonding_resistance, conductor_resistance
from teardown_app.metrology.heater import power_at, rating, resistance_band
from teardown_app.metrology.insulation import (
    RANGES_C,
    SYSTEMS,
    WINDINGS,
    absorption_ratio,
    advised_minimum,
    polarisation_index,
    resistance_at_40,
)
from teardown_app.metrology.winding import hot_temperature, resistance_at, unbalance
from tests.metrology.refusal import refuses

near = pytest.approx
ohms, degrees, constants = st.floats(1e-3, 1e4), st.floats(-50, 300), st.floats(200, 300)
systems, phases = st.sampled_from(SYSTEMS), st.lists(st.floats(0.1, 10), min_size=2, max_size=6)
volts, watts = st.floats(1, 1000), st.floats(1, 1e5)
NAN = float("nan")


@given(ohms, degrees, degrees, constants)
def test_resistance_and_temperature_come_back(resistance: float, cold: float, hot: float, k: float) -> None:
    """Resistance to another temperature and back, and the temperature it tells."""
    found = resistance_at(resistance, cold, hot, k=k)
    assert resistance_at(found, hot, cold, k=k) == near(resistance, rel=1e-12)
    assert hot_temperature(resistance, cold, found, k=k) == near(hot, abs=1e-6)


@given(ohms, degrees, constants)
def test_same_temperature_changes_nothing(resistance: float, at: float, k: float) -> None:
    """Winding to its own temperature is what was read, to the last digit; insulation at 40 degC likewise."""
    assert resistance_at(resistance, at, at, k=k) == resistance
    assert hot_temperature(resistance, at, resistance, k=k) == at
    assert all(resistance_at_40(resistance, 40, system=system) == resistance for system in SYSTEMS)


@given(ohms, degrees, degrees)
def test_a_hot_winding_has_more_resistance(resistance: float, first: float, second: float) -> None:
    """Rises with temperature."""
    low, high = sorted((first, second))
    assert resistance_at(resistance, 20, low) <= resistance_at(resistance, 20, high)
    assert high - low < 1e-6 or resistance_at(resistance, 20, low) < resistance_at(resistance, 20, high)


@given(phases, st.floats(1e-6, 1e6), st.data())
def test_unbalance_knows_neither_scale_nor_order(read: list[float], scale: float, data: st.DataObject) -> None:
    """In milliohm or ohm, whichever phase comes first."""
    found = unbalance(read)
    assert unbalance([one * scale for one in read]).percent == near(found.percent, rel=1e-9, abs=1e-10)
    assert unbalance(data.draw(st.permutations(read))).percent == near(found.percent, rel=1e-9, abs=1e-10)
    assert found.mean == near(sum(read) / len(read))
    assert abs(read[found.at] - found.mean) == near(found.percent * found.mean / 100, abs=1e-10)


def test_unbalance_of_equal_phases_is_nothing() -> None:
    """And the first is named on a tie; values of any size do."""
    assert unbalance([0.1, 0.1, 0.1]).percent == near(0, abs=1e-12)
    assert unbalance([1.0, 1.2]).at == 0
    assert unbalance([1e-300, 1.02e-300, 1.01e-300]).percent == near(0.990099, abs=1e-6)
    assert unbalance([1e300, 1.02e300, 1.01e300]).percent == near(0.990099, abs=1e-6)


@given(systems, st.floats(0, 1), st.floats(0, 1))
def test_correction_rises_with_temperature(system: str, first: float, second: float) -> None:
    """The hotter it was read the more it is at 40 degC; across the border of the two formulas too."""
    low, high = RANGES_C[system]
    cool, warm = sorted(low + share * (high - low) for share in (first, second))
    at = [resistance_at_40(100, t, system=system) for t in (cool, warm)]
    assert at[0] <= at[1] and (warm - cool < 1e-6 or at[0] < at[1])
    assert (at[0] <= 100) == (cool <= 40) or abs(cool - 40) < 1e-9


@given(ohms, systems, st.floats(10, 85), st.floats(1, 100))
def test_correction_goes_with_the_reading(resistance: float, system: str, at: float, times: float) -> None:
    """Megohm or gigohm."""
    once = resistance_at_40(resistance, at, system=system)
    assert resistance_at_40(times * resistance, at, system=system) == near(times * once)


def test_constants_of_the_thermosetting_formula_can_be_changed() -> None:
    """Each for its own range."""

    def at(t: float, **constants: float) -> float:
        return resistance_at_40(100, t, system="thermosetting", **constants)

    assert at(60, above_40=5000) > at(60) == at(60, below_40=2000)
    assert at(20, below_40=2000) < at(20) == at(20, above_40=5000)


@given(ohms, ohms, st.floats(1e-3, 1e3))
def test_index_is_a_quotient(first: float, second: float, scale: float) -> None:
    """Independent of the unit, one for readings that stand still."""
    for of in (polarisation_index, absorption_ratio):
        assert of(first, second) == near(of(scale * first, scale * second))
        assert of(first, second) * of(second, first) == near(1) and of(first, first) == 1


def test_advice_steps_at_one_kilovolt() -> None:
    """Form-wound from 1 kV on 100, below 5; old windings with the voltage."""
    assert [advised_minimum("form-wound", v) for v in (999.9, 1000)] == [5, 100]
    assert [advised_minimum("before 1970", v) for v in (1000, 6600)] == near([2, 7.6])
    assert all(advised_minimum(winding, 400) > 0 for winding in WINDINGS)


@given(st.floats(1e-6, 100), st.floats(0.1, 100), st.floats(1e-6, 1))
def test_leads_are_taken_off(path: float, current: float, leads: float) -> None:
    """What is left is the path; none is left where the leads are all."""
    assert bonding_resistance((path + leads) * current, current, lead_resistance=leads * (1 - 1e-12)) == near(
        path, rel=1e-9, abs=1e-9
    )
    assert bonding_resistance(current, current, lead_resistance=1) == 0


@given(st.floats(0, 1000), st.floats(0.1, 300))
def test_conductors_add_up(length: float, area: float) -> None:
    """Twice the length twice, twice the area half."""
    once = conductor_resistance(length, area)
    assert conductor_resistance(2 * length, area) == near(2 * once)
    assert conductor_resistance(length, 2 * area) == near(once / 2)


@given(volts, watts, st.floats(0, 50), st.floats(0, 90))
def test_band_holds_the_plate(voltage: float, power: float, plus: float, minus: float) -> None:
    """The plate's resistance lies within the band, and the band's ends give the power at its limits."""
    low, high = resistance_band(voltage, power, plus=plus, minus=minus)
    assert low <= rating(voltage, power).resistance <= high
    assert voltage**2 / low == near(power * (1 + plus / 100)) and voltage**2 / high == near(power * (1 - minus / 100))


@given(volts, watts, volts)
def test_power_comes_back(voltage: float, power: float, other: float) -> None:
    """At another voltage and back; at its own it is the plate's; current times voltage too."""
    assert power_at(other, power_at(voltage, power, other), voltage) == near(power)
    assert power_at(voltage, power, voltage) == power and power_at(voltage, power, 0) == 0
    assert rating(voltage, power).current * voltage == near(power)


REFUSED: list[tuple[Callable[[], object], str, str]] = [
    (lambda: resistance_at(0, 20, 25), "resistance", "above 0 ohm"),
    (lambda: resistance_at(2, -51, 25), "temperature", "-50 to 300"),
    (lambda: resistance_at(2, 20, 301), "reference", "-50 to 300"),
    (lambda: resistance_at(2, 20, 25, k=0), "k", "200 to 300"),
    (lambda: resistance_at(2, NAN, 25), "temperature", "-50 to 300"),
    (lambda: hot_temperature(0, 20, 2), "cold_resistance", "above 0"),
    (lambda: hot_temperature(2, 400, 2), "cold_temperature", "-50 to 300"),
    (lambda: hot_temperature(2, 20, -2), "hot_resistance", "above 0"),
    (lambda: hot_temperature(2, 20, 20), "hot_resistance", "2310.5 degC"),
    (lambda: unbalance([1.0]), "resistances", "2 or more"),
    (lambda: unbalance([]), "resistances", "2 or more"),
    (lambda: unbalance([1.0, 0.0, 1.0]), "resistances, no. 2", "above 0"),
    (lambda: unbalance([1.0, NAN]), "resistances, no. 2", "numbers in ohm"),
    (lambda: resistance_at_40(0, 20, system="thermoplastic"), "resistance", "above 0"),
    (lambda: resistance_at_40(1, 20, system="mica"), "system", "thermoplastic or thermosetting"),
    (lambda: resistance_at_40(1, 9.9, system="thermosetting"), "temperature", "10 to 85"),
    (lambda: resistance_at_40(1, 101, system="thermoplastic"), "temperature", "-10 to 100"),
    (lambda: resistance_at_40(1, 20, system="thermosetting", below_40=0), "below_40", "above 0"),
    (lambda: resistance_at_40(1, 60, system="thermosetting", above_40=-1), "above_40", "above 0"),
    (lambda: polarisation_index(0, 1), "one_minute", "above 0"),
    (lambda: polarisation_index(1, 0), "ten_minutes", "above 0"),
    (lambda: absorption_ratio(0, 1), "half_minute", "above 0"),
    (lambda: absorption_ratio(1, 0), "one_minute", "above 0"),
    (lambda: advised_minimum("wound", 400), "winding", "form-wound"),
    (lambda: advised_minimum("form-wound", 0), "voltage", "50000 V"),
    (lambda: bonding_resistance(-1, 10), "voltage", "0 V or above"),
    (lambda: bonding_resistance(1, 0), "current", "above 0 A"),
    (lambda: bonding_resistance(1, 10, lead_resistance=-1), "lead_resistance", "0 ohm or above"),
    (lambda: bonding_resistance(1, 10, lead_resistance=0.2), "lead_resistance", "at most what was read, 0.1 ohm"),
    (lambda: conductor_resistance(-1, 1), "length", "0 m or above"),
    (lambda: conductor_resistance(1, 0), "area", "above 0 mm2"),
    (lambda: conductor_resistance(1, 1, resistivity=0), "resistivity", "above 0"),
    (lambda: rating(0, 1), "voltage", "above 0 V"),
    (lambda: rating(1, 0), "power", "above 0 W"),
    (lambda: power_at(0, 1, 1), "rated_voltage", "above 0 V"),
    (lambda: power_at(1, 0, 1), "rated_power", "above 0 W"),
    (lambda: power_at(1, 1, -1), "voltage", "0 V or above"),
    (lambda: resistance_band(1, 1, plus=-1), "plus", "0 % or above"),
    (lambda: resistance_band(1, 1, minus=100), "minus", "below 100"),
]


@pytest.mark.parametrize(("wrong", "field", "allowed"), REFUSED)
def test_what_cannot_be_is_refused(wrong: Callable[[], object], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(wrong, field, allowed)
