"""Coverage factors where an uncertainty rests on few readings."""

from __future__ import annotations

import math
from collections.abc import Sequence

from teardown_app.metrology._quantile import beta_quantile
from teardown_app.metrology._share import _share
from teardown_app.metrology._special import normal_quantile
from teardown_app.metrology.fault import BadInput, Floats, number, numbers


def coverage_factor(degrees: float, level: float = 0.9545) -> float:
    """k of Student's t: the result +- k u covers the value with this probability (JCGM 100:2008, G.3 and table G.2).

    P(|t| <= k) = level; from 1 - level = I_x(v/2, 1/2) with x = v / (v + k^2). Goes to the normal factor, 2 at
    95.45 %, as the degrees of freedom v grow.

    degrees 1 or above, or infinite; level above 0 and below 1; else `BadInput`. No unit.

    >>> [round(coverage_factor(v), 2) for v in (1, 2, 10)]
    [13.97, 4.53, 2.28]
    """
    left = 1.0 - _share("level", level)
    if degrees == math.inf:
        return -normal_quantile(left / 2.0)
    v = number("degrees", degrees, "1 or above", low=1)
    x, rest = beta_quantile(left, v / 2.0, 0.5)
    return math.sqrt(v * rest / x)


def effective_degrees(uncertainties: Sequence[float] | Floats, degrees: Sequence[float]) -> float:
    """Degrees of freedom of a combined uncertainty: v = u_c^4 / sum(u_i^4 / v_i) (Welch and Satterthwaite).

    JCGM 100:2008, G.4.1. Parts known beforehand (type B) have infinite degrees and add nothing below.

    uncertainties: shape (n,), 0 or above; degrees: as many, 1 or above, may be infinite; else `BadInput`. No unit;
    infinite where no part rests on readings.

    >>> round(effective_degrees([3.0, 4.0], [4, math.inf]), 6)
    30.864198
    """
    parts = numbers("uncertainties", uncertainties)
    if len(degrees) != len(parts):
        raise BadInput("degrees", f"{len(degrees)} of them", f"as many as uncertainties, {len(parts)}")
    if parts.min() < 0.0:
        raise BadInput("uncertainties", float(parts.min()), "0 or above")
    for one in degrees:
        number("degrees", min(one, 1e300), "1 or above", low=1)
    size = math.hypot(*parts)
    if size == 0.0:
        return math.inf
    below = sum((float(part) / size) ** 4 / one for part, one in zip(parts, degrees, strict=True))
    return max(1.0 / below, min(degrees)) if below else math.inf
