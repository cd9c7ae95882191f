"""Where in a picture a symbol may be: dense edges in both directions with a quiet ring around them.

Nothing of the symbol has to be whole. Spots are guesses, the best first; most are wrong and cost only time.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

import numpy as np
from attrs import frozen
from PIL import Image

from teardown_app.intake.pictures import Grey

FINE_WIDTH = 800
"""Pictures wider than this are looked at in half size."""
CELLS_ACROSS = 160
SMALLEST_CELL = 8
"""Pixels of the picture a cell of the map is wide, at least."""

LOUDEST = 60.0
"""Grey levels of mean edge above which a cell counts no more: a stripe code is not better than a worn tag."""

SIZES = (48, 64, 84, 110, 145, 190, 250, 330, 430, 560)
"""Widths in pixels of a picture 1,280 wide that are looked for."""

INSIDE, RING = 0.52, (0.60, 0.80)
"""Radii of the disc and of the quiet ring, as shares of the width."""

APART = 0.35
"""Spots of one picture are so much of their width apart."""


ALIKE, BESIDE = 1.6, 2.2
"""Spots of one symbol are not much wider than the best one, and not further from it than this times their width."""


@frozen
class Spot:
    """The middle and the width of what may be a symbol, in pixels."""

    x: float
    y: float
    width: float
    score: float = 0.0
    """How much louder it is than its ring: grey levels of mean edge, times the root of its width."""


def spots(grey: Grey, count: int, about: Sequence[float] = ()) -> list[Spot]:
    """The places where a symbol is most likely, the best first; none in a picture of a few pixels.

    With widths in pixels they have to be `about` one of these, by less than a factor of 1.6.
    """
    if min(grey.shape) < 3 * SMALLEST_CELL:
        return []
    loud, cell = edges(grey)
    widths = [width for width in _widths(grey) if not about or any(one / ALIKE < width < ALIKE * one for one in about)]
    if not widths:
        return []
    rings = zip(_against_rings(loud, widths, cell), widths, strict=True)
    scores = np.stack([ring * width**0.5 for ring, width in rings])
    found = []
    for _ in range(count):
        size, row, column = np.unravel_index(int(scores.argmax()), scores.shape)
        if scores[size, row, column] <= 0:
            break
        at = ((column + 0.5) * cell, (row + 0.5) * cell)
        found.append(Spot(*at, widths[size], float(scores[size, row, column])))
        away = max(1, int(widths[size] * APART / cell))
        scores[:, max(0, row - away) : row + away + 1, max(0, column - away) : column + away + 1] = -np.inf
    return found


def joined(found: list[Spot]) -> Spot | None:
    """Small spots side by side as one: what a stain has left of a symbol. None where the best one stands alone."""
    near = [
        one
        for one in found
        if one.width < ALIKE * found[0].width
        and np.hypot(one.x - found[0].x, one.y - found[0].y) < BESIDE * max(one.width, found[0].width)
    ]
    if len(near) < 3:
        return None
    left, right = min(one.x - one.width / 2 for one in near), max(one.x + one.width / 2 for one in near)
    top, bottom = min(one.y - one.width / 2 for one in near), max(one.y + one.width / 2 for one in near)
    return Spot((left + right) / 2, (top + bottom) / 2, max(right - left, bottom - top))


def edges(grey: Grey) -> tuple[np.ndarray, int]:
    """Mean edge of each cell in the quieter of the two directions, and the side of a cell in pixels."""
    shrink = 1 if grey.shape[1] <= FINE_WIDTH else 2
    cell = max(SMALLEST_CELL, grey.shape[1] // CELLS_ACROSS // shrink * shrink)
    small = np.asarray(Image.fromarray(grey).reduce(shrink)) if shrink > 1 else grey
    across = _steps(small[1:-1, 2:], small[1:-1, :-2])
    down = _steps(small[2:, 1:-1], small[:-2, 1:-1])
    means = [np.asarray(Image.fromarray(one).reduce(cell // shrink), np.float32) for one in (across, down)]
    return np.minimum(np.minimum(*means), LOUDEST), cell


def _steps(one: Grey, other: Grey) -> Grey:
    return np.asarray(np.maximum(one, other) - np.minimum(one, other))


def _widths(grey: Grey) -> list[float]:
    scale = max(1.0, grey.shape[1] / 1280)
    largest = 0.9 * min(grey.shape)
    return [width * scale for width in SIZES if width * scale <= largest] or [largest]


def _against_rings(loud: np.ndarray, widths: list[float], cell: int) -> Iterator[np.ndarray]:
    """For each width the mean of a disc less the mean of the ring around it, at every cell."""
    high, wide = loud.shape
    room = _even(high + 40), _even(wide + 40)
    laid = np.zeros(room, np.float32)
    laid[:high, :wide] = loud - np.median(loud)
    spectrum = np.fft.rfft2(laid)
    for width in widths:
        yield np.fft.irfft2(spectrum * _disc_less_ring(room, width / cell), s=room)[:high, :wide]


def _even(length: int) -> int:
    """A length whose transform is quick."""
    return -(-length // 16) * 16


@lru_cache(maxsize=64)
def _disc_less_ring(room: tuple[int, int], width: float) -> np.ndarray:
    down, across = (np.minimum(np.arange(side), side - np.arange(side)) for side in room)
    far = np.hypot(down[:, None], across[None])

    def within(radius: float) -> np.ndarray:
        return np.clip(radius * width - far + 0.5, 0, 1)

    disc, ring = within(INSIDE), within(RING[1]) - within(RING[0])
    return np.fft.rfft2((disc / disc.sum() - ring / ring.sum()).astype(np.float32))
