"""A plate's heights as a picture: one square a reading, light low, dark high, with the high and the low spot."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from teardown_app.figures.figure import DATA, Band, Figure, Line, Mark, Words
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.flatness import least_squares

FEWEST = 3
SPOT = 0.09
"""Half the side of a square of single points, as a share of the plate."""


def grid_figure(measured: Mapping[str, Any]) -> Figure | None:
    """Of readings on a grid: rows of heights. The readings still to come are left white."""
    rows = measured.get("heights") or []
    if not rows or not any(rows):
        return None
    pitch_x, pitch_y = float(measured.get("pitch_x") or 1.0), float(measured.get("pitch_y") or 1.0)
    points = [(n * pitch_x, m * pitch_y, float(z)) for m, row in enumerate(rows) for n, z in enumerate(row)]
    return _figure(points, pitch_x / 2, pitch_y / 2)


def points_figure(measured: Mapping[str, Any]) -> Figure | None:
    """Of readings at places of their own: x, y, z."""
    points = [(float(x), float(y), float(z)) for x, y, z in measured.get("points") or []]
    if not points:
        return None
    side = max(_width(points, 0), _width(points, 1)) * SPOT or 1.0
    return _figure(points, side, side)


def _width(points: Sequence[tuple[float, ...]], axis: int) -> float:
    values = [point[axis] for point in points]
    return max(values) - min(values)


def _figure(points: list[tuple[float, float, float]], half_x: float, half_y: float) -> Figure:
    heights = _above_plane(points)
    low, high = min(heights), max(heights)
    spread = (high - low) or 1.0
    bands = tuple(
        Band(x - half_x, x + half_x, y - half_y, y + half_y, DATA, (z - low) / spread)
        for (x, y, _), z in zip(points, heights, strict=True)
    )
    left, right = min(x for x, _, _ in points) - half_x, max(x for x, _, _ in points) + half_x
    bottom, top = min(y for _, y, _ in points) - half_y, max(y for _, y, _ in points) + half_y
    room = 0.3 * (top - bottom)
    spots = [(heights.index(high), "to do"), (heights.index(low), "empty")] if high > low else []
    marks = tuple(Mark(points[n][0], points[n][1], sign) for n, sign in spots)
    said = f"{high - low:.3g} mm: disc high {high:+.3g}, square low {low:+.3g}"
    edge = Line(((left, bottom), (right, bottom), (right, top), (left, top)), closed=True)
    words = (Words((left + right) / 2, top + room * 0.6, said),)
    return Figure(left, right, bottom, top + room, (edge,), bands, marks, words, equal=True, says=said)


def _above_plane(points: list[tuple[float, float, float]]) -> list[float]:
    """Heights over the least-squares plane, mm; as read while there is none yet."""
    try:
        if len(points) > FEWEST:
            return [float(one) for one in least_squares(points).residuals]
    except BadInput:
        pass
    mean = sum(z for _, _, z in points) / len(points)
    return [z - mean for _, _, z in points]
