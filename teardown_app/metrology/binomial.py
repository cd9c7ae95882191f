"""How good a share is that was seen in passes and trials: confidence limits for a probability of success."""

from __future__ import annotations

import math

from teardown_app.metrology._quantile import beta_quantile
from teardown_app.metrology._share import Bounds, _passes, _risks
from teardown_app.metrology._special import normal_quantile


def clopper_pearson(passes: float, trials: float, confidence: float = 0.95, sided: str = "two") -> Bounds:
    """Exact limits of the probability of a pass (C. J. Clopper and E. S. Pearson, Biometrika 26, 1934).

    low solves I_low(x, n - x + 1) = risk, high solves 1 - I_high(x + 1, n - x) = risk, x passes of n trials; the
    risk is (1 - confidence) / 2 on either side, or 1 - confidence on the one that `sided` names (lower, upper).
    0 passes give low 0, n passes high 1. They cover the true value at least as often as they promise.

    passes 0 to trials, trials 1 to 10 000 000, confidence above 0 and below 1; else `BadInput`. Shares, no unit.

    >>> print("{:.6f} {:.6f}".format(*clopper_pearson(9, 10)))
    0.554984 0.997471
    """
    x, n = _passes(passes, trials)
    below, above = _risks(confidence, sided)
    low = beta_quantile(below, x, n - x + 1).x if below and x > 0 else 0.0
    high = beta_quantile(above, n - x, x + 1).rest if above and x < n else 1.0
    return Bounds(low, high)


def wilson(
    passes: float, trials: float, confidence: float = 0.95, sided: str = "two", *, continuity: bool = False
) -> Bounds:
    """Score limits of the probability of a pass (E. B. Wilson, 1927; R. G. Newcombe, Stat. Med. 17, 1998, 857).

    Both solve |x/n - p| = z sqrt(p (1 - p) / n), x passes of n trials; with `continuity` x is first moved half a
    pass outwards. z is the normal quantile of the risk. Closer than Clopper and Pearson's limits, but covering the
    true value only about as often as promised.

    passes 0 to trials, trials 1 to 10 000 000, confidence above 0 and below 1; else `BadInput`. Shares, no unit.

    >>> print("{:.4f} {:.4f}".format(*wilson(81, 263)))
    0.2553 0.3662
    """
    x, n = _passes(passes, trials)
    below, above = _risks(confidence, sided)
    half = 0.5 if continuity else 0.0
    low = _score(x - half, n, normal_quantile(below)) if below and x > 0 else 0.0
    high = _score(x + half, n, -normal_quantile(above)) if above and x < n else 1.0
    return Bounds(low, high)


def _score(x: float, n: int, z: float) -> float:
    """The limit below x / n for z < 0, above it for z > 0, without taking near numbers from each other."""
    root = math.sqrt(z * z / 4.0 + x * (n - x) / n)
    if z < 0.0:
        return x * (x / n) / (x + z * z / 2.0 - z * root)
    return (x + z * z / 2.0 + z * root) / (n + z * z)
