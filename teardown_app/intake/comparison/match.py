"""Which known tag fits a patch of modules best: wherever it lies, however turned, dark on light or light on dark."""

from __future__ import annotations

import numpy as np
from attrs import frozen

from teardown_app.intake.comparison.grid import PATCH
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.comparison.plan import EVIDENCE, SIDE, turned

QUARTERS = 4
SIGNS = 2
PLACES = (PATCH - SIDE + 1) ** 2
TRIES = QUARTERS * SIGNS * PLACES
"""How often each tag is compared in one patch."""

HELD_DOWN = 4.0
"""Added to the sum of squares, so that a few modules that agree by chance do not win."""


@frozen
class Match:
    """A tag and what agrees with it."""

    number: str
    agreeing: np.ndarray
    """(191,) of each module that tells tags apart, -1 to 1."""
    row: int
    column: int
    """Of the symbol's first module in the patch, as the symbol lies."""


def best_match(values: np.ndarray, known: KnownTags) -> Match | None:
    """The tag whose modules correlate best with a patch of (35, 35); None where none is known."""
    if not len(known):
        return None
    cut = np.lib.stride_tricks.sliding_window_view(values, (SIDE, SIDE)).reshape(PLACES, SIDE * SIDE)
    best, found = -1.0, None
    for quarter in range(QUARTERS):
        seen = cut[:, turned(quarter)[EVIDENCE]].astype(np.float32)
        weight = 1 / np.sqrt((seen * seen).sum(1) + HELD_DOWN)
        fit = np.abs((seen * weight[:, None]) @ known.modules.T)
        place, tag = divmod(int(fit.argmax()), len(known))
        if fit[place, tag] > best:
            best, found = float(fit[place, tag]), (seen[place], tag, place)
    seen, tag, place = found
    agreeing = seen * known.modules[tag]
    side = PATCH - SIDE + 1
    return Match(known.numbers[tag], agreeing if agreeing.sum() > 0 else -agreeing, place // side, place % side)
