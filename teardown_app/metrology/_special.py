"""Tails of the normal, beta, gamma and binomial distributions, small ones as exact as large ones.

Masses are taken by Loader's saddle-point form, which loses no digits at large counts; tails by continued
fractions or series. Used by the statistics of this room, which check what they pass on.
"""

from __future__ import annotations

import math
from statistics import NormalDist
from typing import NamedTuple

_MOST_TERMS = 1_000_000
_CLOSE = 4e-16
_TINY = 1e-300


class Tails(NamedTuple):
    """Both sides of a point; the smaller one is computed, not taken as a difference."""

    lower: float
    upper: float
    """1 - lower."""


def normal_cdf(z: float) -> float:
    """Phi(z) = erfc(-z / sqrt 2) / 2, the share of a standard normal distribution below z.

    >>> print(f"{normal_cdf(1.0):.6f} {normal_cdf(-10.0):.6e}")
    0.841345 7.619853e-24
    """
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def normal_quantile(share: float) -> float:
    """z with Phi(z) = share, 0 < share < 1 (Wichura's AS 241).

    >>> round(normal_quantile(0.95), 6)
    1.644854
    """
    return NormalDist().inv_cdf(share)


def binomial_mass(hits: float, misses: float, share: float, rest: float) -> float:
    """Probability of just `hits` in hits + misses trials, each a hit with probability `share`; `rest` = 1 - share.

    Both probabilities are above 0; the counts are 0 or more and need not be whole (C. Loader, Fast and accurate
    computation of binomial probabilities, 2000).

    >>> round(binomial_mass(12, 3, 0.5, 0.5) * 32768, 9)
    455.0
    """
    trials = hits + misses
    if hits == 0:
        return math.exp(misses * _log_of(rest, share))
    if misses == 0:
        return math.exp(hits * _log_of(share, rest))
    power = _stirling_rest(trials) - _stirling_rest(hits) - _stirling_rest(misses)
    power -= _deviance(hits, trials * share) + _deviance(misses, trials * rest)
    return math.sqrt(trials / (2.0 * math.pi * hits * misses)) * math.exp(power)


def beta_tails(x: float, y: float, a: float, b: float) -> Tails:
    """Regularised incomplete beta function I_x(a, b) and 1 - I_x(a, b); y = 1 - x, so that both ends keep their digits.

    >>> print("{:.6f} {:.6f}".format(*beta_tails(0.5, 0.5, 2.0, 3.0)))
    0.687500 0.312500
    """
    if x <= 0.0:
        return Tails(0.0, 1.0)
    if y <= 0.0:
        return Tails(1.0, 0.0)
    front = _beta_front(x, y, a, b)
    if a * y > b * x:
        small = min(front / _beta_fraction(x, y, a, b), 1.0)
        return Tails(small, 1.0 - small)
    small = min(front / _beta_fraction(y, x, b, a), 1.0)
    return Tails(1.0 - small, small)


def gamma_tails(x: float, a: float) -> Tails:
    """Regularised incomplete gamma functions P(a, x) and Q(a, x); Q(n, x) is the chance of fewer than n Poisson events.

    >>> round(gamma_tails(2.995732, 1.0).upper, 6)
    0.05
    """
    if x <= 0.0:
        return Tails(0.0, 1.0)
    front = _gamma_front(x, a)
    if x < a + 1.0:
        small = min(front * _gamma_series(x, a), 1.0)
        return Tails(small, 1.0 - small)
    small = min(front * a * _gamma_fraction(x, a), 1.0)
    return Tails(1.0 - small, small)


def _log_of(share: float, rest: float) -> float:
    return math.log(share) if share < 0.5 else math.log1p(-rest)


def _beta_front(x: float, y: float, a: float, b: float) -> float:
    """x^a y^b / B(a, b)."""
    return a * b / (a + b) * binomial_mass(a, b, x, y)


def _gamma_front(x: float, a: float) -> float:
    """x^a e^-x / Gamma(a + 1)."""
    return math.exp(-_stirling_rest(a) - _deviance(a, x)) / math.sqrt(2.0 * math.pi * a)


def _stirling_rest(n: float) -> float:
    """ln Gamma(n + 1) less Stirling's formula."""
    if n < 16.0:
        return math.lgamma(n + 1.0) - (n + 0.5) * math.log(n) + n - 0.5 * math.log(2.0 * math.pi)
    s = 1.0 / (n * n)
    return (1 / 12 - s * (1 / 360 - s * (1 / 1260 - s * (1 / 1680 - s * (1 / 1188 - s * 691 / 360360))))) / n


def _deviance(x: float, mean: float) -> float:
    """x ln(x / mean) + mean - x, by a series where the two are close."""
    if mean <= 0.0:
        return math.inf
    off = x - mean
    if abs(off) >= 0.1 * (x + mean):
        return x * math.log(x / mean) - off
    v = off / (x + mean)
    total, term, step = off * v, 2.0 * x * v, 1
    while True:
        term *= v * v
        step += 2
        new = total + term / step
        if new == total:
            return new
        total = new


def _beta_fraction(x: float, y: float, a: float, b: float) -> float:
    """x^a y^b / (B(a, b) I_x(a, b)) for x below the mean: the even part of the continued fraction DLMF 8.17.22.

    By Lentz's method. a y - b x keeps its digits however close x is to 0 or 1 (Didonato and Morris, 1992).
    """
    off = a * y - b * x + 1.0
    value = c = _off_zero(a * off / (a + 1.0))
    d = 0.0
    for m in range(1, _MOST_TERMS):
        wide = a + 2.0 * m
        slope = m * (b - m) * x / (wide - 1.0)
        top = (a + m - 1.0) * (a + b + m - 1.0) * x / (wide - 1.0) * slope
        under = m + slope + (a + m) * (off + m * (1.0 + y)) / (wide + 1.0)
        d, c = 1.0 / _off_zero(under + top * d), _off_zero(under + top / c)
        value *= d * c
        if abs(d * c - 1.0) < _CLOSE:
            return value
    raise ArithmeticError("the beta fraction does not settle")


def _gamma_series(x: float, a: float) -> float:
    total, term, n = 1.0, 1.0, a
    while term > total * 1e-17:
        n += 1.0
        term *= x / n
        total += term
    return total


def _gamma_fraction(x: float, a: float) -> float:
    """The continued fraction of Q(a, x) by Lentz's method (DLMF 8.9.2)."""
    b = x + 1.0 - a
    c, d = 1.0 / _TINY, 1.0 / _off_zero(b)
    value = d
    for n in range(1, _MOST_TERMS):
        b += 2.0
        top = n * (a - n)
        d, c = 1.0 / _off_zero(b + top * d), _off_zero(b + top / c)
        value *= d * c
        if abs(d * c - 1.0) < _CLOSE:
            return value
    raise ArithmeticError("the gamma fraction does not settle")


def _off_zero(value: float) -> float:
    return value if abs(value) > _TINY else _TINY
