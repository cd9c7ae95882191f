"""Witnesses for flatness, roundness, runout, bend and diameters."""

from __future__ import annotations

import math

import numpy as np
from scipy import optimize
from scipy.spatial import ConvexHull, Delaunay, Voronoi

from teardown_app.metrology.bend import bend_strain, radius_of_bow
from teardown_app.metrology.diameters import out_of_round
from teardown_app.metrology.flatness import least_squares
from teardown_app.metrology.minimum_zone_plane import minimum_zone
from teardown_app.metrology.roundness import (
    least_squares_circle,
    maximum_inscribed_circle,
    minimum_circumscribed_circle,
    minimum_zone_circles,
)
from teardown_app.metrology.runout import circular_runout, eccentric_runout, missed_share, total_runout
from tests.metrology.witness import Witness

CASES = "worked cases: exact convex hull and linear programme, computed apart from this project"
NIST = "NIST least-squares circle reference pairs (ASME B89.4.10 style)"
GGS = "Gander, Golub, Strebel benchmark circle"
SADDLE = [(50, 50, 0.01), (-50, -50, 0.01), (50, -50, -0.01), (-50, 50, -0.01)]
PYRAMID = [(0, 0, 0), (100, 0, 0), (0, 100, 0), (100, 100, 0), (50, 50, 0.03)]
GRID = [(x, y) for y in (0, 50, 100) for x in (0, 50, 100)]
CORNER = [(x, y, 0.04 if (x, y) == (100, 100) else 0.0) for x, y in GRID]
CENTRE = [(x, y, 0.04 if (x, y) == (50, 50) else 0.0) for x, y in GRID]
READ = [(*at, z / 1000) for at, z in zip(GRID, (0, 4, 6, -5, 20, -9, -10, -3, 8), strict=True)]
TILT = [(x, y, 0.3 * x - 0.2 * y + 5) for x in range(0, 101, 25) for y in range(0, 101, 25)]
UP = np.array([-0.3, 0.2, 1.0]) / math.sqrt(1.13)
RAISED = [tuple(np.array(one) + (0.05 * UP if one[:2] == (50, 50) else 0)) for one in TILT]
PLATES = (SADDLE, PYRAMID, CORNER, CENTRE, READ)

CIR9 = [(114.49663, 95.6036), (78.30238, 96.67194), (95.4743, 64.79263)]
CIR11 = [(-0.26182, 0.71022), (0.44656, -0.01363), (1.35388, 0.4364), (1.20625, 1.43838), (0.20769, 1.60761)]
CIR4 = [
    (624.68116, 326.52149), (625.68271, 324.58693), (627.82036, 324.21363), (629.44968, 325.62746),
    (629.39723, 327.79681), (627.63651, 329.08331), (625.56132, 328.49019),
]  # fmt: skip
SIX = [(1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)]
SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10)]
ANGLES = np.arange(8) * math.pi / 4
RADII = 50 + np.array([0, 6, 10, 4, -2, 3, 8, 1]) / 1000
EIGHT = np.c_[RADII * np.cos(ANGLES), RADII * np.sin(ANGLES)]
ROUNDS = (CIR4, SIX, EIGHT)


def cloud(seed: int, count: int) -> np.ndarray:
    """A rough plate, invented."""
    rng = np.random.default_rng(seed)
    return np.c_[rng.uniform(0, 300, count), rng.uniform(0, 200, count), rng.normal(0, 0.01, count)]


def by_programme(points: object) -> float:
    """Minimum zone by scipy's linear programme, turned to the new normal until nothing changes."""
    local = np.asarray(points, float)
    local = local - local.mean(axis=0)
    axes = np.linalg.svd(local, full_matrices=False)[2]
    before = np.inf
    for _ in range(8):
        x, y, z = (local @ axes.T).T
        one = np.ones_like(x)
        upper = np.vstack([np.c_[-x, -y, -one, 0 * one], np.c_[x, y, 0 * one, one]])
        found = optimize.linprog(
            [0, 0, 1, -1], A_ub=upper, b_ub=np.r_[-z, z], bounds=[(None, None)] * 4, method="highs"
        )
        normal = np.array([-found.x[0], -found.x[1], 1.0]) @ axes
        normal /= np.linalg.norm(normal)
        first = axes[0] - normal * (axes[0] @ normal)
        first /= np.linalg.norm(first)
        axes = np.array([first, np.cross(normal, first), normal])
        width = float(np.ptp(local @ normal))
        if before - width <= 1e-12 * width:
            break
        before = width
    return width


def by_hull(points: object) -> float:
    """Least width of scipy's convex hull over all its facets and all pairs of its edges."""
    read = np.asarray(points, float)
    hull = ConvexHull(read)
    edges = {tuple(sorted((face[a], face[b]))) for face in hull.simplices for a, b in ((0, 1), (1, 2), (2, 0))}
    along = np.array([read[b] - read[a] for a, b in edges])
    skew = np.cross(along[:, None, :], along[None, :, :]).reshape(-1, 3)
    long = np.linalg.norm(skew, axis=1)
    normals = np.vstack([hull.equations[:, :3], skew[long > 1e-9] / long[long > 1e-9, None]])
    return float(np.ptp(normals @ read.T, axis=1).min())


def by_eigen(points: object) -> float:
    """Range along the eigenvector of the least eigenvalue of the scatter."""
    read = np.asarray(points, float)
    return float(np.ptp((read - read.mean(axis=0)) @ np.linalg.eigh(np.cov(read.T))[1][:, 0]))


def by_simplex(points: object, badness: object) -> float:
    """The least of a function of the radii by scipy's simplex search, from the mean and begun anew."""
    read = np.asarray(points, float)

    def bad(centre: np.ndarray) -> float:
        return float(badness(np.hypot(*(read - centre).T)))  # type: ignore[operator]

    start = np.array(least_squares_circle(read).centre)
    tight = {"xatol": 1e-13, "fatol": 1e-15, "maxiter": 20000, "maxfev": 20000}
    for _ in range(6):
        start = optimize.minimize(bad, start, method="Nelder-Mead", options=tight).x
    return bad(start)


def by_voronoi(points: object) -> float:
    """Largest distance from a corner of scipy's Voronoi diagram, inside the hull, to the nearest point."""
    read = np.asarray(points, float)
    read = read - read.mean(axis=0)
    corners = Voronoi(read).vertices
    inside = corners[Delaunay(read).find_simplex(corners) >= 0]
    return float(max(np.hypot(*(read - corner).T).min() for corner in inside))


def fitted(points: object) -> list[float]:
    """Centre and radius by scipy's least squares."""
    read = np.asarray(points, float)

    def off(at: np.ndarray) -> np.ndarray:
        return np.hypot(*(read - at[:2]).T) - at[2]

    start = [*read.mean(axis=0), float(np.std(read) * 1.4)]
    return [float(one) for one in optimize.least_squares(off, start, xtol=1e-15, ftol=1e-15, gtol=1e-15).x]


def lsc(points: object) -> list[float]:
    found = least_squares_circle(points)  # type: ignore[arg-type]
    return [*found.centre, found.radius]


def turned(eccentricity: float, count: int, phase: float) -> float:
    angles = 2 * math.pi * np.arange(count) / count + phase
    return float(circular_runout(eccentricity * np.cos(angles)))


def taubin(points: object) -> list[float]:
    from circle_fit import taubinSVD

    return [float(one) for one in taubinSVD(np.asarray(points, float))[:3]]


WITNESSES = [
    Witness("flatness.least_squares", CASES,
            lambda: [least_squares(one).deviation for one in (SADDLE, PYRAMID, CORNER, CENTRE, READ, RAISED)],
            [0.02, 0.03, 0.0333333333, 0.04, 0.0323333333, 0.05], 4e-8),
    Witness("flatness.least_squares", "a plane has no deviation",
            lambda: least_squares(TILT).deviation, 0.0, 1e-12, True),
    Witness("flatness.least_squares", "numpy eigenvectors of the scatter",
            lambda: [least_squares(cloud(n, 30)).deviation for n in range(4)],
            lambda: [by_eigen(cloud(n, 30)) for n in range(4)], 1e-9),
    Witness("minimum_zone_plane.minimum_zone", CASES,
            lambda: [minimum_zone(one).deviation for one in (*PLATES, RAISED)],
            [0.02, 0.03, 0.0299999988, 0.04, 0.0269999998, 0.05], 5e-9),
    Witness("minimum_zone_plane.minimum_zone", "scipy linear programme (HiGHS), turned to the normal",
            lambda: [minimum_zone(cloud(n, 60)).deviation for n in range(5)],
            lambda: [by_programme(cloud(n, 60)) for n in range(5)], 1e-9),
    Witness("minimum_zone_plane.minimum_zone", "scipy convex hull: all facets, all pairs of edges",
            lambda: [minimum_zone(cloud(n, 25)).deviation for n in range(5)],
            lambda: [by_hull(cloud(n, 25)) for n in range(5)], 1e-9),
    Witness("roundness.least_squares_circle", NIST,
            lambda: [*lsc(CIR9), *lsc(CIR11), *lsc(CIR4)],
            [96.0911018088, 85.6893900804, 20.90586105205, 0.5905126918, 0.8357957525, 0.8615363071,
             627.1766544272, 326.6166704861, 2.4974072823], 1e-9),
    Witness("roundness.least_squares_circle", GGS, lambda: lsc(SIX), [4.7397825, 2.9835328, 4.7142260], 3e-8),
    Witness("roundness.least_squares_circle", "scipy.optimize.least_squares",
            lambda: [part for one in ROUNDS for part in lsc(one)],
            lambda: [part for one in ROUNDS for part in fitted(one)], 1e-8),
    Witness("roundness.least_squares_circle", "circle_fit, Taubin: the same on a nearly exact circle",
            lambda: lsc(EIGHT), lambda: taubin(EIGHT), 1e-6, needs="circle_fit"),
    Witness("roundness.minimum_zone_circles", "worked cases: linear programme, computed apart from this project",
            lambda: [minimum_zone_circles(one).deviation for one in (CIR4, SIX, EIGHT)],
            [0.0395951391, 1.3536150616, 0.0099999999980], 1e-9),
    Witness("roundness.least_squares_circle", "worked cases: deviation, and centre of the eight radii",
            lambda: [least_squares_circle(CIR4).deviation, least_squares_circle(EIGHT).deviation,
                     *least_squares_circle(EIGHT).centre],
            [0.0465229757, 0.0110607309, 0.00049999, 0.00156074], 2e-7),
    Witness("roundness.minimum_zone_circles", "worked cases: centre of the zone",
            lambda: [*minimum_zone_circles(CIR4).centre, *minimum_zone_circles(EIGHT).centre],
            [627.17671013, 326.61223962, 0.001, 0.001], 1e-10),
    Witness("roundness.minimum_circumscribed_circle", "worked cases: centre, and deviation of the eight radii",
            lambda: [*minimum_circumscribed_circle(SIX).centre, *minimum_circumscribed_circle(EIGHT).centre,
                     minimum_circumscribed_circle(EIGHT).deviation],
            [5.0, 6.0, 0.0, 0.001, 0.01099999], 2e-9),
    Witness("roundness.minimum_zone_circles", "corners of a square lie on one circle",
            lambda: [minimum_zone_circles(SQUARE).deviation, least_squares_circle(SQUARE).deviation], [0.0, 0.0],
            1e-12, True),
    Witness("minimum_zone_plane.minimum_zone", "a plane has no deviation", lambda: minimum_zone(TILT).deviation, 0.0,
            1e-12, True),
    Witness("roundness.minimum_zone_circles", "scipy simplex search",
            lambda: [minimum_zone_circles(one).deviation for one in (CIR4, EIGHT)],
            lambda: [by_simplex(one, np.ptp) for one in (CIR4, EIGHT)], 1e-6),
    Witness("roundness.minimum_circumscribed_circle", "worked cases: exact enclosing circle",
            lambda: [minimum_circumscribed_circle(one).radius for one in (CIR4, SIX, EIGHT, SQUARE)],
            [2.5158825572, math.sqrt(17), 50.009, 5 * math.sqrt(2)], 1e-10),
    Witness("roundness.minimum_circumscribed_circle", "scipy simplex search",
            lambda: [minimum_circumscribed_circle(one).radius for one in (CIR4, EIGHT)],
            lambda: [by_simplex(one, np.max) for one in (CIR4, EIGHT)], 1e-9),
    Witness("roundness.maximum_inscribed_circle", "worked cases: largest empty circle",
            lambda: [maximum_inscribed_circle(one).radius for one in (CIR4, EIGHT, SQUARE)],
            [2.4788144047, 49.9990006514, 5 * math.sqrt(2)], 1e-10),
    Witness("roundness.maximum_inscribed_circle", "scipy Voronoi corners within the hull",
            lambda: [maximum_inscribed_circle(one).radius for one in (CIR4, EIGHT)],
            lambda: [by_voronoi(one) for one in (CIR4, EIGHT)], 1e-9),
    Witness("runout.circular_runout", "closed form: twice the eccentricity, sampled densely",
            lambda: turned(math.hypot(0.05, 0.03), 100_000, 0.3), 0.1166190379, 1e-8),
    Witness("runout.circular_runout", "worked case: eight readings of e = (0.05, -0.03)",
            lambda: circular_runout([0.05 * math.cos(a) - 0.03 * math.sin(a) for a in ANGLES]), 0.1131370850, 1e-8),
    Witness("runout.total_runout", "numpy: range of all readings",
            lambda: total_runout([[0.0, 0.02, 0.01], [0.013, 0.044, -0.02]]), 0.064, 1e-12),
    Witness("runout.total_runout", "closed form: a cone of 0.1 mm over the length adds its rise",
            lambda: total_runout([[z + 0.02 * math.cos(a) for a in ANGLES] for z in (0.0, 0.05, 0.1)]), 0.14, 1e-9),
    Witness("runout.eccentric_runout", "worked case: e = (0.05, -0.03)",
            lambda: eccentric_runout(math.hypot(0.05, 0.03)), 0.1166190379, 1e-9),
    Witness("runout.eccentric_runout", "range of a densely sampled eccentric circle (small e)",
            lambda: eccentric_runout(0.05), lambda: turned(0.05, 100_000, 0.1), 1e-8),
    Witness("runout.missed_share", "worst phase of 5 to 12 readings, tried in small steps",
            lambda: [missed_share(n) for n in range(5, 13)],
            lambda: [1 - min(turned(1, n, p) for p in np.linspace(0, 2 * math.pi / n, 721)) / 2 for n in range(5, 13)],
            1e-4),
    Witness("runout.missed_share", "worked case: 8 readings of a circle miss no more",
            lambda: missed_share(8), 1 - math.cos(math.pi / 8), 1e-12),
    Witness("bend.radius_of_bow", "geometry: three points of a circle of 250 mm",
            lambda: radius_of_bow(2 * 250 * math.sin(0.2), 250 * (1 - math.cos(0.2))), 250.0, 1e-12),
    Witness("bend.radius_of_bow", "half a circle: radius is half the chord",
            lambda: radius_of_bow(80, 40), 40.0, 1e-12),
    Witness("bend.bend_strain", "length of the outer fibre of an arc against the middle one",
            lambda: bend_strain(3, 40), 100 * ((40 + 1.5) * 0.7 - 40 * 0.7) / (40 * 0.7), 1e-12),
    Witness("bend.bend_strain", "handbook: t / (2 R), 2 mm over 20 mm is 5 %", lambda: bend_strain(2, 20), 5.0, 1e-12),
    Witness("diameters.out_of_round", "geometry: an ellipse of 25.01 by 25.00 mm",
            lambda: out_of_round([25.0, 25.005, 25.01]).out_of_round, 0.01, 1e-9),
    Witness("diameters.out_of_round", "numpy: range and mean",
            lambda: list(out_of_round([10.02, 10.07, 9.98, 10.0])), [10.0175, 10.07, 9.98, 0.09, 0.045], 1e-9),
]  # fmt: skip
