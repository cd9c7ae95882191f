"""Runs without a failure: how many prove a reliability, and what so many have proved."""

from __future__ import annotations

import math

from teardown_app.metrology._share import _share, _whole


def trials_needed(confidence: float, reliability: float, *, uniform_prior: bool = False) -> int:
    """Passes in a row, none failed, that show a reliability: the least n with R^n <= 1 - C.

    n = ln(1 - C) / ln R, rounded up. It is the lower limit of Clopper and Pearson for n of n. With
    `uniform_prior` every reliability is held equally likely beforehand, which saves one run: R^(n + 1) <= 1 - C.

    confidence C and reliability R above 0 and below 1 (no unit); else `BadInput`.

    >>> [trials_needed(0.90, 0.90), trials_needed(0.95, 0.95)]
    [22, 59]
    """
    exact = math.log1p(-_share("confidence", confidence)) / math.log(_share("reliability", reliability))
    runs = max(1, math.ceil(exact * (1.0 - 1e-12)))
    return runs - 1 if uniform_prior else runs


def reliability_shown(passes: float, confidence: float) -> float:
    """Reliability that n passes of n have shown: R = (1 - C)^(1/n); 0 where nothing was tried.

    passes 0 to 10 000 000, confidence C above 0 and below 1; else `BadInput`. A share, no unit.

    >>> round(reliability_shown(22, 0.90), 6)
    0.900628
    """
    n = _whole("passes", passes)
    left = math.log1p(-_share("confidence", confidence))
    return math.exp(left / n) if n else 0.0
