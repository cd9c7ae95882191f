"""Form: laws that hold for every plate and section, refusals, what each kind says."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardown_app.domain.measure.measuring import measure
from teardown_app.metrology.bend import bend_strain, radius_of_bow
from teardown_app.metrology.diameters import out_of_round
from teardown_app.metrology.flatness import least_squares
from teardown_app.metrology.kinds.form import KINDS
from teardown_app.metrology.minimum_zone_plane import minimum_zone
from teardown_app.metrology.roundness import (
    least_squares_circle,
    maximum_inscribed_circle,
    minimum_circumscribed_circle,
    minimum_zone_circles,
)
from teardown_app.metrology.runout import circular_runout, eccentric_runout, missed_share, total_runout
from tests.metrology.refusal import refuses
from tests.metrology.witnesses.form import EIGHT, SADDLE, by_hull, by_programme, cloud

KIND = {kind.name: kind for kind in KINDS}
near = pytest.approx
seeds = st.integers(0, 10**6)


def turn(seed: int) -> np.ndarray:
    """Any rotation in space."""
    axes, _ = np.linalg.qr(np.random.default_rng(seed).normal(size=(3, 3)))
    return axes if np.linalg.det(axes) > 0 else -axes


@settings(max_examples=60, deadline=None)
@given(seeds, st.integers(4, 60))
def test_minimum_zone_is_not_above_least_squares_and_is_what_scipy_finds(seed: int, count: int) -> None:
    plate = cloud(seed, count)
    zone = minimum_zone(plate).deviation
    assert zone <= least_squares(plate).deviation + 1e-15
    assert zone == near(by_programme(plate), rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(seeds, st.integers(4, 25), st.floats(0.02, 1))
def test_minimum_zone_of_a_thick_cloud_is_the_least_width_of_its_hull(seed: int, count: int, flat: float) -> None:
    """Not of plates alone: the least over all directions, with more than one dip."""
    thick = np.random.default_rng(seed).normal(size=(count, 3)) * [1, 0.8, flat]
    assert minimum_zone(thick).deviation == near(by_hull(thick), rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(seeds, seeds, st.floats(1e-3, 1e3), st.floats(-1e6, 1e6))
def test_flatness_stays_through_turning_and_shifting_and_goes_with_scale(
    seed: int, other: int, scale: float, shift: float
) -> None:
    plate = cloud(seed, 12)
    moved = scale * (plate @ turn(other).T) + shift
    lost = 1e-9 * (abs(shift) + 300 * scale)  # digits that coordinates so large do not hold
    assert minimum_zone(moved).deviation == near(scale * minimum_zone(plate).deviation, rel=1e-6, abs=lost)
    assert least_squares(moved).deviation == near(scale * least_squares(plate).deviation, rel=1e-6, abs=lost)


@settings(max_examples=40, deadline=None)
@given(seeds, st.integers(5, 40))
def test_another_point_never_makes_a_plate_flatter(seed: int, count: int) -> None:
    plate = cloud(seed, count)
    assert minimum_zone(plate).deviation >= minimum_zone(plate[:-1]).deviation - 1e-15


def test_all_points_lie_between_the_planes_and_those_named_touch() -> None:
    plate = cloud(7, 50)
    zone = minimum_zone(plate)
    heights = plate @ zone.normal - zone.lower
    assert heights.min() == near(0, abs=1e-10) and heights.max() == near(zone.deviation, abs=1e-10)
    touching = [min(heights[n], zone.deviation - heights[n]) for n in zone.points]
    assert max(touching) < 1e-9 and len(zone.points) >= 4
    assert minimum_zone(SADDLE).contact == "2-2"


@settings(max_examples=60, deadline=None)
@given(seeds, st.integers(5, 60))
def test_of_the_four_circles_the_zone_is_narrowest_and_each_holds_what_it_says(seed: int, count: int) -> None:
    rng = np.random.default_rng(seed)
    angles = np.sort(2 * math.pi * (np.arange(count) + rng.uniform(0, 0.9, count)) / count)
    radii = 25 + rng.normal(0, 0.01, count)
    points = np.c_[radii * np.cos(angles) + 1e6, radii * np.sin(angles) - 1e6]
    zone, mean = minimum_zone_circles(points), least_squares_circle(points)
    outer, inner = minimum_circumscribed_circle(points), maximum_inscribed_circle(points)
    assert zone.deviation <= min(mean.deviation, outer.deviation, inner.deviation) + 1e-8
    assert inner.radius <= mean.radius <= outer.radius + 1e-9
    assert outer.largest == near(outer.radius) and inner.smallest == near(inner.radius)


@settings(max_examples=30, deadline=None)
@given(st.floats(0, 0.2), st.floats(0, 6.28), seeds)
def test_roundness_does_not_see_where_the_section_lies(shift: float, angle: float, seed: int) -> None:
    """Turned, moved, and read from the other side."""
    rng = np.random.default_rng(seed)
    radii = 10 + rng.normal(0, 0.005, 24)
    at = 2 * math.pi * np.arange(24) / 24
    points = np.c_[radii * np.cos(at), radii * np.sin(at)]
    spun = np.c_[radii * np.cos(at + angle) + shift, -radii * np.sin(at + angle)]
    for fit in (minimum_zone_circles, least_squares_circle, minimum_circumscribed_circle):
        assert fit(spun).deviation == near(fit(points).deviation, abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(st.floats(0, 0.1), st.floats(0, 6.28))
def test_roundness_is_not_above_runout_of_the_same_section(eccentricity: float, phase: float) -> None:
    """The indicator also sees the centre off the axis."""
    at = 2 * math.pi * np.arange(36) / 36
    radii = 20 + eccentricity * np.cos(at - phase) + 0.003 * np.cos(5 * at)
    points = np.c_[radii * np.cos(at), radii * np.sin(at)]
    assert minimum_zone_circles(points).deviation <= circular_runout(radii) + 1e-9


def test_few_readings_miss_some_of_an_eccentric_runout() -> None:
    assert missed_share(4) > missed_share(8) > missed_share(24)
    assert eccentric_runout(0) == 0


@given(st.floats(1, 1e4), st.floats(1e-3, 0.5))
def test_a_bow_lies_on_its_circle(chord: float, share: float) -> None:
    height = share * chord
    radius = radius_of_bow(chord, height)
    assert (chord / 2) ** 2 + (radius - height) ** 2 == near(radius**2, rel=1e-9)
    assert bend_strain(1, radius + 1) < bend_strain(1, radius + 0.5)


REFUSED: list[tuple[Callable[[], object], str, str]] = [
    (lambda: least_squares([(0, 0, 0), (1, 1, 1)]), "points", "3 or more"),
    (lambda: least_squares([(0, 0, 0), (1, 1, 1), (2, 2, 2)]), "points", "not on one line"),
    (lambda: minimum_zone([(0, 0, 0), (1, 0, 0), (2, 0, 0), (5, 0, 0)]), "points", "not on one line"),
    (lambda: minimum_zone([(0, 0, 0), (1, 0, 0), (0, 1, float("nan"))]), "points, no. 3", "3 or more"),
    (lambda: minimum_zone([(0, 0), (1, 0), (0, 1)]), "points", "rows of 3 numbers"),
    (lambda: least_squares_circle([(0, 0), (1, 1), (3, 3)]), "points", "round a section"),
    (lambda: maximum_inscribed_circle([(0, 0), (10, 0), (20, 0.5)]), "points", "all round"),
    (lambda: circular_runout([0.1, 0.2]), "readings", "3 or more"),
    (lambda: total_runout([]), "readings", "one section"),
    (lambda: total_runout([[0.1, 0.2]]), "readings", "three or more a turn"),
    (lambda: missed_share(2), "count", "three or more"),
    (lambda: eccentric_runout(-1), "eccentricity", "0 mm or above"),
    (lambda: radius_of_bow(10, 6), "height", "half the chord"),
    (lambda: bend_strain(10, 4), "radius", "half the thickness"),
    (lambda: out_of_round([25]), "diameters", "2 or more"),
    (lambda: out_of_round([25, -1]), "diameters, no. 2", "above 0"),
    (lambda: measure(KIND["flatness-grid"], {"heights": [[1, 2], [3]], "pitch_x": 1, "pitch_y": 1}), "heights", "same"),
    (lambda: measure(KIND["flatness-grid"], {"heights": [[1, 2], [3, 1]], "pitch_x": 0, "pitch_y": 1}), "pitch_x", "0"),
    (lambda: measure(KIND["roundness"], {}), "points", "one of them"),
    (lambda: measure(KIND["runout"], {}), "readings", "one of them"),
    (lambda: measure(KIND["bend"], {"thickness": 2}), "radius", "chord and height"),
    (lambda: measure(KIND["bend"], {"thickness": 2, "radius": 5, "chord": 1}), "radius", "not both"),
]


@pytest.mark.parametrize(("do", "field", "allowed"), REFUSED)
def test_what_cannot_be_computed_is_refused_by_field(do: Callable[[], object], field: str, allowed: str) -> None:
    refuses(do, field, allowed)


@pytest.mark.parametrize("kind", KINDS, ids=[kind.name for kind in KINDS])
def test_every_example_is_computed_and_its_judged_value_comes_out(kind: object) -> None:
    outcome = measure(kind, dict(kind.example))  # type: ignore[attr-defined, arg-type]
    assert outcome.result.named(kind.judged) > 0  # type: ignore[attr-defined]


def test_a_grid_is_the_same_as_its_points() -> None:
    heights = [[0, 0.004, 0.006], [-0.005, 0.02, -0.009], [-0.01, -0.003, 0.008]]
    grid = measure(KIND["flatness-grid"], {"heights": heights, "pitch_x": 50, "pitch_y": 50}).result
    points = [[50 * n, 50 * m, z] for m, row in enumerate(heights) for n, z in enumerate(row)]
    assert grid == measure(KIND["flatness"], {"points": points}).result
    assert (grid["high_x"], grid["high_y"]) == (50, 50)


def test_kinds_say_what_a_person_should_know() -> None:
    few = measure(KIND["runout"], {"readings": [0, 0.01, 0.02, 0.01]}).result
    assert "4 readings a turn can miss up to 29.3 %" in few.notes[0]
    assert "straightened cold" in measure(KIND["bend"], {"thickness": 2, "radius": 19}).result.notes[0]
    assert measure(KIND["bend"], {"thickness": 2, "radius": 20}).result.notes == ()
    assert "odd number of lobes" in measure(KIND["diameters"], {"diameters": [1, 2]}).result.notes[0]
    assert "Three points" in measure(KIND["flatness"], {"points": [[0, 0, 0], [1, 0, 0], [0, 1, 0]]}).result.notes[0]
    verdict = measure(KIND["roundness"], {"points": EIGHT.tolist(), "limit_max": 0.01}).verdict
    assert verdict == "accept"
