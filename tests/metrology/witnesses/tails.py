"""Who says what the tails of the normal, beta, gamma and binomial distributions are: closed forms, scipy.special."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
from scipy import special, stats

from teardown_app.metrology._quantile import beta_quantile, gamma_quantile
from teardown_app.metrology._special import (
    beta_tails,
    binomial_mass,
    gamma_tails,
    normal_cdf,
    normal_quantile,
)
from tests.metrology.witness import Witness

EXACT = "exact fractions"
TESTED = [(12, 15, 0.5), (3, 15, 0.5), (5, 50, 0.25), (25, 50, 0.5)]
CASES = [(0.5, 3.0), (1.0, 30.0), (7.0, 4.0), (82.0, 182.0), (5.0, 9996.0), (4000.0, 4100.0)]
SHARES = [1e-9, 0.005, 0.025, 0.3, 0.5, 0.8, 0.975]


def _binomial_sum(k: int, n: int, p: Fraction) -> Fraction:
    """Chance of k or more of n."""
    return sum((math.comb(n, i) * p**i * (1 - p) ** (n - i) for i in range(k, n + 1)), Fraction(0))


def _mass(k: int, n: int, p: Fraction) -> Fraction:
    return math.comb(n, k) * p**k * (1 - p) ** (n - k)


def _tails(a: float, b: float, p: float) -> tuple[float, ...]:
    x = float(special.betaincinv(a, b, p))
    return tuple(beta_tails(x, 1.0 - x, a, b))


def _tails_of_scipy(a: float, b: float, p: float) -> tuple[float, float]:
    x = float(special.betaincinv(a, b, p))
    return float(special.betainc(a, b, x)), float(special.betaincc(a, b, x))


WITNESSES: list[Witness] = [
    Witness(
        "_special.normal_cdf",
        "scipy.special.ndtr",
        lambda: [math.log(normal_cdf(z)) for z in range(-37, 9)],
        lambda: special.log_ndtr(np.arange(-37.0, 9.0)),
        1e-14,
    ),
    Witness(
        "_special.normal_cdf",
        "table of the normal distribution",
        lambda: [normal_cdf(z) for z in (0, 1, 2, 3)],
        [0.5, 0.841345, 0.977250, 0.998650],
        6e-7,
        absolute=True,
    ),
    Witness(
        "_special.normal_quantile",
        "scipy.special.ndtri",
        lambda: [normal_quantile(p) for p in (*SHARES, 1e-300)],
        lambda: special.ndtri([*SHARES, 1e-300]),
        1e-14,
    ),
    Witness(
        "_special.normal_quantile",
        "table of the normal distribution",
        lambda: [normal_quantile(p) for p in (0.9, 0.95, 0.975, 0.995)],
        [1.281552, 1.644854, 1.959964, 2.575829],
        6e-7,
        absolute=True,
    ),
    Witness(
        "_special.binomial_mass",
        EXACT,
        lambda: (
            [binomial_mass(k, n - k, p, 1 - p) / float(_mass(k, n, Fraction(p))) for k, n, p in TESTED]
            + [
                binomial_mass(k, 700 - k, 0.25, 0.75) / float(_mass(k, 700, Fraction(1, 4)))
                for k in (0, 3, 170, 180, 400, 450)
            ]
        ),
        [1.0] * 10,
        1e-12,
    ),
    Witness(
        "_special.binomial_mass",
        "scipy.stats.binom",
        lambda: [binomial_mass(k, 40 - k, 0.3, 0.7) for k in range(41)],
        lambda: stats.binom.pmf(np.arange(41), 40, 0.3),
        1e-13,
    ),
    Witness(
        "_special.beta_tails",
        "scipy.special.betainc and betaincc, each tail for itself",
        lambda: [
            one / other
            for a, b in CASES
            for p in SHARES
            for one, other in zip(_tails(a, b, p), _tails_of_scipy(a, b, p), strict=True)
        ],
        [1.0] * (2 * len(CASES) * len(SHARES)),
        1e-11,
    ),
    Witness(
        "_special.beta_tails",
        EXACT,
        lambda: [
            one / float(other)
            for k in (1, 4, 11, 20)
            for one, other in zip(
                beta_tails(0.125, 0.875, k, 21 - k),
                (_binomial_sum(k, 20, Fraction(1, 8)), 1 - _binomial_sum(k, 20, Fraction(1, 8))),
                strict=True,
            )
        ],
        [1.0] * 8,
        1e-13,
    ),
    Witness(
        "_special.gamma_tails",
        "scipy.special.gammainc and gammaincc",
        lambda: [side for a in (0.5, 1, 9, 300) for x in (0.2, 1, 8, 290, 330) for side in gamma_tails(x, a)],
        lambda: [
            side
            for a in (0.5, 1, 9, 300)
            for x in (0.2, 1, 8, 290, 330)
            for side in (special.gammainc(a, x), special.gammaincc(a, x))
        ],
        1e-12,
    ),
    Witness(
        "_special.gamma_tails",
        "closed form, e^-x sum x^i / i!",
        lambda: [
            gamma_tails(x, n).upper / (math.exp(-x) * sum(x**i / math.factorial(i) for i in range(n)))
            for n in (1, 2, 6, 20)
            for x in (0.1, 3.0, 25.0, 90.0)
        ],
        [1.0] * 16,
        1e-13,
    ),
    Witness(
        "_quantile.beta_quantile",
        "scipy.special.betaincinv",
        lambda: [beta_quantile(p, a, b).x / special.betaincinv(a, b, p) for a, b in CASES for p in SHARES],
        [1.0] * (len(CASES) * len(SHARES)),
        1e-11,
    ),
    Witness(
        "_quantile.beta_quantile",
        "closed form, I_x(a, 1) = x^a, I_x(1, b) = 1 - (1 - x)^b",
        lambda: [one for p in SHARES for one in (beta_quantile(p, 7.0, 1.0).x, *beta_quantile(p, 1.0, 30.0))],
        lambda: [one for p in SHARES for one in (p ** (1 / 7), -math.expm1(math.log1p(-p) / 30), (1 - p) ** (1 / 30))],
        1e-14,
    ),
    Witness(
        "_quantile.gamma_quantile",
        "scipy.special.gammaincinv and gammainccinv",
        lambda: [
            one
            for a in (0.5, 1, 4, 60, 900)
            for p in SHARES
            for one in (
                gamma_quantile(p, a) / special.gammaincinv(a, p),
                gamma_quantile(p, a, upper=True) / special.gammainccinv(a, p),
            )
        ],
        [1.0] * 70,
        1e-11,
    ),
    Witness(
        "_quantile.gamma_quantile",
        "closed form, P(1, x) = 1 - e^-x",
        lambda: [one for p in SHARES for one in (gamma_quantile(p, 1.0), gamma_quantile(p, 1.0, upper=True))],
        lambda: [one for p in SHARES for one in (-math.log1p(-p), -math.log(p))],
        1e-14,
    ),
]
