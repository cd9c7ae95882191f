"""How far inside a limit a reading has to lie to prove conformity."""

from __future__ import annotations

import math

from teardown_app.metrology._special import normal_cdf, normal_quantile
from teardown_app.metrology.fault import number


def guard_factor(tolerance_by_u: float = math.inf, probability: float = 0.95) -> float | None:
    """g in w = g u: readings at least w inside the limits conform with this probability or a higher one.

    ISO 14253-1 (95 % where nothing else is agreed). One limit, or a tolerance T far wider than u:
    g = Phi^-1(probability), 1.644854 for 95 %. A narrow tolerance lets the true value fall out at either side:
    g solves Phi(g) - Phi(g - T/u) = probability and grows to Phi^-1((1 + probability) / 2), 1.959964 for 95 %,
    where only the middle is left. Below that no reading proves conformity: None.

    tolerance_by_u = T / u, 0 or more, infinite for one limit; probability 0.5 to below 1; else `BadInput`. No unit.

    >>> round(guard_factor(), 6), round(guard_factor(4.0), 6), guard_factor(3.9)
    (1.644854, 1.796213, None)
    """
    p = number("probability", probability, "from 0.5 to below 1, such as 0.95 for 95 %", low=0.5, below=1)
    wide = normal_quantile(p)
    if tolerance_by_u == math.inf:
        return wide
    t = number("tolerance_by_u", tolerance_by_u, "0 or more", low=0)
    middle = t / 2.0
    if middle < normal_quantile((1.0 + p) / 2.0) * (1.0 - 1e-12):
        return None
    low, high = wide, middle
    for _ in range(200):
        g = 0.5 * (low + high)
        if not low < g < high:
            break
        low, high = (g, high) if normal_cdf(-g) + normal_cdf(g - t) > 1.0 - p else (low, g)
    return high
