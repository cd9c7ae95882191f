"""A picture compared with all known tags: the number that is in it, and the chance that it is another one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from time import monotonic

import numpy as np
from attrs import frozen

from teardown_app.intake.code_readers import Corners
from teardown_app.intake.comparison.chance import Chance, chance
from teardown_app.intake.comparison.grid import Patch, straightened
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.comparison.lattice import Window, lattices, window
from teardown_app.intake.comparison.match import TRIES, Match, best_match
from teardown_app.intake.comparison.modules import shown
from teardown_app.intake.comparison.plan import IS_CORRECTION, SIDE
from teardown_app.intake.comparison.spots import spots
from teardown_app.intake.pictures import Grey

SPOTS = 6
GRIDS = 2
"""Grids tried at a spot: the likeliest of all spots first, then the second ones."""
DEADLINE_S = 1.0


@frozen
class Compared:
    """The known tag that a picture shows most likely."""

    number: str
    chance: Chance
    corners: Corners
    """Of the symbol, pixels of the picture, going round."""


def compare(grey: Grey, known: KnownTags, *, deadline_s: float = DEADLINE_S,
            clock: Callable[[], float] = monotonic) -> Compared | None:
    """The first known tag that is sure; else the likeliest one worth asking for; None where there is none.

    Stops at the deadline with what was found until then.
    """
    until = clock() + deadline_s
    best: Compared | None = None
    for tried, (seen, patch) in enumerate(_patches(grey), 1):
        match = best_match(shown(patch.samples), known)
        if match is None:
            return None
        here = chance(match.agreeing, IS_CORRECTION, tags=len(known), tries=tried * TRIES)
        if best is None or here.larger < best.chance.larger:
            best = Compared(match.number, here, _corners(seen, patch, match))
        if best.chance.sure or clock() > until:
            break
    return best if best is not None and best.chance.worth_asking else None


def _patches(grey: Grey) -> Iterator[tuple[Window, Patch]]:
    """Straightened pieces of the picture, the likeliest grid of every spot before any second one."""
    later = []
    for spot in spots(grey, SPOTS):
        seen = window(grey, spot)
        edges = seen.edges()
        first, *others = lattices(*edges, GRIDS) or [None]
        later += [(seen, edges, other) for other in others]
        if first is not None:
            yield seen, straightened(seen, edges, first)
    for seen, edges, lattice in later:
        yield seen, straightened(seen, edges, lattice)


def _corners(seen: Window, patch: Patch, match: Match) -> Corners:
    rows, columns = (match.row, match.row, match.row + SIDE, match.row + SIDE), (
        match.column, match.column + SIDE, match.column + SIDE, match.column)
    x, y = patch.lines[:, rows, columns]
    return tuple((round(left), round(top)) for left, top in np.stack(seen.in_picture(x, y), -1).tolist())
