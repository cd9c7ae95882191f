"""A witness: what a function of the metrology room gives, against what somebody else says it is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

Numbers = float | Sequence[float] | np.ndarray


class Witness(NamedTuple):
    """One comparison."""

    function: str
    """Dotted name beneath teardown_app.metrology, as flatness.minimum_zone."""
    source: str
    """Who says so: standard and clause or table, published case, library; `from memory` where it is that."""
    ours: Callable[[], Numbers]
    theirs: Numbers | Callable[[], Numbers]
    within: float
    """Greatest difference allowed, as a share of the largest of theirs; absolute where `absolute`."""
    absolute: bool = False
    needs: str = ""
    """Module that has to be importable; empty: none but scipy."""

    def difference(self) -> float:
        """The greatest difference there is."""
        theirs = np.asarray(self.theirs() if callable(self.theirs) else self.theirs, float)
        ours = np.asarray(self.ours(), float)
        assert ours.shape == theirs.shape, f"{self.function}: {ours.shape} against {theirs.shape}"
        greatest = float(np.max(np.abs(ours - theirs)))
        return greatest if self.absolute else greatest / float(np.max(np.abs(theirs)))
