"""Flatness by the least-squares plane."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, rows

_THIN = 1e-9
"""Points whose second extent is less than this share of the first lie on a line."""
_DIGITS = 8 * float(np.finfo(float).eps)
"""As do points that leave it by no more than the last digits of their coordinates, as a share of these."""


class Plane(NamedTuple):
    """A plane through measured points, and how they lie about it."""

    deviation: float
    """Largest less smallest distance from the plane, mm: flatness."""
    normal: Floats
    """Unit normal, shape (3,), z not below 0."""
    centre: Floats
    """A point of the plane, shape (3,), mm."""
    residuals: Floats
    """Distance of every point from the plane along the normal, shape (n,), mm."""
    high: int
    """Number of the highest point, from 0."""
    low: int
    """Number of the lowest point, from 0."""


def least_squares(points: Sequence[Sequence[float]] | Floats) -> Plane:
    """The plane with the least sum of squared distances square to it: mean of the points, and the direction in which
    they spread least (singular value decomposition). Flatness is the range of the distances, ISO 12781-1.

    Parameters: `points` x, y, z in mm, shape (n, 3), three or more that do not lie on one line. Raises `BadInput`
    otherwise.

    >>> found = least_squares([(0, 0, 0), (100, 0, 0), (0, 100, 0), (100, 100, 0), (50, 50, 0.03)])
    >>> round(found.deviation, 9), found.high
    (0.03, 4)
    """
    centre, spread, directions = _principal(points)
    normal = directions[2] if directions[2, 2] >= 0 else -directions[2]
    residuals = (rows("points", points, columns=3, at_least=3, unit="mm") - centre) @ normal
    high, low = int(residuals.argmax()), int(residuals.argmin())
    return Plane(float(residuals[high] - residuals[low]), normal, centre, residuals, high, low)


def _principal(points: Sequence[Sequence[float]] | Floats) -> tuple[Floats, Floats, Floats]:
    """Mean, extents and directions of a cloud, the widest first; refuses points on one line.

    Shapes (3,), (3,), (3, 3); extents are singular values, mm.

    >>> _principal([(0, 0, 0), (2, 0, 0), (0, 1, 0)])[0].round(3)
    array([0.667, 0.333, 0.   ])
    """
    read = rows("points", points, columns=3, at_least=3, unit="mm")
    centre = read.mean(axis=0)
    _, spread, directions = np.linalg.svd(read - centre, full_matrices=False)
    rounded = _DIGITS * float(np.abs(read).max()) * len(read) ** 0.5
    if spread[1] <= max(_THIN * spread[0], rounded):
        raise BadInput("points", "all on one line", "three or more points of a surface, not on one line")
    return centre, spread, directions
