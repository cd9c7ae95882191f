"""Flatness by the minimum zone: the two parallel planes nearest to each other that hold all points between them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from teardown_app.metrology.fault import BadInput, Floats, rows
from teardown_app.metrology.flatness import _principal

_ENOUGH, _TOUCH = 1e-13, 1e-9
"""A point this far outside, as a share of the extent, is on the plane; this near, it touches."""
_MOST_ROUNDS = 400
_MOST_HELD = 48
"""A face is held by few points; a ball by all of them, and its least width means nothing."""
_AT_ONCE = 20_000
"""Directions tried at a time, to bound the memory."""


class MinimumZone(NamedTuple):
    """Two parallel planes."""

    deviation: float
    """Their distance, mm: flatness."""
    normal: Floats
    """Unit normal, shape (3,), z not below 0."""
    lower: float
    """Distance of the lower plane from the origin along the normal, mm."""
    contact: str
    """`3-1` (one point in a plane lies over the triangle of three in the other), `2-2` (two and two: their lines
    cross), or `flat`."""
    points: tuple[int, ...]
    """Numbers of the points that hold the planes, from 0."""


def minimum_zone(points: Sequence[Sequence[float]] | Floats) -> MinimumZone:
    """The least width of the cloud over all directions, ISO 12781-1 (minimum zone), exact and global.

    Least width is held by a facet and a point (3-1) or by two edges (2-2). Both are tried for every choice among a few
    points; a point found outside is taken among them, until none is: then no direction gives less.

    Parameters: `points` x, y, z in mm, shape (n, 3), three or more that do not lie on one line. Raises `BadInput`
    otherwise, and where more than 48 points would have to be weighed, as on a ball or the mantle of a cylinder: they
    are no face.

    >>> saddle = [(50, 50, 0.01), (-50, -50, 0.01), (50, -50, -0.01), (-50, 50, -0.01)]
    >>> found = minimum_zone(saddle)
    >>> round(found.deviation, 12), found.contact
    (0.02, '2-2')
    """
    read = rows("points", points, columns=3, at_least=3, unit="mm")
    centre, _, directions = _principal(read)
    local = (read - centre) @ directions.T
    scale = float(np.abs(local).max())
    local = local / scale
    ends = _ends(local)
    held = _settled(local, ends, ends, keep=False)
    held = _settled(local, ends, held, keep=True)
    direction, _ = _narrowest(local[held])
    return _zone(local, direction, directions, centre, scale)


def _ends(local: Floats) -> list[int]:
    """Points at the ends along both wide directions and their diagonals, and the highest and lowest."""
    x, y, z = local.T
    ends = [one for row in (x, y, x + y, x - y, z) for one in (int(row.argmax()), int(row.argmin()))]
    return list(dict.fromkeys(ends))


def _settled(local: Floats, ends: list[int], chosen: list[int], *, keep: bool) -> list[int]:
    """Points that decide: those outside are taken in until none is.

    Without `keep` only the ends and those that touch stay from round to round: quick, and mostly right. With it none is
    let go, so that the chosen only grow wider and what is found in the end is the least there is.
    """
    for _ in range(_MOST_ROUNDS):
        if len(chosen) > _MOST_HELD:
            raise BadInput("points", "of something round", "points of a face, less thick than wide")
        direction, width = _narrowest(local[chosen])
        heights = local @ direction
        outside = [int(heights.argmax()), int(heights.argmin())]
        wide = float(heights[outside[0]] - heights[outside[1]])
        if wide - width <= _ENOUGH or set(outside) <= set(chosen):
            break
        stay = chosen
        if not keep:
            near = heights[chosen]
            touching = (near >= near.max() - _TOUCH) | (near <= near.min() + _TOUCH)
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
    kept = long > 1e-12
    units = normals[kept] / long[kept, None]
    parts = [units[at : at + _AT_ONCE] @ points.T for at in range(0, len(units), _AT_ONCE)]
    width = np.concatenate([part.max(axis=1) - part.min(axis=1) for part in parts])
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


def _zone(local: Floats, direction: Floats, directions: Floats, centre: Floats, scale: float) -> MinimumZone:
    """As the world sees it: normal upwards, which points touch."""
    normal = direction @ directions
    if normal[2] < 0:
        normal, direction = -normal, -direction
    heights = local @ direction
    low, high = float(heights.min()), float(heights.max())
    above, below = np.flatnonzero(heights >= high - _TOUCH), np.flatnonzero(heights <= low + _TOUCH)
    width, lower = scale * (high - low), float(centre @ normal) + scale * low
    if high - low <= _TOUCH:
        return MinimumZone(width, normal, lower, "flat", _wide(local))
    across = np.linalg.svd(direction[None, :])[2][1:]
    seen = local @ across.T
    three = _over_a_triangle(seen[above], seen[below]) or _over_a_triangle(seen[below], seen[above])
    return MinimumZone(width, normal, lower, "3-1" if three else "2-2", (*above.tolist(), *below.tolist()))


def _wide(local: Floats) -> tuple[int, ...]:
    """Three points far apart and not on one line."""
    first = int(np.einsum("ij,ij->i", local, local).argmax())
    from_it = local - local[first]
    second = int(np.einsum("ij,ij->i", from_it, from_it).argmax())
    beside = np.cross(from_it, from_it[second])
    return first, second, int(np.einsum("ij,ij->i", beside, beside).argmax())


def _over_a_triangle(points: Floats, others: Floats) -> bool:
    """True if one of some points lies within the outline of others, seen square to the planes; they may not all be on
    one line. A point is outside when all others lie within less than half a turn as seen from it.
    """
    spread = np.linalg.svd(others - others.mean(axis=0), compute_uv=False)
    if len(others) < 3 or spread[1] <= _TOUCH * spread[0]:
        return False
    for point in points:
        away = others - point
        if np.hypot(*away.T).min() <= _TOUCH:
            return True
        angles = np.sort(np.arctan2(away[:, 1], away[:, 0]))
        gaps = np.diff(angles, append=angles[0] + 2 * np.pi)
        if gaps.max() <= np.pi + _TOUCH:
            return True
    return False
