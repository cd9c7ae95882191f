"""Plots as values: what lies where, held against the numbers they are made from."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.domain.places.trend import Past
from teardown_app.figures.figure import BAD, GOOD, GUARD, LIMIT, MEAN, Figure
from teardown_app.figures.margin import Beside, margin
from teardown_app.figures.measured import figure_of
from teardown_app.figures.plate import grid_figure
from teardown_app.figures.profile import profile_figure, thinned
from teardown_app.figures.section import section_figure
from teardown_app.figures.trend import trend_figure
from teardown_app.metrology.flatness import least_squares
from teardown_app.metrology.roundness import minimum_zone_circles
from teardown_app.metrology.trace import evaluate_trace

near = pytest.approx
numbers = st.floats(-1e6, 1e6, allow_nan=False)


def inside(figure: Figure) -> bool:
    """Everything lies on the plot."""
    points = [point for line in figure.lines for point in line.points]
    points += [(one.x, one.y) for one in (*figure.marks, *figure.words)]
    points += [corner for band in figure.bands for corner in ((band.left, band.low), (band.right, band.high))]
    wide, tall = figure.right - figure.left, figure.high - figure.low
    return all(
        figure.left - 1e-9 * wide <= x <= figure.right + 1e-9 * wide
        and figure.low - 1e-9 * tall <= y <= figure.high + 1e-9 * tall
        for x, y in points
    )


@given(numbers, st.none() | numbers, st.none() | numbers, st.floats(0, 1e5), st.floats(0, 1e5))
def test_a_margin_is_to_scale_whatever_the_numbers(
    value: float, one: float | None, other: float | None, guard: float, uncertainty: float
) -> None:
    ends = sorted(end for end in (one, other) if end is not None)
    low, high = (ends[0], ends[1]) if len(ends) == 2 else (one, other)
    figure = margin(value, low=low, high=high, unit="um", guard=guard, uncertainty=uncertainty, verdict="accept")
    if not ends:
        assert figure is None
        return
    assert figure is not None and figure.right > figure.left and inside(figure)
    assert figure.marks[0].x == value
    strokes = sorted(line.points[0][0] for line in figure.lines if line.role == LIMIT)
    assert strokes == ends


def test_bands_stand_for_what_is_accepted_beyond_and_guarded() -> None:
    """20 um with a guard band of 1.645 um: accepted below 18.355."""
    figure = margin(18.0, low=None, high=20.0, unit="um", guard=1.645, uncertainty=2.0, beside=[Beside("as found", 25)])
    assert figure is not None
    by_role = {band.role: band for band in figure.bands}
    assert by_role[GOOD].right == by_role[BAD].left == 20.0
    assert (by_role[GUARD].left, by_role[GUARD].right) == (near(18.355), 20.0)
    assert any("as found 25" in word.says for word in figure.words)


def test_a_plate_shows_the_heights_over_its_mean_plane() -> None:
    rows = [[0, 0.004, 0.006], [-0.005, 0.02, -0.009], [-0.01, -0.003, 0.008]]
    figure = grid_figure({"heights": rows, "pitch_x": 50, "pitch_y": 50})
    assert figure is not None and inside(figure) and figure.equal
    plane = least_squares([(50 * n, 50 * m, z) for m, row in enumerate(rows) for n, z in enumerate(row)])
    spread = plane.residuals.max() - plane.residuals.min()
    shares = [band.share for band in figure.bands]
    assert shares == near(list((plane.residuals - plane.residuals.min()) / spread))
    assert [(one.x, one.y, one.sign) for one in figure.marks] == [(50, 50, "to do"), (100, 50, "empty")]
    assert "disc high +0.0188, square low -0.0136" in figure.says


def test_a_plate_is_drawn_while_it_is_being_read() -> None:
    """From the first reading on; no plane is known before there are enough."""
    for rows in ([[0.01]], [[0.01, 0.02]], [[0.01, 0.02], [0.0]]):
        assert grid_figure({"heights": rows, "pitch_x": 50, "pitch_y": 50}) is not None
    assert grid_figure({"heights": []}) is None


def test_a_section_lies_between_the_circles_of_its_zone() -> None:
    angles = 2 * math.pi * np.arange(24) / 24
    radii = 25 + 0.01 * np.cos(3 * angles)
    points = np.c_[radii * np.cos(angles) + 3, radii * np.sin(angles) - 2].tolist()
    figure = section_figure({"points": points})
    assert figure is not None and inside(figure)
    drawn = [math.hypot(x, y) for x, y in figure.lines[0].points]
    rings = sorted(math.hypot(*line.points[0]) for line in figure.lines if line.role == LIMIT)
    assert min(drawn) == near(rings[0]) and max(drawn) == near(rings[1])
    assert f"{minimum_zone_circles(points).deviation:.4g}" in figure.says


def test_a_profile_shows_mean_line_and_roughness_and_loses_no_peak() -> None:
    x = 0.0005 * np.arange(9600)
    heights = 0.5 * np.sin(2 * np.pi * x / 0.1)
    heights[4800] += 3.0
    found = evaluate_trace(heights, 0.0005, 0.8)
    figure = profile_figure(found)
    assert inside(figure) and f"Ra {found.parameters.ra:.3g}" in figure.says
    lowest = min(z for _, z in figure.lines[2].points)
    assert lowest == near(found.roughness.min())
    assert sum(line.dashed for line in figure.lines) == 4
    assert [line.role for line in figure.lines].count(MEAN) == 2
    assert len(thinned(list(range(100_000)), [0.0] * 100_000)) <= 1200


def test_a_trend_joins_the_readings_in_their_order() -> None:
    past = [Past("J1", "7", f"2026-0{n}-01", "finished", n / 10, "accept") for n in (1, 2, 3)]
    figure = trend_figure(past, limits=(None, 0.4), unit="um")
    assert figure is not None and inside(figure)
    assert [point for line in figure.lines if line.role != LIMIT for point in line.points] == [
        (0.0, 0.1), (1.0, 0.2), (2.0, 0.3),
    ]  # fmt: skip
    assert trend_figure([], limits=(None, 0.4), unit="um") is None


@pytest.mark.parametrize("kind", ["flatness", "flatness-grid", "roundness", "roughness-trace"])
def test_nothing_is_drawn_of_nothing(kind: str) -> None:
    assert figure_of(kind, {}) is None and figure_of("bonding", {"resistance": 1}) is None
