"""Whether a count of successes fits a probability that was supposed."""

from __future__ import annotations

import math

from teardown_app.metrology._share import _passes, _share
from teardown_app.metrology._special import beta_tails, binomial_mass

_AS_LIKELY = 1.0 + 1e-7
"""Counts whose probability is no more than this many times that of the one seen, count as no likelier."""


def two_sided_p(passes: float, trials: float, share: float = 0.5) -> float:
    """p of the exact binomial test: the probability of all counts no likelier than the one seen.

    p = sum of b(i; n, share) over all i with b(i) <= b(passes). Both tails count, each with its own counts, so
    for an uneven share it is not twice the smaller one.

    passes 0 to trials, trials 1 to 10 000 000, share above 0 and below 1; else `BadInput`.

    >>> round(two_sided_p(12, 15), 9)
    0.03515625
    """
    x, n = _passes(passes, trials)
    p = _share("share", share)
    if x > p * n:
        return _p(n - x, n, 1.0 - p, p)
    return _p(x, n, p, 1.0 - p)


def _p(x: int, n: int, p: float, q: float) -> float:
    """The same for a count that is not above its mean, p n."""
    if x == p * n:
        return 1.0
    seen = binomial_mass(x, n - x, p, q) * _AS_LIKELY
    low, high = math.ceil(p * n) - 1, n + 1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if binomial_mass(middle, n - middle, p, q) <= seen else (middle, high)
    upper = beta_tails(p, q, high, n - high + 1).lower if high <= n else 0.0
    return min(1.0, beta_tails(p, q, x + 1, n - x).upper + upper)
