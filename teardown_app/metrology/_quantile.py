"""The points that cut a given share off a beta or a gamma distribution.

Found by Newton's method on the logarithm of the share, over the logit or the logarithm of the point. Both
curves bend one way there, so that it goes straight home; a bracket catches what the ends of the number range do.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from teardown_app.metrology._special import _beta_front, _gamma_front, beta_tails, gamma_tails

_FARTHEST = 700.0
_MOST_STEPS = 300


class Point(NamedTuple):
    """A share and what is left of one; both keep their digits near 0."""

    x: float
    rest: float
    """1 - x."""


def beta_quantile(share: float, a: float, b: float) -> Point:
    """x with I_x(a, b) = share, and 1 - x; 0 < share < 1.

    >>> print("{:.6f} {:.6f}".format(*beta_quantile(0.25, 1.0, 1.0)))
    0.250000 0.750000
    """
    if share > 0.5:
        rest, x = beta_quantile(1.0 - share, b, a)
        return Point(x, rest)

    def at(t: float) -> tuple[float, float]:
        x, rest = _from_logit(t)
        return beta_tails(x, rest, a, b).lower, _beta_front(x, rest, a, b)

    return Point(*_from_logit(_home(at, share, math.log(a / b), rising=True)))


def gamma_quantile(share: float, a: float, *, upper: bool = False) -> float:
    """x with P(a, x) = share, or with Q(a, x) = share where `upper`; 0 < share < 1.

    >>> round(gamma_quantile(0.05, 1.0, upper=True), 6)
    2.995732
    """
    if share > 0.5:
        return gamma_quantile(1.0 - share, a, upper=not upper)

    def at(t: float) -> tuple[float, float]:
        x = math.exp(t)
        return gamma_tails(x, a)[upper], a * _gamma_front(x, a)

    return math.exp(_home(at, share, math.log(a), rising=not upper))


def _from_logit(t: float) -> tuple[float, float]:
    """1 / (1 + e^-t) and what is left of one."""
    small = math.exp(-abs(t))
    large = 1.0 / (1.0 + small)
    return (large, small * large) if t > 0 else (small * large, large)


def _home(at: Callable[[float], tuple[float, float]], share: float, start: float, *, rising: bool) -> float:
    """t where the tail is `share`; `at` gives the tail and the size of its slope."""
    low, high, t = -_FARTHEST, _FARTHEST, start
    for _ in range(_MOST_STEPS):
        tail, slope = at(t)
        off = math.log(tail / share) if tail > 0.0 else -math.inf
        over = off if rising else -off
        low, high = (low, t) if over > 0.0 else (t, high)
        step = -over * tail / slope if slope > 0.0 and math.isfinite(over) else math.inf
        if abs(step) <= 1e-14 * max(1.0, abs(t)):
            return t + step
        t = t + step if low < t + step < high else 0.5 * (low + high)
    return t
