"""Centres that a few points make: of pairs, of three, where the mid-lines of two pairs cross."""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from teardown_app.metrology.fault import Floats

Indices = NDArray[np.intp]


def round_centres(points: Floats) -> Floats:
    """Middles of pairs and centres of the circles through three."""
    one, two = _pairs(len(points))
    return np.concatenate([(points[one] + points[two]) / 2, _through_three(points)])


def inner_centres(points: Floats) -> Floats:
    """Centres of the circles through three that lie inside the three."""
    one, two, three = _triples(len(points))
    centres, good = _circumcentres(points[one], points[two], points[three])
    a, b, c, centres = points[one][good], points[two][good], points[three][good], centres[good]
    sides = np.stack([_turn(a, b, centres), _turn(b, c, centres), _turn(c, a, centres)])
    inside = (sides >= -1e-12).all(axis=0) | (sides <= 1e-12).all(axis=0)
    return np.asarray(centres[inside], dtype=np.float64)


def _turn(a: Floats, b: Floats, c: Floats) -> Floats:
    return np.asarray((b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0]))


def zone_centres(points: Floats) -> Floats:
    """Centres through three, and where the mid-lines of two pairs cross."""
    one, two = _pairs(len(points))
    middle, along = (points[one] + points[two]) / 2, points[two] - points[one]
    offset = (middle * along).sum(axis=1)
    here, there = _pairs(len(one))
    a, b, p, q = along[here], along[there], offset[here], offset[there]
    turn = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    good = np.abs(turn) > 1e-14
    a, b, p, q, turn = a[good], b[good], p[good], q[good], turn[good]
    crossing = np.column_stack([(p * b[:, 1] - q * a[:, 1]) / turn, (q * a[:, 0] - p * b[:, 0]) / turn])
    return np.concatenate([crossing, _through_three(points)])


def _through_three(points: Floats) -> Floats:
    one, two, three = _triples(len(points))
    centres, good = _circumcentres(points[one], points[two], points[three])
    return np.asarray(centres[good], dtype=np.float64)


def _circumcentres(a: Floats, b: Floats, c: Floats) -> tuple[Floats, NDArray[np.bool_]]:
    """Centres of circles through three points; false where they lie on a line."""
    p, q = b - a, c - a
    turn = 2 * (p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0])
    good = np.abs(turn) > 1e-14
    safe = np.where(good, turn, 1.0)
    pp, qq = (p * p).sum(axis=1), (q * q).sum(axis=1)
    x = (q[:, 1] * pp - p[:, 1] * qq) / safe
    y = (p[:, 0] * qq - q[:, 0] * pp) / safe
    return a + np.column_stack([x, y]), good


@lru_cache(maxsize=256)
def _pairs(count: int) -> tuple[Indices, Indices]:
    return np.triu_indices(count, 1)


@lru_cache(maxsize=64)
def _triples(count: int) -> tuple[Indices, ...]:
    found = np.array(list(combinations(range(count), 3)), dtype=np.intp).reshape(-1, 3)
    return tuple(found.T)
