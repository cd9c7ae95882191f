"""The least that proves anything: below it every kind refuses, or says inconclusive and why. Readings are invented."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardown_app.domain.measure.measuring import measure
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import Kind
from teardown_app.metrology.kinds import all_kinds
from teardown_app.metrology.kinds.least import BELOW_ZERO, DEVIATION

KINDS = all_kinds()
TRIANGLE = [[0, 0, 0], [100, 0, 0], [0, 100, 0]]
UPRIGHT = [[0, 0, 0], [100, 0, 0], [0, 0, 100], [100, 0, 100], [50, 0, 30]]
WAVE = [round(math.sin(n / 20), 6) for n in range(12000)]
STUCK = [0.3 if 2000 < n < 9000 else one for n, one in enumerate(WAVE)]
TRACED = {"step": 0.0005, "cut_off": 0.8, "limit_max": 0.4}
SHUT = {"volume": 1.5, "duration": 300, "limit_max": 0.1}
DELIVERED = {"nominal": 100, "temperature": 20, "limit_max": 1}

TOO_LITTLE: tuple[tuple[str, dict[str, Any]], ...] = (
    ("roughness", {"readings": [0, 0, 0], "limit": 0.4}),
    ("roughness-trace", {**TRACED, "heights": [0.0] * 12000}),
    ("roughness-trace", {**TRACED, "heights": STUCK}),
    ("roughness-before-after", {"as_found": [1, 1], "as_left": [0, 0.2], "limit_min": 10}),
    ("cut-off", {}),
    ("flatness", {"points": [[0, 0, 0], [1, 0, 0], [2, 0, 0.1], [3, 0, 0]], "limit_max": 0.02}),
    ("flatness", {"points": [[n, n * 1e-6, 0] for n in range(6)], "limit_max": 0.02}),
    ("flatness", {"points": UPRIGHT, "limit_max": 0.02}),
    ("flatness", {"points": [[z, x + z / 10, y] for x, y, z in [*TRIANGLE, [50, 50, 1]]], "limit_max": 0.02}),
    ("flatness", {"points": TRIANGLE * 2, "limit_max": 0.02}),
    ("flatness-grid", {"heights": [[0, 0, 0]], "pitch_x": 50, "pitch_y": 50, "limit_max": 0.02}),
    ("roundness", {"radii": [0.001, 0.003, 0.002, 0.004, 0.001, 0.002], "limit_max": 0.02}),
    ("roundness", {"points": [[0, 0], [1, 0], [0, 1]] * 2, "limit_max": 0.02}),
    ("runout", {"readings": [0.01, 0.01], "limit_max": 0.02}),
    ("bend", {"thickness": 2, "limit_max": 5}),
    ("diameters", {"diameters": [25.0], "limit_max": 0.02}),
    ("residual-unbalance", {"grade": 2.5, "mass": 12, "speed": 1500}),
    ("vibration", {"velocity": 0, "limit_max": 2}),
    ("vibration", {"record": [0] * 100, "limit_max": 2}),
    ("relative-centrifugal-force", {"radius": 100, "limit_max": 2}),
    ("bonding", {"voltage": 0, "current": 10, "limit_max": 0.1}),
    ("bonding", {"resistance": 0, "limit_max": 0.1}),
    ("bonding", {"resistance": 0.05, "lead_resistance": 0.05, "limit_max": 0.1}),
    ("heater", {"voltage": 208, "power": 2000, "measured": 0}),
    ("winding", {"resistance": 0, "temperature": 20, "limit_max": 2}),
    ("winding-unbalance", {"resistances": [1.0], "limit_max": 2}),
    ("insulation", {"resistance": 0, "temperature": 20, "system": "thermoplastic", "limit_min": 5}),
    ("polarisation-index", {"one_minute": 6000, "ten_minutes": 24000, "limit_min": 2}),
    ("pt100", {"resistance": 0, "reference": 0, "limit_max": 0.5}),
    ("ntc", {"resistance": 0, "nominal": 10000, "beta": 3950, "reference": 25, "limit_max": 0.5}),
    ("thermocouple", {"type": "K", "voltage": 9000, "reference": 25, "limit_max": 0.5}),
    ("pressure-decay", {**SHUT, "start": 3008, "end": 3013}),
    ("pressure-decay", {**SHUT, "start": 8, "end": 5, "test": "rise"}),
    ("allowed-pressure-drop", {"leak_rate": 0.01, "volume": 5, "duration": 0, "pressure": 3000}),
    ("leak-rate", {"rate": -5, "unit": "mbar l/s", "limit_max": 1}),
    ("gas-leak", {"leak_rate": -1, "measured": "helium", "wanted": "air", "regime": "viscous", "limit_max": 1}),
    ("water-resistivity", {"resistivity": 30, "temperature": 25, "limit_min": 15}),
    ("dispensed-volume", {**DELIVERED, "weighings": [99.7] * 9}),
    ("dispensed-volume", {**DELIVERED, "weighings": [0.0] * 10}),
    ("choked-flow", {"diameter": 1, "before": 1, "behind": 2, "temperature": 20, "discharge": 0.8, "limit_max": 1}),
    ("bubble-point", {"pressure": 0, "surface_tension": 21.7, "limit_min": 1}),
    ("torque", {"size": "M8", "nut_factor": 0.2}),
    ("preload", {"size": "M8", "nut_factor": 0.2, "limit_min": 1}),
    ("fit", {"nominal": 20, "fit": "H7", "reading": 0}),
    ("success-run", {"passes": -1, "limit_min": 0.5}),
    ("proportion", {"passes": 0, "trials": 0, "limit_min": 0.5}),
    ("particle-counts", {"exposure": 1, "limit_max": 5}),
    ("decision", {"value": 1}),
    ("repeated-readings", {"readings": [1.0], "limit_max": 2}),
    ("uncertainty-budget", {"instrument": 0.1}),
)


@pytest.mark.parametrize(("name", "given"), TOO_LITTLE)
def test_below_it_nothing_is_proved(name: str, given: dict[str, Any]) -> None:
    try:
        found = measure(KINDS[name], given)
    except BadInput as bad:
        assert bad.allowed
        return
    if KINDS[name].judged:
        assert found.verdict == "inconclusive" and found.result.notes
    else:
        assert found.verdict in ("", "inconclusive")


def test_every_kind_says_its_least_and_is_tried_below_it() -> None:
    assert {name for name, _ in TOO_LITTLE} == set(KINDS)
    assert all(kind.least for kind in KINDS.values())


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_its_example_is_enough(kind: Kind) -> None:
    assert measure(kind, kind.example).verdict in ("", "accept", "reject")


def test_a_tilted_face_is_still_measured_across() -> None:
    """A plane that leans by 17 degrees with one point 0.05 off along its normal: flatness 0.05, by construction."""
    points = [[x, y, 0.3 * x - 0.2 * y + 5] for x in range(0, 101, 25) for y in range(0, 101, 25)]
    length = math.sqrt(1 + 0.3**2 + 0.2**2)
    points[12] = [one + 0.05 * part / length for one, part in zip(points[12], (-0.3, 0.2, 1), strict=True)]
    assert measure(KINDS["flatness"], {"points": points}).result["flatness"] == pytest.approx(0.05)


def test_what_goes_the_wrong_way_counts_where_a_lower_limit_allows_it() -> None:
    """1.5 l x -5 mbar / 300 s = -0.025 mbar l/s (Q = V dP / t)."""
    given = {**SHUT, "start": 3008, "end": 3013}
    assert measure(KINDS["pressure-decay"], {**given, "limit_min": -0.03}).verdict == "accept"
    assert measure(KINDS["pressure-decay"], {**given, "limit_min": -0.02}).verdict == "reject"


DEVIATIONS = {
    "pt100": lambda off: {"temperature": 50 + off, "reference": 50},
    "ntc": lambda off: {"temperature": 50 + off, "nominal": 10000, "beta": 3950, "reference": 50},
    "thermocouple": lambda off: {"type": "K", "temperature": 50 + off, "reference": 50},
    "dispensed-volume": lambda off: {"weighings": [100 + off] * 10, "nominal": 100, "temperature": 20},
}


def test_every_kind_with_a_deviation_is_tried() -> None:
    assert set(DEVIATIONS) == {name for name, word in BELOW_ZERO.items() if word == DEVIATION}


@pytest.mark.parametrize("name", DEVIATIONS)
@settings(max_examples=30, deadline=None)
@given(off=st.floats(-5, 5), most=st.floats(0.01, 4))
def test_a_deviation_under_a_bare_max_is_judged_by_its_size(name: str, off: float, most: float) -> None:
    kind, fields = KINDS[name], DEVIATIONS[name](off)
    size = abs(measure(kind, fields).result[kind.judged])
    if abs(size - most) > 1e-9:
        found = measure(kind, {**fields, "limit_max": most}).verdict
        assert found == ("accept" if size < most else "reject")
