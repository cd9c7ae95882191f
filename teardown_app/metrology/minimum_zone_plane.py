"""Flatness by the minimum zone: the two parallel planes nearest to each other that hold all points between them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from teardown_app.metrology.fault import Floats, rows
from teardown_app.metrology.flatness import _principal

_ENOUGH, _TOUCH = 1e-13, 1e-9
"""A point this far outside, as a share of the extent, is on the plane; this near, it touches."""
_MOST_ROUNDS = 400


class MinimumZone(NamedTuple):
    """Two parallel planes."""

    deviation: float
    """Their distance, mm: flatness."""
    normal: Floats
    """Unit normal, shape (3,), z not below 0."""
    lower: float
    """Distance of the lower plane from the origin along the normal, mm."""
    contact: str
    """`3-1` (three points in one plane, one in the other), `2-2` (two and two), or `flat`."""
    points: tuple[int, ...]
    """Numbers of the points that hold the planes, from 0."""


def minimum_zone(points: Sequence[Sequence[float]] | Floats) -> MinimumZone:
    """The least width of the cloud over all directions, ISO 12781-1 (minimum zone), exact and global.

    Least width is held by a facet and a point (3-1) or by two edges (2-2). Both are tried for every choice among a few
    points; a point found outside is taken among them, until none is: then no direction gives less.

    Parameters: `points` x, y, z in mm, shape (n, 3), three or more that do not lie on one line. Raises `BadInput`
    otherwise.

    >>> saddle = [(50, 50, 0.01), (-50, -50, 0.01), (50, -50, -0.01), (-50, 50, -0.01)]
    >>> found = minimum_zone(saddle)
    >>> round(found.deviation, 12), found.contact
    (0.02, '2-2')
    """
    read = rows("points", points, columns=3, at_least=3, unit="mm")
    centre, _, directions = _principal(read)
    local = (read - centre) @ directions.T
    scale = float(np.abs(local).max())
    ends = _ends(local)
    held = _settled(local, ends, ends, scale, keep=False)
    held = _settled(local, ends, held, scale, keep=True)
    direction, _ = _narrowest(local[held])
    return _zone(direction, local @ direction, directions, centre, scale)


def _ends(local: Floats) -> list[int]:
    """Points at the ends along both wide directions and their diagonals, and the highest and lowest."""
    x, y, z = local.T
    ends = [one for row in (x, y, x + y, x - y, z) for one in (int(row.argmax()), int(row.argmin()))]
    return list(dict.fromkeys(ends))


def _settled(local: Floats, ends: list[int], chosen: list[int], scale: float, *, keep: bool) -> list[int]:
    """Points that decide: those outside are taken in until none is.

    Without `keep` only the ends and those that touch stay from round to round: quick, and mostly right. With it none is
    let go, so that the chosen only grow wider and what is found in the end is the least there is.
    """
    for _ in range(_MOST_ROUNDS):
        direction, width = _narrowest(local[chosen])
        heights = local @ direction
        outside = [int(heights.argmax()), int(heights.argmin())]
        wide = float(heights[outside[0]] - heights[outside[1]])
        if wide - width <= _ENOUGH * scale or set(outside) <= set(chosen):
            break
        stay = chosen
        if not keep:
            near = heights[chosen]
            touching = (near >= near.max() - _TOUCH * scale) | (near <= near.min() + _TOUCH * scale)
            stay = [*ends, *np.array(chosen)[touching].tolist()]
        chosen = list(dict.fromkeys([*stay, *outside]))
    return chosen


def _narrowest(points: Floats) -> tuple[Floats, float]:
    """Of all facets and all pairs of edges of a few points, the direction along which they are least wide."""
    one, two, three = _triples(len(points))
    normals = _cross(points[two] - points[one], points[three] - points[one])
    first, second = _pairs(len(points))
    edges = points[second] - points[first]
    here, there = _pairs(len(edges))
    if len(here):
        normals = np.concatenate([normals, _cross(edges[here], edges[there])])
    long = np.sqrt(np.einsum("ij,ij->i", normals, normals))
    kept = long > 1e-12 * float(np.abs(points).max()) ** 2
    units = normals[kept] / long[kept, None]
    heights = units @ points.T
    width = heights.max(axis=1) - heights.min(axis=1)
    place = int(width.argmin())
    return units[place], float(width[place])


def _cross(a: Floats, b: Floats) -> Floats:
    return np.stack(
        [
            a[:, 1] * b[:, 2] - a[:, 2] * b[:, 1],
            a[:, 2] * b[:, 0] - a[:, 0] * b[:, 2],
            a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0],
        ],
        axis=1,
    )


@lru_cache(maxsize=256)
def _pairs(count: int) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    return np.triu_indices(count, 1)


@lru_cache(maxsize=64)
def _triples(count: int) -> tuple[NDArray[np.intp], ...]:
    found = np.array(list(combinations(range(count), 3)), dtype=np.intp).reshape(-1, 3)
    return tuple(found.T)


def _zone(direction: Floats, heights: Floats, directions: Floats, centre: Floats, scale: float) -> MinimumZone:
    """As the world sees it: normal upwards, which points touch."""
    normal = direction @ directions
    if normal[2] < 0:
        normal, heights = -normal, -heights
    low, high = float(heights.min()), float(heights.max())
    near = _TOUCH * scale
    above = [int(one) for one in np.flatnonzero(heights >= high - near)]
    below = [int(one) for one in np.flatnonzero(heights <= low + near)]
    if high - low <= near:
        return MinimumZone(high - low, normal, float(centre @ normal) + low, "flat", tuple(above[:3]))
    contact = "3-1" if max(len(above), len(below)) >= 3 else "2-2"
    return MinimumZone(high - low, normal, float(centre @ normal) + low, contact, (*above, *below))
