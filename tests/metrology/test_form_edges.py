"""Form at its edges: large offsets, extreme sizes, ties, what is no face and no section."""

from __future__ import annotations

import numpy as np
import pytest

from teardown_app.domain.measure.measuring import measure
from teardown_app.metrology._section import Section
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.flatness import least_squares
from teardown_app.metrology.kinds.form import KINDS
from teardown_app.metrology.minimum_zone_plane import minimum_zone
from teardown_app.metrology.roundness import (
    least_squares_circle,
    maximum_inscribed_circle,
    minimum_circumscribed_circle,
    minimum_zone_circles,
)
from tests.metrology.witnesses.form import CORNER, PYRAMID, SIX, by_hull, by_voronoi

KIND = {kind.name: kind for kind in KINDS}
ALONG = np.linspace(0, 1, 30)
near = pytest.approx


@pytest.mark.parametrize("size", [1e-3, 1.0, 1e3])
@pytest.mark.parametrize("offset", [0.0, 1e6])
def test_a_line_far_from_the_origin_is_still_a_line(size: float, offset: float) -> None:
    """Though the last digits of its coordinates leave it."""
    line = offset + size * np.c_[ALONG, 2 * ALONG, 3 * ALONG]
    for fit in (least_squares, minimum_zone):
        with pytest.raises(BadInput, match="on one line"):
            fit(line)
    for circle in (least_squares_circle, minimum_zone_circles, minimum_circumscribed_circle, maximum_inscribed_circle):
        with pytest.raises(BadInput, match="on one line"):
            circle(line[:, :2])


@pytest.mark.parametrize("size", [1e-150, 1e-30, 1e30, 1e150])
def test_nothing_depends_on_the_unit_of_length(size: float) -> None:
    assert minimum_zone(np.array(PYRAMID) * size).deviation / size == near(0.03, rel=1e-12)
    assert minimum_zone_circles(np.array(SIX) * size).deviation / size == near(1.3536150616, rel=1e-10)
    assert least_squares_circle(np.array(SIX) * size).radius / size == near(4.7142260377921, rel=1e-12)


def test_the_contact_is_named_by_how_the_points_lie() -> None:
    """Three points on one line hold no more than two; many that touch hold as a triangle if one lies over it."""
    assert minimum_zone(PYRAMID).contact == "3-1"
    assert minimum_zone(CORNER).contact == "2-2"
    crossing = [(0, 0, 0.02), (40, 0, 0.02), (100, 0, 0.02), (50, -50, 0), (50, 50, 0)]
    assert minimum_zone(crossing).contact == "2-2"
    over = [(0, 0, 0), (100, 0, 0), (0, 100, 0), (30, 30, 0.01), (20, 20, 0.01)]
    assert minimum_zone(over).contact == "3-1"
    flat = minimum_zone([(0, 0, 0), (10, 0, 0), (20, 0, 0), (20, 20, 0)])
    corners = np.array([(0, 0), (10, 0), (20, 0), (20, 20)])[list(flat.points)]
    assert flat.contact == "flat" and abs(np.linalg.det(corners[1:] - corners[0])) > 1


def test_every_small_cloud_on_a_lattice_has_the_least_width_of_its_hull() -> None:
    """Ties everywhere: equal edges, faces of many points, twins."""
    rng = np.random.default_rng(11)
    tried = 0
    while tried < 60:
        lattice = rng.integers(-2, 3, (7, 3)).astype(float)
        if np.linalg.matrix_rank(lattice - lattice.mean(axis=0)) == 3:
            tried += 1
            assert minimum_zone(lattice).deviation == near(by_hull(lattice), abs=1e-12)


def test_a_ball_is_no_face() -> None:
    ball = np.random.default_rng(2).normal(size=(400, 3))
    ball /= np.linalg.norm(ball, axis=1)[:, None]
    with pytest.raises(BadInput) as refused:
        minimum_zone(ball)
    assert refused.value.field == "points" and "face" in refused.value.allowed


def test_many_points_on_a_lobed_section_take_few_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    """3600 of them: the mean circle ends where its last digit stands still, of 300 steps that it may take."""
    steps, step = [], Section._step
    monkeypatch.setattr(Section, "_step", lambda self, centre: steps.append(1) or step(self, centre))
    at = np.arange(3600) * np.pi / 1800
    radii = 25 + 1e-5 * np.cos(3 * at) + 1e-6 * np.random.default_rng(0).normal(size=3600)
    found = least_squares_circle(np.c_[radii * np.cos(at), radii * np.sin(at)])
    assert 1 <= len(steps) <= 8
    assert found.radius == near(radii.mean(), abs=1e-9)


def test_the_mean_circle_stands_where_its_sum_of_squares_is_level() -> None:
    """On a section far from round, to 12 digits: the slope of the sum in x and y is nothing."""
    away = np.array(SIX, float) - least_squares_circle(SIX).centre
    radii = np.hypot(*away.T)
    slope = ((radii - radii.mean()) / radii) @ away
    assert np.abs(slope).max() < 1e-12


@pytest.mark.parametrize("lobes", [2, 3, 5])
@pytest.mark.parametrize("size", [1e-4, 0.02, 0.25])
def test_the_inscribed_circle_is_that_of_the_voronoi_diagram(lobes: int, size: float) -> None:
    rng = np.random.default_rng(lobes)
    at = (np.arange(60) + rng.uniform(0, 0.9, 60)) * np.pi / 30
    radii = 25 * (1 + size * np.cos(lobes * at) + size * rng.uniform(-0.2, 0.2, 60))
    points = np.c_[radii * np.cos(at), radii * np.sin(at)]
    assert maximum_inscribed_circle(points).radius == near(by_voronoi(points), abs=1e-9)


@pytest.mark.parametrize(
    ("kind", "given", "field", "allowed"),
    [
        ("roundness", {"radii": [25, 25, -25, 25]}, "radii, no. 3", "whole radii"),
        ("roundness", {"radii": [0.0, 0.01, 0.02, 0.01]}, "radii, no. 1", "whole radii"),
        ("flatness-grid", {"heights": [], "pitch_x": 1, "pitch_y": 1}, "heights", "in every row"),
        ("runout", {"sections": [[0, 0.01, 0.02], [0, 0.01]]}, "sections", "every section"),
        ("runout", {"sections": []}, "sections", "every section"),
    ],
)
def test_what_cannot_be_read_is_refused_by_its_own_field(kind: str, given: dict, field: str, allowed: str) -> None:
    with pytest.raises(BadInput) as refused:
        measure(KIND[kind], given)
    assert refused.value.field == field and allowed in refused.value.allowed
