"""How probable it is that a measured thing truly lies within its limits."""

from __future__ import annotations

import math

from teardown_app.metrology._special import normal_cdf
from teardown_app.metrology.fault import BadInput, number


def probability_of_conformity(
    value: float, low: float | None, high: float | None, standard_uncertainty: float
) -> float:
    """p_c = Phi((T_U - y) / u) - Phi((T_L - y) / u): the share of a normal distribution about y within the limits.

    JCGM 106:2012. A limit that is None bounds nothing. It takes y and u as all that is known: no prior knowledge
    of how such parts come out.

    value y, limits T_L <= T_U (at least one) and standard uncertainty u above 0, all in one unit; else
    `BadInput`. A share, no unit.

    >>> round(probability_of_conformity(0.0075, None, 0.008, 0.0005), 6)
    0.841345
    """
    y, low, high = _read(value, low, high)
    u = number("standard_uncertainty", standard_uncertainty, "above 0", above=0)
    to_low = -math.inf if low is None else (low - y) / u
    to_high = math.inf if high is None else (high - y) / u
    if to_low > 0.0:
        return normal_cdf(-to_low) - normal_cdf(-to_high)
    return normal_cdf(to_high) - normal_cdf(to_low)


def _read(value: float, low: float | None, high: float | None) -> tuple[float, float | None, float | None]:
    """A value and its limits as numbers, the lower one not above the upper one."""
    y = number("value", value)
    lower = None if low is None else number("limit_min", low)
    upper = None if high is None else number("limit_max", high)
    if lower is None and upper is None:
        raise BadInput("limit", "missing", "an upper limit, a lower limit or both")
    if lower is not None and upper is not None and lower > upper:
        raise BadInput("limit_min", lower, f"not above the upper limit, {upper}")
    return y, lower, upper
