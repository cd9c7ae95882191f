"""Which known tag fits a patch of modules best: wherever it lies, however turned, dark on light or light on dark."""

from __future__ import annotations

import numpy as np
from attrs import frozen

from teardown_app.intake.comparison.grid import PATCH
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.comparison.plan import EVIDENCE, SIDE, turned

QUARTERS = 4
SIGNS = 2
ROOM = PATCH - SIDE + 1
"""Rows and columns at which a symbol can begin in a patch."""
NEAR = 1
"""Modules that a place told by finders may be off."""

TRIES = QUARTERS * SIGNS * ROOM**2
"""How often each tag is compared with one patch."""
TRIES_AT = SIGNS * (2 * NEAR + 1) ** 2
"""The same where finders tell where the symbol begins."""

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


def best_match(values: np.ndarray, known: KnownTags, at: tuple[int, int] | None = None) -> Match | None:
    """The tag whose modules correlate best with a patch of (35, 35).

    With `at` the symbol lies upright and begins near that row and column. None where no tag is known or there is
    no room for a symbol.
    """
    rows, columns = (_around(one) for one in at or (None, None))
    quarters = QUARTERS if at is None else 1
    if not len(known) or not len(rows) or not len(columns):
        return None
    cut = np.lib.stride_tricks.sliding_window_view(values, (SIDE, SIDE))
    cut = cut[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1].reshape(-1, SIDE * SIDE)
    best, found = -1.0, None
    for quarter in range(quarters):
        seen = cut[:, turned(quarter)[EVIDENCE]].astype(np.float32)
        weight = 1 / np.sqrt((seen * seen).sum(1) + HELD_DOWN)
        fit = np.abs((seen * weight[:, None]) @ known.modules.T)
        place, tag = divmod(int(fit.argmax()), len(known))
        if fit[place, tag] > best:
            best, found = float(fit[place, tag]), (seen[place], tag, place)
    if found is None:  # what is no number fits nothing
        return None
    seen, tag, place = found
    agreeing = seen * known.modules[tag]
    row, column = divmod(place, len(columns))
    return Match(known.numbers[tag], agreeing if agreeing.sum() > 0 else -agreeing, rows[row], columns[column])


def _around(line: int | None) -> range:
    """Rows or columns that are tried."""
    return range(ROOM) if line is None else range(max(0, line - NEAR), min(ROOM, line + NEAR + 1))
