"""Leaks, water, gas and filters: laws that hold for every test, refusals, what each kind says."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.metrology.bubble_point import capillary_pressure, pore_diameter
from teardown_app.metrology.choked_flow import critical_ratio, orifice_flow, standard_flow
from teardown_app.metrology.dispensed_volume import dispensed_volume
from teardown_app.metrology.gas_leak import with_other_gas
from teardown_app.metrology.gases import GASES, Gas
from teardown_app.metrology.kind import Result
from teardown_app.metrology.kinds.fluid import KINDS
from teardown_app.metrology.leak import allowed_drop, pressure_decay, pressure_per_kelvin
from teardown_app.metrology.leak_unit import UNITS, convert
from teardown_app.metrology.pure_water import pure_water_resistivity, resistivity_at_25
from teardown_app.metrology.z_factor import air_density, water_density, z_factor
from tests.metrology.refusal import refuses

KIND = {kind.name: kind for kind in KINDS}
near = pytest.approx
N2 = Gas.named("nitrogen")
pressures, degrees, volumes = st.floats(1, 1e5), st.floats(-50, 150), st.floats(1e-3, 1e4)
units, gases = st.sampled_from(UNITS), st.sampled_from(list(GASES.values()))


def worked(name: str, **changed: Any) -> Result:
    """A kind's example with something else in it."""
    return KIND[name].compute(**(dict(KIND[name].example) | changed))


@given(volumes, pressures, pressures, st.floats(1, 1e5), degrees)
def test_steady_temperature_compensates_nothing(v: float, p1: float, p2: float, t: float, c: float) -> None:
    """Raw and compensated are the same number, and so is the drop they allow."""
    found = pressure_decay(v, p1, p2, t, temperature_start=c, temperature_end=c)
    assert found.raw == found.compensated == pressure_decay(v, p1, p2, t).compensated
    if p1 >= p2:
        assert allowed_drop(found.raw, v, t) == near(p1 - p2)


@given(pressures, degrees, st.floats(0.01, 50))
def test_a_tight_vessel_that_warms_does_not_leak(p: float, c: float, more: float) -> None:
    """Pressure follows kelvin: compensated nothing, raw a leak inwards of what 1 K feigns."""
    per_kelvin = pressure_per_kelvin(p, c)
    found = pressure_decay(2, p, p + more * per_kelvin, 10, temperature_start=c, temperature_end=c + more)
    assert found.compensated == near(0, abs=1e-12 * p) and found.raw == near(-0.2 * more * per_kelvin, rel=1e-6)


@given(st.floats(-1e6, 1e6), units, units, degrees, st.floats(-20, 30))
def test_units_of_leak_rates_come_back(rate: float, first: str, second: str, gas: float, standard: float) -> None:
    """There and back at any temperature of gas and of the standard volume."""
    there = convert(rate, first, second, gas_temperature=gas, standard_temperature=standard)
    assert convert(there, second, first, gas_temperature=gas, standard_temperature=standard) == near(rate, rel=1e-12)


@given(st.floats(0, 1e6), gases, gases, st.sampled_from(["viscous", "molecular"]))
def test_other_gases_come_back(rate: float, first: Gas, second: Gas, regime: str) -> None:
    """There and back by the same regime."""
    assert with_other_gas(with_other_gas(rate, first, second, regime), second, first, regime) == near(rate)


@given(st.floats(0, 49), st.floats(0.05, 1))
def test_water_at_25_stays_and_warm_water_reads_low(t: float, share: float) -> None:
    """No change at 25 degC; pure water is always 18.188; the same reading is worth more in warmer water."""
    assert resistivity_at_25(18.188 * share, 25) == near(18.188 * share)
    assert resistivity_at_25(pure_water_resistivity(t), t) == near(pure_water_resistivity(25))
    reading = share * pure_water_resistivity(t + 1)
    assert resistivity_at_25(reading, t + 1) > resistivity_at_25(reading, t)


@given(st.floats(0.1, 20), st.floats(0, 1), st.floats(0, 1), gases)
def test_flow_never_falls_with_a_lower_pressure_behind(before: float, a: float, b: float, gas: Gas) -> None:
    """Nothing flows at equal pressures; once choked nothing more comes."""
    low, high = sorted((a, b))
    less, more = (orifice_flow(1, before, one * before, 20, gas=gas, discharge=1) for one in (high, low))
    assert 0 <= less.mass_flow <= more.mass_flow * (1 + 1e-12)
    assert orifice_flow(1, before, before, 20, gas=gas, discharge=1).mass_flow == 0
    if less.choked:
        assert more.mass_flow == near(less.mass_flow)


@given(gases, st.floats(1e-9, 1e-6))
def test_choked_and_free_flow_meet(gas: Gas, beside: float) -> None:
    """No step at the critical ratio."""
    at = 5 * critical_ratio(gas.heat_ratio)
    both = [orifice_flow(1, 5, one, 20, gas=gas, discharge=1) for one in (at * (1 - beside), at * (1 + beside))]
    assert both[0].choked and not both[1].choked
    assert both[0].mass_flow == near(both[1].mass_flow, rel=1e-9)


@given(st.floats(0.1, 10), st.floats(1, 100), st.floats(0, 89), st.floats(0.1, 1))
def test_pore_and_pressure_come_back(pore: float, tension: float, angle: float, shape: float) -> None:
    """There and back."""
    pressure = capillary_pressure(tension, pore, contact_angle=angle, shape_factor=shape)
    assert pore_diameter(pressure, tension, contact_angle=angle, shape_factor=shape) == near(pore)


@given(st.lists(st.floats(1, 1e5), min_size=10, max_size=30), st.floats(0.1, 10), st.floats(1, 1e5))
def test_volume_goes_with_mass(masses: list[float], k: float, nominal: float) -> None:
    """Twice the mass at twice the set volume: the same errors in %."""
    one = dispensed_volume(masses, nominal, 1.0029)
    other = dispensed_volume([k * mass for mass in masses], k * nominal, 1.0029)
    assert other.mean == near(k * one.mean)
    assert other.random_error == near(k * one.random_error, abs=1e-9 * k * one.mean)
    assert other.systematic_percent == near(one.systematic_percent, abs=1e-6)


@given(st.floats(10, 34), st.floats(600, 1099))
def test_z_grows_with_warmth_and_pressure(t: float, p: float) -> None:
    """Warm water is lighter; thick air lifts more."""
    assert z_factor(t + 1, p) > z_factor(t, p) < z_factor(t, p + 1)


TEN = [100.0] * 10
REFUSED: list[tuple[Callable[[], object], str, str]] = [
    (lambda: pressure_decay(0, 2, 1, 1), "volume", "above 0 l"),
    (lambda: pressure_decay(1, 0, 1, 1), "start", "above 0 mbar absolute"),
    (lambda: pressure_decay(1, 1, -1, 1), "end", "absolute"),
    (lambda: pressure_decay(1, 2, 1, 0), "duration", "above 0 s"),
    (lambda: pressure_decay(1, 2, 1, 1, temperature_start=20), "temperature_end", "or neither"),
    (lambda: pressure_decay(1, 2, 1, 1, temperature_start=-274, temperature_end=20), "temperature_start", "-273.15"),
    (lambda: pressure_per_kelvin(0, 20), "pressure", "above 0"),
    (lambda: allowed_drop(-1, 1, 1), "leak_rate", "0 mbar l/s or above"),
    (lambda: convert(float("nan"), "sccm", "sccm"), "rate", "a number"),
    (lambda: convert(1, "cc", "sccm"), "given", "sccm"),
    (lambda: convert(1, "sccm", "cc"), "wanted", "mbar l/s"),
    (lambda: convert(1, "sccm", "sccm", gas_temperature=-300), "gas_temperature", "-273.15"),
    (lambda: convert(1, "sccm", "sccm", standard_pressure=0), "standard_pressure", "above 0 Pa"),
    (lambda: with_other_gas(1, N2, N2, "mixed"), "regime", "viscous or molecular"),
    (lambda: with_other_gas(-1, N2, N2, "viscous"), "rate", "0 or above"),
    (lambda: with_other_gas(1, N2._replace(viscosity=0), N2, "viscous"), "viscosity", "above 0"),
    (lambda: Gas.named("steam"), "gas", "helium"),
    (lambda: pure_water_resistivity(50.1), "temperature", "0 to 50"),
    (lambda: resistivity_at_25(0, 25), "resistivity", "above 0"),
    (lambda: resistivity_at_25(24.5, 20), "resistivity", "at most 23.935"),
    (lambda: critical_ratio(1), "heat_ratio", "above 1"),
    (lambda: orifice_flow(0, 5, 1, 20, gas=N2, discharge=1), "diameter", "above 0"),
    (lambda: orifice_flow(1, 0, 0, 20, gas=N2, discharge=1), "before", "above 0"),
    (lambda: orifice_flow(1, 1, 5, 20, gas=N2, discharge=1), "behind", "no more than before"),
    (lambda: orifice_flow(1, 5, 1, -300, gas=N2, discharge=1), "temperature", "-273.15"),
    (lambda: orifice_flow(1, 5, 1, 20, gas=N2, discharge=1.2), "discharge", "at most 1"),
    (lambda: standard_flow(-1, 28), "mass_flow", "0 g/s"),
    (lambda: standard_flow(1, 0), "molar_mass", "above 0"),
    (lambda: capillary_pressure(72, 0), "pore", "above 0 um"),
    (lambda: capillary_pressure(0, 1), "surface_tension", "above 0"),
    (lambda: capillary_pressure(72, 1, contact_angle=90), "contact_angle", "must wet"),
    (lambda: pore_diameter(0, 72), "pressure", "above 0 kPa"),
    (lambda: pore_diameter(1, 72, shape_factor=2), "shape_factor", "at most 1"),
    (lambda: water_density(41), "temperature", "0 to 40"),
    (lambda: air_density(20, 101325), "pressure", "hPa"),
    (lambda: air_density(20, 1013, humidity=101), "humidity", "0 to 100"),
    (lambda: z_factor(5, 1013), "temperature", "10 to 35"),
    (lambda: dispensed_volume(TEN[:9], 100, 1.003), "weighings", "10 or more"),
    (lambda: dispensed_volume([*TEN, -1.0], 100, 1.003), "weighings, no. 11", "0 mg or above"),
    (lambda: dispensed_volume([0.0] * 10, 100, 1.003), "weighings", "above 0 mg"),
    (lambda: dispensed_volume(TEN, 0, 1.003), "nominal", "above 0"),
    (lambda: dispensed_volume(TEN, 100, 1003), "z", "0.9 to 1.1"),
    (lambda: dispensed_volume(TEN, 100, 1.003, evaporation=-1), "evaporation", "0 mg"),
    (lambda: worked("pressure-decay", pressure_is="gauge"), "ambient", "needed with gauge"),
    (lambda: worked("pressure-decay", pressure_is="gauge", ambient=1.013), "ambient", "500 to 1100"),
    (lambda: worked("pressure-decay", pressure_is="psi"), "pressure_is", "absolute or gauge"),
    (lambda: worked("pressure-decay", test="hold"), "test", "decay or rise"),
    (lambda: worked("choked-flow", pressure_is="psi"), "pressure_is", "absolute or gauge"),
    (lambda: worked("choked-flow", pressure_is="gauge"), "ambient", "needed with gauge"),
    (lambda: worked("gas-leak", wanted="steam"), "wanted", "helium"),
    (lambda: worked("dispensed-volume", mass_unit="kg"), "mass_unit", "mg or g"),
]  # fmt: skip


@pytest.mark.parametrize(("wrong", "field", "allowed"), REFUSED)
def test_what_cannot_be_is_refused(wrong: Callable[[], object], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(wrong, field, allowed)
