"""Counts of rare things, such as particles on a wafer: limits of a rate, and whether two rates differ."""

from __future__ import annotations

import math
from typing import NamedTuple

from teardown_app.metrology._quantile import gamma_quantile
from teardown_app.metrology._share import Bounds, _risks, _whole
from teardown_app.metrology.binomial import clopper_pearson
from teardown_app.metrology.exact_test import two_sided_p
from teardown_app.metrology.fault import number

_HALF = 5_000_000


class Comparison(NamedTuple):
    """Two rates held against each other."""

    ratio: float | None
    """First rate by second (no unit); infinite where only the second count is 0, None where both are."""
    low: float
    """Lower confidence limit of the ratio."""
    high: float
    """Upper confidence limit of the ratio; may be infinite."""
    p: float
    """Probability of a difference as unlikely as this one, or more so, were the rates equal."""


def garwood(count: float, exposure: float = 1.0, confidence: float = 0.95, sided: str = "two") -> Bounds:
    """Exact limits of a rate from a count (F. Garwood, Biometrika 28, 1936).

    low = chi2(risk; 2k) / 2, high = chi2(1 - risk; 2k + 2) / 2, both by exposure; the risk is
    (1 - confidence) / 2 on either side, or 1 - confidence on the one that `sided` names (lower, upper).
    0 counted gives low 0, and a one-sided high at 95 % of 3.0 (rule of three).

    count 0 to 10 000 000, exposure 1e-12 to 1e12 (passes, wafers, hours), confidence above 0 and below 1; else
    `BadInput`. Counts per unit of exposure.

    >>> print("{:.6f} {:.6f}".format(*garwood(3)))
    0.618672 8.767273
    """
    k = _whole("count", count)
    over = _exposure("exposure", exposure)
    below, above = _risks(confidence, sided)
    low = gamma_quantile(below, k) / over if below and k else 0.0
    high = gamma_quantile(above, k + 1, upper=True) / over if above else math.inf
    return Bounds(low, high)


def compare(
    count: float, exposure: float, other_count: float, other_exposure: float, confidence: float = 0.95
) -> Comparison:
    """Two Poisson rates by the exact conditional test (J. Przyborowski and H. Wilenski, Biometrika 31, 1940).

    Given the sum of both counts, the first is binomial; with equal rates its share is
    exposure / (exposure + other_exposure). p is that of the exact binomial test. The ratio's limits are
    s / (1 - s) * other_exposure / exposure with s the limits of Clopper and Pearson for that share. The test
    errs to the careful side: it calls fewer differences real than it might.

    counts 0 to 5 000 000, exposures 1e-12 to 1e12 in one unit, confidence above 0 and below 1; else `BadInput`.

    >>> round(compare(12, 1, 3, 1).p, 9)
    0.03515625
    """
    first, second = _whole("count", count, high=_HALF), _whole("other_count", other_count, high=_HALF)
    over = _exposure("exposure", exposure) / _exposure("other_exposure", other_exposure)
    if first + second == 0:
        _risks(confidence, "two")
        return Comparison(None, 0.0, math.inf, 1.0)
    one, other = (clopper_pearson(count, first + second, confidence) for count in (first, second))
    return Comparison(
        ratio=first / second / over if second else math.inf,
        low=one.low / other.high / over,
        high=one.high / other.low / over if second else math.inf,
        p=_p_of_equal_rates(first, second, over),
    )


def _p_of_equal_rates(first: int, second: int, over: float) -> float:
    """By the smaller of the two shares, which keeps its digits."""
    if over > 1.0:
        return _p_of_equal_rates(second, first, 1.0 / over)
    return two_sided_p(first, first + second, over / (1.0 + over))


def _exposure(field: str, value: float) -> float:
    return number(field, value, "above 0, from 1e-12 to 1e12", low=1e-12, high=1e12)
