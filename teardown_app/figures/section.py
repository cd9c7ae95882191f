"""A section's form as a picture: the deviation from the mean circle, magnified, between the zone's circles."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import cos, hypot, pi, sin
from typing import Any

from teardown_app.figures.figure import DATA, LIMIT, MEAN, Figure, Line, Point, Words
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.roundness import least_squares_circle, minimum_zone_circles

DRAWN_R, DEPTH = 1.0, 0.32
"""The mean circle is drawn with this radius, the largest deviation as this share of it."""
AROUND = 96


def section_figure(measured: Mapping[str, Any]) -> Figure | None:
    """Of points round a bore or shaft, or of radii at equal angles."""
    points = _points(measured)
    if len(points) < 4:
        return None
    try:
        zone, mean = minimum_zone_circles(points), least_squares_circle(points)
    except BadInput:
        return None
    middle = (float(zone.centre[0]), float(zone.centre[1]))
    radii = [hypot(x - middle[0], y - middle[1]) for x, y in points]
    inner, outer = min(radii), max(radii)
    centre_r = (inner + outer) / 2
    scale = DEPTH / ((outer - inner) / 2) if outer > inner else 0.0
    drawn = [_drawn(x - middle[0], y - middle[1], centre_r, scale) for x, y in points]
    lines = (
        Line(tuple(drawn), DATA, closed=True),
        Line(_ring(DRAWN_R + (outer - centre_r) * scale), LIMIT, closed=True),
        Line(_ring(DRAWN_R + (inner - centre_r) * scale), LIMIT, closed=True),
        Line(_ring(DRAWN_R), MEAN, closed=True),
    )
    said = f"minimum zone {zone.deviation:.4g} mm, mean circle {2 * mean.radius:.7g} mm dia"
    top = DRAWN_R + DEPTH + 0.1
    return Figure(-top, top, -top, top + 0.25, lines, words=(Words(0.0, top + 0.12, said),), equal=True, says=said)


def _points(measured: Mapping[str, Any]) -> list[Point]:
    if measured.get("points"):
        return [(float(x), float(y)) for x, y in measured["points"]]
    radii: Sequence[float] = measured.get("radii") or []
    count = len(radii)
    return [(r * cos(2 * pi * n / count), r * sin(2 * pi * n / count)) for n, r in enumerate(radii)]


def _drawn(x: float, y: float, centre_r: float, scale: float) -> Point:
    r = hypot(x, y)
    wanted = DRAWN_R + (r - centre_r) * scale
    return (x / r * wanted, y / r * wanted) if r else (0.0, 0.0)


def _ring(radius: float) -> tuple[Point, ...]:
    return tuple((radius * cos(2 * pi * n / AROUND), radius * sin(2 * pi * n / AROUND)) for n in range(AROUND))
