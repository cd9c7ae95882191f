"""How likely it is that another number gave what is seen: bounds, and what they stand on.

A module that can tell numbers apart agrees with the wrong tag as often as not. The sum of what agrees, weighted by
how clearly each module is seen, then reaches `s` with a chance of at most min over t of exp(-t s) prod cosh(t |v|)
(Chernoff). It is taken as often as tags, turns, signs and places were tried (union bound). The same must hold on
the modules of error correction alone: numbers in sequence share up to 8 of 9 data codewords, and only there does
each differ from each in all 17 codewords (Reed-Solomon: at least 18 of 26).

That modules are fair and independent is an assumption, and a chance of 1e-9 an extrapolation of the tail: it was
not seen, for that nobody draws enough pictures. What was seen stands in docs/readers.md.
"""

from __future__ import annotations

from math import log, log10

import numpy as np
from attrs import frozen

SURE = 1e-9
"""Below this a tag is taken; it is our own choice, not a figure of a standard."""
WORTH_ASKING = 1e-3
"""Below this it is offered, to be confirmed by the printed number."""

STEEPEST = 60.0
HALVINGS = 25


@frozen
class Chance:
    """That another number gave this picture: by all evidence, and by the error correction alone."""

    by_all: float
    by_correction: float

    @property
    def larger(self) -> float:
        """What counts."""
        return max(self.by_all, self.by_correction)

    @property
    def sure(self) -> bool:
        """Enough to take the tag."""
        return self.larger < SURE

    @property
    def worth_asking(self) -> bool:
        """Enough to ask a person for the printed number."""
        return self.larger < WORTH_ASKING


def chance(agreeing: np.ndarray, is_correction: np.ndarray, *, tags: int, tries: int) -> Chance:
    """From what agrees (negative: disagrees) of each module, -1 to 1.

    `tries` is how often one tag was compared: turns, signs and places. By the error correction alone the place is
    settled by the rest, so only the tags were tried.
    """
    everything = bound(agreeing) + log10(max(1, tags)) + log10(max(1, tries))
    correction = bound(agreeing[is_correction]) + log10(max(1, tags))
    return Chance(10 ** min(0.0, everything), 10 ** min(0.0, correction))


def bound(agreeing: np.ndarray) -> float:
    """Logarithm to base 10 of the chance that fair signs agree at least as much; 0 where nothing is seen.

    Twenty modules seen clearly that all agree: one chance in 2^20, and the bound cannot be below it.

    >>> round(bound(np.ones(20)), 2), bound(np.zeros(20))
    (-6.02, 0.0)
    """
    weights = np.abs(agreeing[np.abs(agreeing) > 1e-6]).astype(float)
    total = float(agreeing.sum())
    if total <= 0:
        return 0.0
    low, high = 0.0, STEEPEST
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if float((weights * np.tanh(middle * weights)).sum()) < total:
            low = middle
        else:
            high = middle
    raised = np.logaddexp(low * weights, -low * weights) - log(2)
    return min(0.0, float(raised.sum() - low * total) / log(10))
