"""What the kinds of measurement on fluids say of a worked example and of one that is doubtful."""

from __future__ import annotations

from typing import Any

import pytest

from teardown_app.metrology.kind import Result
from teardown_app.metrology.kinds.fluid import KINDS

KIND = {kind.name: kind for kind in KINDS}
near = pytest.approx


def worked(name: str, **changed: Any) -> Result:
    """A kind's example with something else in it."""
    return KIND[name].compute(**(dict(KIND[name].example) | changed))


def says(found: Result, words: str) -> bool:
    """True where a note holds these words."""
    return any(words in note for note in found.notes)


def test_every_kind_computes_its_example() -> None:
    """The judged value is among the results and is a number."""
    for kind in KINDS:
        found = kind.compute(**kind.example)
        assert set(kind.example) <= {field.name for field in kind.fields}
        assert not kind.judged or isinstance(found[kind.judged], int | float)


def test_gauge_pressure_with_ambient_is_absolute_pressure() -> None:
    """The same vessel by both gauges; a barometer that rose is not a leak."""
    absolute = worked("pressure-decay")
    gauge = worked("pressure-decay", start=2000.0, end=1995.0, pressure_is="gauge", ambient=1013.25)
    risen = worked("pressure-decay", start=2000.0, end=1990.0, pressure_is="gauge", ambient=1013.25,
                   ambient_end=1018.25)  # fmt: skip
    assert gauge["leak_rate"] == near(absolute["leak_rate"]) == near(risen["leak_rate"]) == near(0.050437595)


def test_temperature_of_absolute_pressure_counts() -> None:
    """Taking gauge for absolute pressure would give another number: 1 K weighs with the absolute pressure."""
    wrong = worked("pressure-decay", start=2000.0, end=1995.0)
    assert wrong["leak_rate"] < 0.9 * worked("pressure-decay")["leak_rate"]


def test_leak_rate_in_other_units_is_the_same_gas() -> None:
    """Pa m3/s a tenth; sccm of gas at 22 degC fewer than at 0 degC."""
    found = worked("pressure-decay")
    assert found["leak_rate_si"] == near(found["leak_rate"] / 10)
    assert found["leak_rate_standard"] == near(found["leak_rate"] * 59.215396 * 273.15 / 295.15)
    bare = KIND["pressure-decay"].compute(volume=5, start=1000, end=998, duration=30)
    assert bare["leak_rate_standard"] == near(19.738465) and bare["per_kelvin"] is None
    assert says(bare, "No temperatures") and says(bare, "sccm at 0 degC")


def test_a_vacuum_that_rises_leaks_inwards() -> None:
    """The sign belongs to the test; the other sign is told."""
    rise = KIND["pressure-decay"].compute(volume=10, start=1.0, end=1.05, duration=100, test="rise")
    assert rise["leak_rate"] == near(0.005) and not says(rise, "wrong sign")
    assert says(KIND["pressure-decay"].compute(volume=10, start=1.0, end=1.05, duration=100), "wrong sign")
    still = KIND["pressure-decay"].compute(volume=10, start=1.0, end=1.0, duration=1, test="rise")
    assert str(still["leak_rate"]) == "0.0"


def test_a_large_fall_is_told() -> None:
    """More than a tenth of the pressure."""
    assert says(worked("pressure-decay", end=2700.0), "a tenth") and not says(worked("pressure-decay"), "a tenth")


def test_a_drop_that_one_kelvin_hides_is_told() -> None:
    """1.2 mbar allowed, 10.2 mbar for 1 K."""
    found = worked("allowed-pressure-drop")
    assert found["drop"] == near(1.2) and found["per_kelvin"] == near(10.2337, rel=1e-5) and says(found, "1 K weighs")
    assert not says(worked("allowed-pressure-drop", leak_rate=1.0), "1 K weighs")


def test_helium_is_not_air() -> None:
    """Viscous air leaks more than helium, molecular air less; the regime is said."""
    viscous, molecular = (worked("gas-leak", regime=one) for one in ("viscous", "molecular"))
    assert viscous["leak_rate"] == near(1e-3 * 19.6 / 18.1) and molecular["leak_rate"] == near(1e-3 / 2.68985)
    assert says(viscous, "viscous flow") and says(molecular, "molecular flow")


@pytest.mark.parametrize(("reading", "temperature"), [(24.5, 20.0), (18.3, 25.0), (9.0, 40.0), (1e6, 45.0)])
def test_water_better_than_pure_is_impossible(reading: float, temperature: float) -> None:
    """No value comes out that could be accepted."""
    found = KIND["water-resistivity"].compute(resistivity=reading, temperature=temperature)
    assert found["resistivity_25"] is None and found["conductivity_25"] is None
    assert found.verdict == "inconclusive" and says(found, "Impossible")


def test_a_display_that_rounds_up_is_let_pass_and_told() -> None:
    """18.2 at 25 degC is what good instruments show for pure water."""
    found = KIND["water-resistivity"].compute(resistivity=18.2, temperature=25)
    assert found["resistivity_25"] == near(18.2) and says(found, "Just above") and found.verdict == ""
    assert not KIND["water-resistivity"].compute(resistivity=18.1, temperature=25).notes
    assert says(KIND["water-resistivity"].compute(resistivity=1, temperature=40), "5 %")


def test_weighings_in_grams_are_the_same_volume() -> None:
    """Evaporation goes with the unit."""
    grams = [one / 1000 for one in KIND["dispensed-volume"].example["weighings"]]
    found = worked("dispensed-volume", weighings=grams, mass_unit="g", evaporation=1e-4)
    assert found["mean"] == near(worked("dispensed-volume", evaporation=0.1)["mean"])
    assert says(worked("dispensed-volume", weighings=grams), "check the unit") and not says(found, "check the unit")


def test_flow_by_gauge_and_at_another_standard_state() -> None:
    """4 bar gauge at 1 bar ambient is 5 bar; warm litres are more litres."""
    found = worked("choked-flow", before=4, behind=0, pressure_is="gauge", ambient=1.0, standard_temperature=20.0)
    assert found["mass_flow"] == near(0.729274, rel=1e-5) and found["flow"] == near(37.5737, rel=1e-5)
    assert found["choked"] == "yes" and says(found, "20 degC")


def test_flow_that_is_not_choked_or_not_ideal_is_told() -> None:
    """Both are still computed."""
    free = worked("choked-flow", behind=4.0)
    assert free["choked"] == "no" and says(free, "Not choked") and free["flow"] < 35.0103
    assert says(worked("choked-flow", before=25), "ideal gas") and not says(worked("choked-flow"), "ideal gas")


def test_bubble_point_is_left_to_the_maker() -> None:
    """A pore is told, a limit is not."""
    found = worked("bubble-point", pressure=434.0)
    assert found["pore"] == near(0.2) and says(found, "maker's minimum")
