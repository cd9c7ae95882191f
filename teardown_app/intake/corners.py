"""Where a symbol lies, by its corners (x, y) going round: its middle and its width. Plain numbers, in any one unit."""

from __future__ import annotations

import math
from collections.abc import Sequence

Point = tuple[float, float]


def middle_of(corners: Sequence[Point]) -> Point:
    """The mean of its corners.

    >>> middle_of([(0, 0), (4, 0), (4, 2), (0, 2)])
    (2.0, 1.0)
    """
    return sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners)


def width_of(corners: Sequence[Point]) -> float:
    """The side of a square of its area: the same however it is turned.

    >>> width_of([(0, 0), (3, 0), (3, 3), (0, 3)]), width_of([(1, 0), (2, 1), (1, 2), (0, 1)]) ** 2
    (3.0, 2.0000000000000004)
    """
    around = zip(corners, [*corners[1:], *corners[:1]], strict=True)
    return math.sqrt(abs(sum(x * to_y - to_x * y for (x, y), (to_x, to_y) in around)) / 2)


def is_on(corners: Sequence[Point], point: Point) -> bool:
    """True for a point within the span of the corners."""
    xs, ys = zip(*corners, strict=True)
    return bool(min(xs) < point[0] < max(xs) and min(ys) < point[1] < max(ys))
