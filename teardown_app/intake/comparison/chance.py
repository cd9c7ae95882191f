"""How likely it is that another number gave what is seen: bounds, and what they stand on.

A module that can tell numbers apart agrees with the wrong tag as often as not. The sum of what agrees, weighted by
how clearly each module is seen, then reaches `s` with a chance of at most min over t of exp(-t s) prod cosh(t |v|)
(Chernoff), and once more for everything that was tried (union bound). Two such chances are computed, and only the
larger one counts:

- by all modules, times tags, looks, places, turns and signs: it bounds what any number, or no number at all, gives
  at a place where the symbol is not;
- by the error correction alone, times tags and looks: it bounds what the neighbours of an unknown number give where
  its symbol is. Numbers in sequence share up to 8 of 9 data codewords, but each differs from each in all 17 of error
  correction (Reed-Solomon: at least 18 of 26). Alone it says nothing: elsewhere it is not counted often enough.

The k-th look at a picture counts k (k + 1) times: the shares 1/2, 1/6, 1/12 … add up to one, so that a picture looked
at often is not taken more often by chance, and the likeliest looks, which come first, keep most.

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
    """Two bounds of which neither is a chance by itself; the larger one is, that another number gave this picture."""

    by_all: float
    by_correction: float

    @property
    def larger(self) -> float:
        """The chance: what counts."""
        return max(self.by_all, self.by_correction)

    @property
    def sure(self) -> bool:
        """Enough to take the tag."""
        return self.larger < SURE


def chance(agreeing: np.ndarray, is_correction: np.ndarray, *, tags: int, tries: int, look: int) -> Chance:
    """From what agrees (negative: disagrees) of each module, -1 to 1.

    `tries` is how often each tag was compared in this look: places, turns and signs. Where a symbol lies right only one
    of them can be. `look` counts from 1.
    """
    looks = log10(look * (look + 1)) + log10(max(1, tags))
    everything = bound(agreeing) + looks + log10(max(1, tries))
    correction = bound(agreeing[is_correction]) + looks
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
