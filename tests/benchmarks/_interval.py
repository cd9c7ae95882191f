"""How far a counted share may be off."""

from __future__ import annotations

from math import sqrt

SIGMAS = 1.96
"""Of the normal distribution, for 95 of 100."""


def interval(right: int, many: int) -> tuple[float, float]:
    """Wilson's interval of 95 of 100 for a share.

    >>> [round(one, 3) for one in interval(10, 10)]
    [0.722, 1.0]
    """
    share, spread = right / many, SIGMAS * SIGMAS / many
    half = SIGMAS * sqrt(share * (1 - share) / many + spread / (4 * many))
    return max(0.0, (share + spread / 2 - half) / (1 + spread)), min(1.0, (share + spread / 2 + half) / (1 + spread))
