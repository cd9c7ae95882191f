"""Who says what limits of rare counts are and whether two differ: published limits, fractions, scipy, statsmodels."""

from __future__ import annotations

import math
from fractions import Fraction

from scipy import stats

from teardown_app.metrology.exact_test import two_sided_p
from teardown_app.metrology.poisson import compare, garwood
from tests.metrology.witness import Witness

COUNTS = [(12, 1, 3, 1), (45, 1, 28, 1), (20, 2, 4, 1), (0, 1, 3, 1), (7, 3.5, 40, 11), (900, 10, 1000, 9)]
TESTED = [(12, 15, 0.5), (3, 15, 0.5), (20, 24, 2 / 3), (0, 8, 0.3), (8, 8, 0.9), (5, 50, 0.1), (400, 1000, 0.43)]
RATES = [0, 1, 3, 5, 40, 2500]


def _exact_p(k: int, n: int, p: Fraction) -> float:
    masses = [math.comb(n, i) * p**i * (1 - p) ** (n - i) for i in range(n + 1)]
    return float(sum(one for one in masses if one <= masses[k]))


def _ratio_of_statsmodels() -> list[float]:
    from statsmodels.stats.rates import test_poisson_2indep

    found = [test_poisson_2indep(*case, method="exact-cond", compare="ratio") for case in COUNTS]
    return [float(one.pvalue) for one in found]


def _ratio_limits(case: tuple[float, ...]) -> list[float]:
    """By the F distribution, another road than the beta limits."""
    a, t, b, s = case
    low = a / (b + 1) / stats.f.ppf(0.975, 2 * (b + 1), 2 * a) if a else 0.0
    high = (a + 1) / b * stats.f.ppf(0.975, 2 * (a + 1), 2 * b)
    return [low * s / t, high * s / t]


WITNESSES: list[Witness] = [
    Witness(
        "poisson.garwood",
        "Garwood, Biometrika 28 (1936), rounded",
        lambda: [*garwood(0), *garwood(1), *garwood(3), *garwood(5), garwood(0, sided="upper").high],
        [0, 3.688879, 0.025318, 5.571643, 0.618672, 8.767273, 1.623486, 11.668332, 2.995732],
        6e-7,
        absolute=True,
    ),
    Witness(
        "poisson.garwood",
        "scipy.stats.chi2",
        lambda: [side / max(k, 1) for k in RATES for side in garwood(k, 2.5)],
        lambda: [
            side / 5 / max(k, 1)
            for k in RATES
            for side in (stats.chi2.ppf(0.025, 2 * k) if k else 0.0, stats.chi2.ppf(0.975, 2 * k + 2))
        ],
        1e-12,
    ),
    Witness(
        "poisson.garwood",
        "scipy.stats.poisson: the tail at each one-sided limit is the risk",
        lambda: (
            [stats.poisson.sf(k - 1, garwood(k, 1, 0.99, "lower").low) for k in RATES[1:]]
            + [stats.poisson.cdf(k, garwood(k, 1, 0.99, "upper").high) for k in RATES]
        ),
        [0.01] * (2 * len(RATES) - 1),
        1e-10,
    ),
    Witness(
        "poisson.garwood",
        "closed form, nothing counted",
        lambda: [garwood(0).high, garwood(0, sided="upper").high],
        [-math.log(0.025), -math.log(0.05)],
        1e-14,
    ),
    Witness(
        "poisson.compare", "hand sum of binomials, 1152/32768", lambda: compare(12, 1, 3, 1).p, 1152 / 32768, 1e-13
    ),
    Witness(
        "poisson.compare",
        "scipy.stats, binomtest and beta, rounded",
        lambda: [compare(45, 1, 28, 1).p, compare(20, 2, 4, 1).p, compare(0, 100, 3, 100).p],
        [0.060370, 0.127010, 0.25],
        6e-7,
        absolute=True,
    ),
    Witness(
        "poisson.compare",
        "scipy.stats, limits of the ratio, rounded",
        lambda: compare(12, 1, 3, 1)[1:3],
        [1.0795, 22.088],
        4e-4,
        absolute=True,
    ),
    Witness(
        "poisson.compare",
        "scipy.stats, limits of the ratio of 45 to 28, rounded",
        lambda: compare(45, 1, 28, 1)[1:3],
        [0.9810, 2.6753],
        6e-5,
        absolute=True,
    ),
    Witness(
        "poisson.compare",
        "scipy.stats.binomtest",
        lambda: [compare(*one).p for one in COUNTS],
        lambda: [stats.binomtest(a, a + b, t / (t + s)).pvalue for a, t, b, s in COUNTS],
        1e-12,
    ),
    Witness(
        "poisson.compare",
        "scipy.stats.f: limits of the ratio",
        lambda: [compare(*one)[1:3] for one in COUNTS],
        lambda: [_ratio_limits(one) for one in COUNTS],
        1e-11,
    ),
    Witness(
        "poisson.compare",
        "statsmodels, test_poisson_2indep exact-cond",
        lambda: [compare(*one).p for one in COUNTS],
        _ratio_of_statsmodels,
        1e-10,
        needs="statsmodels",
    ),
    Witness(
        "exact_test.two_sided_p",
        "scipy.stats.binomtest",
        lambda: [two_sided_p(*one) for one in TESTED],
        lambda: [stats.binomtest(*one).pvalue for one in TESTED],
        1e-12,
    ),
    Witness(
        "exact_test.two_sided_p",
        "exact fractions",
        lambda: [two_sided_p(*one) for one in TESTED],
        lambda: [_exact_p(k, n, Fraction(p)) for k, n, p in TESTED],
        1e-13,
    ),
]
