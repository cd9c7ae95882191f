"""A picture compared with all known tags: the number that is in it, and the chance that it is another one."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from itertools import islice
from time import monotonic

import numpy as np
from attrs import frozen

from teardown_app.intake.code_readers import Corners
from teardown_app.intake.comparison.chance import WORTH_ASKING, Chance, chance
from teardown_app.intake.comparison.finders import by_finders
from teardown_app.intake.comparison.grid import Patch, laid, straightened
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.comparison.lattice import Lattice, Window, lattices, window
from teardown_app.intake.comparison.match import TRIES, TRIES_AT, Match, best_match
from teardown_app.intake.comparison.modules import shown
from teardown_app.intake.comparison.plan import IS_CORRECTION, SIDE
from teardown_app.intake.comparison.spots import Spot, joined, spots
from teardown_app.intake.pictures import Grey

Begin = tuple[int, int]
"""Row and column of a patch."""

SPOTS = 6
GRIDS = 2
"""Grids tried at a spot in each of the two ways."""
MOST_LOOKS = 14
"""Looks that `SPOTS` places and all of them as one get."""


@frozen
class Compared:
    """The known tag that a picture shows most likely."""

    number: str
    chance: Chance
    corners: Corners
    """Of the symbol, pixels of the picture, going round."""


def compare(
    grey: Grey,
    known: KnownTags,
    *,
    deadline_s: float = math.inf,
    ask_below: float = WORTH_ASKING,
    clock: Callable[[], float] = monotonic,
    found: Sequence[Spot] | None = None,
    before: int = 0,
    most: int = MOST_LOOKS,
) -> Compared | None:
    """The first known tag that is sure; else the likeliest one with a chance below `ask_below`; None without one.

    The picture is uint8, rows x columns. Stops at the deadline with what was found until then. Looked at is where
    labels are `found`, the likeliest first; without that where they are likely. `before` is how many looks at this
    picture there were already: they count. There are no more than `most` looks.
    """
    until = clock() + deadline_s
    best: Compared | None = None
    there = spots(grey, SPOTS) if found is None else list(found)
    patches = islice(_patches(grey, there), most) if len(known) and there else ()
    for look, (seen, patch, at) in enumerate(patches, before + 1):
        match = best_match(shown(patch.samples), known, at)
        if match is None:
            continue
        tries = TRIES if at is None else TRIES_AT
        here = chance(match.agreeing, IS_CORRECTION, tags=len(known), tries=tries, look=look)
        if best is None or here.larger < best.chance.larger:
            best = Compared(match.number, here, _corners(seen, patch, match))
        if best.chance.sure or clock() > until:
            break
    return best if best is not None and best.chance.larger < ask_below else None


def _patches(grey: Grey, found: list[Spot]) -> Iterator[tuple[Window, Patch, Begin | None]]:
    """Straightened pieces of the picture, the likeliest first, and where the symbol begins if that is told."""
    whole = joined(found)
    first, *others = [_Place(grey, spot) for spot in (found[0], *([whole] if whole else []), *found[1:])]
    looks = [
        (first, _Place.by_edges, 0),
        *((one, _Place.by_edges, 0) for one in others[:1]),
        (first, _Place.by_rings, 0),
        *((one, _Place.by_edges, 0) for one in others[1:]),
        *((one, _Place.by_rings, 0) for one in others[:2]),
        (first, _Place.by_rings, 1),
        *((one, _Place.by_edges, 1) for one in (first, *others[:1])),
    ]
    for place, way, number in looks:
        patch = way(place, number)
        if patch is not None:
            column, row = -patch.first
            yield place.window, patch, (int(row), int(column)) if way is _Place.by_rings else None


class _Place:
    """One spot; what is worked out of it is worked out once."""

    def __init__(self, grey: Grey, spot: Spot) -> None:
        self._grey, self._spot = grey, spot

    @cached_property
    def window(self) -> Window:
        return window(self._grey, self._spot)

    @cached_property
    def _edges(self) -> tuple[np.ndarray, np.ndarray]:
        return self.window.edges()

    @cached_property
    def _even(self) -> list[Lattice]:
        return lattices(*self._edges, GRIDS)

    @cached_property
    def _ringed(self) -> list[tuple[Lattice, np.ndarray]]:
        return by_finders(self.window, GRIDS)

    def by_edges(self, number: int) -> Patch | None:
        """On the grid that the edges between modules tell."""
        return straightened(self.window, self._edges, self._even[number]) if number < len(self._even) else None

    def by_rings(self, number: int) -> Patch | None:
        """On the grid that three finders tell."""
        if number >= len(self._ringed):
            return None
        lattice, shift = self._ringed[number]
        return laid(self.window, lattice, [np.append(one, np.zeros(5)) for one in shift])


def _corners(seen: Window, patch: Patch, match: Match) -> Corners:
    rows, columns = (
        (match.row, match.row, match.row + SIDE, match.row + SIDE),
        (match.column, match.column + SIDE, match.column + SIDE, match.column),
    )
    x, y = patch.lines[:, rows, columns]
    return tuple((round(left), round(top)) for left, top in np.stack(seen.in_picture(x, y), -1).tolist())
