"""Kinds of electrical measurement: refusals, worked cases, what they say beside the numbers."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from teardown_app.metrology.kinds.electrical import KINDS
from tests.metrology.refusal import refuses

KIND = {kind.name: kind for kind in KINDS}
near = pytest.approx
INSULATION = {"resistance": 100.0, "temperature": 40.0, "system": "thermoplastic"}
PLATE = {"voltage": 208.0, "power": 2000.0}

REFUSED: list[tuple[Callable[[], object], str, str]] = [
    (lambda: KIND["winding"].compute(2, 20, conductor="iron"), "conductor", "copper 235"),
    (lambda: KIND["winding"].compute(2, 20, coolant=25), "hot_resistance", "needed with coolant"),
    (lambda: KIND["winding"].compute(2, 20, hot_resistance=2.5, coolant=150), "coolant", "-50 to 100"),
    (lambda: KIND["insulation"].compute(**INSULATION, winding="form-wound"), "voltage", "both"),
    (lambda: KIND["insulation"].compute(**INSULATION, voltage=400), "winding", "both"),
    (lambda: KIND["bonding"].compute(voltage=1), "current", "or resistance alone"),
    (lambda: KIND["bonding"].compute(), "voltage", "or resistance alone"),
    (lambda: KIND["bonding"].compute(voltage=1, current=1, resistance=1), "voltage", "or resistance alone"),
    (lambda: KIND["bonding"].compute(resistance=-1), "resistance", "0 ohm or above"),
    (lambda: KIND["bonding"].compute(resistance=1, length=1), "area", "both"),
    (lambda: KIND["bonding"].compute(resistance=1, area=1), "length", "both"),
    (lambda: KIND["heater"].compute(**PLATE, measured=0), "measured", "above 0"),
    (lambda: KIND["heater"].compute(**PLATE, measured=20, hot_factor=0), "hot_factor", "0.5 to 20"),
]


@pytest.mark.parametrize(("wrong", "field", "allowed"), REFUSED)
def test_what_cannot_be_is_refused(wrong: Callable[[], object], field: str, allowed: str) -> None:
    """The field is named, and what is allowed in it."""
    refuses(wrong, field, allowed)


def test_worked_cases_through_their_kinds() -> None:
    """Each with the value that a limit is held against."""
    winding = KIND["winding"].compute(2.0, 20, conductor="copper 235", hot_resistance=2.5)
    assert winding["resistance"] == near(2.0) and winding["hot_temperature"] == near(83.75)
    assert KIND["winding-unbalance"].compute([2.0, 2.05, 2.1])["unbalance"] == near(2.439024, abs=1e-6)
    assert KIND["insulation"].compute(100, 20, "thermoplastic")["resistance_40"] == near(25)
    assert KIND["polarisation-index"].compute(150, 600)["index"] == near(4)
    assert KIND["bonding"].compute(0.85, 10)["resistance"] == near(0.085)
    assert KIND["heater"].compute(120, 500)["resistance_high"] == near(32.0)


def test_rise_is_from_the_cooling_air_where_that_is_known() -> None:
    """Else from the cold winding; a hot resistance below the cold one is remarked."""
    winding = KIND["winding"].compute
    assert winding(2.0, 20, hot_resistance=2.5)["rise"] == near(63.625)
    assert winding(2.0, 20, hot_resistance=2.5, coolant=30)["rise"] == near(53.625)
    assert winding(2.0, 20)["rise"] is None
    assert any("check which" in note for note in winding(2.0, 20, hot_resistance=1.9).notes)


def test_insulation_says_what_it_rests_on() -> None:
    """From memory only for the thermosetting formula; the advice beside the reading, never a verdict."""
    insulation = KIND["insulation"].compute
    low = insulation(1.0, 40, "thermosetting", winding="random-wound", voltage=480)
    assert low["advised_minimum"] == near(5) and low.verdict == ""
    assert any("from memory" in note for note in low.notes) and any("Below" in note for note in low.notes)
    good = insulation(5.0, 40, "thermoplastic", winding="random-wound", voltage=480)
    assert not any("Below" in note or "from memory" in note for note in good.notes)
    assert any("estimate" in note for note in insulation(5.0, 51, "thermoplastic").notes)


def test_index_that_says_nothing_is_inconclusive() -> None:
    """Above 5 Gohm, and in random-wound machines; 5 Gohm itself still counts."""
    index = KIND["polarisation-index"].compute
    assert index(5000, 10000).verdict == "" and index(5001, 10000).verdict == "inconclusive"
    assert index(100, 300, winding="random-wound").verdict == "inconclusive"
    assert any("fell" in note for note in index(100, 90).notes)
    assert index(150, 600, half_minute=100)["absorption_ratio"] == near(1.5)


def test_bonding_from_a_tester_that_shows_ohms() -> None:
    """The leads come off; against the conductor's own resistance."""
    found = KIND["bonding"].compute(resistance=0.1, lead_resistance=0.02, length=5, area=2.5)
    assert found["resistance"] == near(0.08) and found["excess"] == near(0.0444)
    assert any("path beside" in note for note in KIND["bonding"].compute(resistance=0.01, length=5, area=2.5).notes)
    assert any("four wires" in note for note in KIND["bonding"].compute(resistance=0.1, lead_resistance=0.06).notes)
    assert any("test current" in note for note in KIND["bonding"].compute(0.01, 0.1).notes)
    assert not any("test current" in note for note in KIND["bonding"].compute(1, 10).notes)


def test_heater_is_judged_by_its_band() -> None:
    """Ends belong to the band; the cold resistance is made hot by its factor first."""
    heater = KIND["heater"].compute
    band = heater(**PLATE)
    low, high = band["resistance_low"], band["resistance_high"]
    assert band.verdict == "" and band["power"] is None
    assert [heater(**PLATE, measured=r).verdict for r in (low * 0.999, low, 21.6, high, high * 1.001)] == [
        "reject", "accept", "accept", "accept", "reject"]  # fmt: skip
    assert heater(**PLATE, measured=20, hot_factor=1.08)["hot_resistance"] == near(21.6)
    assert heater(**PLATE, measured=20).verdict == "reject"
    assert heater(**PLATE, measured=20, hot_factor=1.08).verdict == "accept"
    assert heater(**PLATE, measured=low)["power"] == near(2100)
