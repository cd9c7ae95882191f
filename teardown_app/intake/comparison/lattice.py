"""The grid of modules in a window, from its edges alone: steps and directions from the spectrum.

Edges of a symbol lie on the lines of a grid; stains take edges away but move none, so the two strongest
frequencies at about a right angle stand out as long as a few dozen modules can be seen.
"""

from __future__ import annotations

import numpy as np
from attrs import frozen
from PIL import Image

from teardown_app.intake.comparison.spots import Spot
from teardown_app.intake.pictures import Grey

ACROSS = 160
"""Pixels of the window inside its frame of one."""
WIDER = 1.7
"""The window is so much wider than the spot."""

COARSEST, FINEST = 9.0, 2.3
"""Pixels of the window a module may be wide."""
PEAKS = 10
SQUARE = (0.7, 1.43)
"""Steps of the two directions may differ so much: a tilted label."""
SKEW = 0.35
"""Cosine of the angle between the two directions, at most."""
LOUD_SHARE = 0.97
"""Edges louder than this share of all count no more than it."""


@frozen
class Window:
    """A square piece of the picture, brought to one size: pixel (x, y) here is at (left + (x + 0.5) * step, …)."""

    grey: np.ndarray
    """(162, 162) float."""
    left: float
    top: float
    step: float

    def edges(self) -> tuple[np.ndarray, np.ndarray]:
        """Differences across and down, (160, 160)."""
        return (self.grey[1:-1, 2:] - self.grey[1:-1, :-2]) / 2, (self.grey[2:, 1:-1] - self.grey[:-2, 1:-1]) / 2

    def in_picture(self, x: np.ndarray, y: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Pixels of the picture for places counted within the frame of one."""
        return self.left + (x + 1.5) * self.step, self.top + (y + 1.5) * self.step


@frozen
class Lattice:
    """Modules per pixel of the window in the directions of its two axes, right-handed: (x, y) each."""

    first: np.ndarray
    second: np.ndarray


def window(grey: Grey, spot: Spot) -> Window:
    """The piece of the picture around a spot, kept inside it as far as it goes."""
    side = WIDER * spot.width
    high, wide = grey.shape
    left = min(max(spot.x - side / 2, 0), max(0, wide - side)) if wide > side else (wide - side) / 2
    top = min(max(spot.y - side / 2, 0), max(0, high - side)) if high > side else (high - side) / 2
    across = ACROSS + 2
    image = Image.fromarray(grey)
    shrink = int(side / across)
    if shrink >= 2:  # each pixel is a mean, else fine modules turn into noise
        left, top = float(max(0, round(left))), float(max(0, round(top)))
        piece = image.crop((int(left), int(top), int(left + side), int(top + side)))
        piece = piece.resize((across, across), Image.Resampling.BOX)
        side = float(int(side))
    else:
        step = side / across
        piece = image.transform(
            (across, across), Image.Transform.AFFINE, (step, 0, left, 0, step, top), Image.Resampling.BILINEAR
        )
    return Window(np.asarray(piece, np.float32), left, top, side / across)


def lattices(across: np.ndarray, down: np.ndarray, count: int) -> list[Lattice]:
    """The likeliest grids behind the edges of a window, the best first."""
    strength = capped(np.abs(across) + np.abs(down))
    spectrum = np.abs(np.fft.rfft2((strength - strength.mean()) * _TAPER))
    means = np.bincount(_RADIUS.ravel(), spectrum.ravel()) / _RADIUS_COUNT
    means = np.convolve(np.pad(means, 3, mode="edge"), np.full(7, 1 / 7), "valid")
    standing = np.where(_POSSIBLE, spectrum / np.maximum(means[_RADIUS], 1e-6), 0)
    peaks = _peaks(standing)
    pairs = [
        (min(a, b) + 0.3 * max(a, b), f, g)
        for i, (a, f) in enumerate(peaks)
        for b, g in peaks[i + 1 :]
        if _about_square(f, g)
    ]
    pairs.sort(key=lambda pair: -pair[0])
    return [_right_handed(f, g) for _, f, g in pairs[:count]]


def capped(strength: np.ndarray) -> np.ndarray:
    """Without the few that are louder than all others: a glint, the edge of a label."""
    few = strength[::3, ::3].ravel()
    loud = int(LOUD_SHARE * len(few))
    return np.asarray(np.minimum(strength, np.partition(few, loud)[loud]))


def _about_square(f: np.ndarray, g: np.ndarray) -> bool:
    long_f, long_g = np.hypot(*f), np.hypot(*g)
    return bool(SQUARE[0] < long_g / long_f < SQUARE[1] and abs(f @ g) < SKEW * long_f * long_g)


def _right_handed(f: np.ndarray, g: np.ndarray) -> Lattice:
    """A symbol is never seen mirrored."""
    return Lattice(f, g if f[0] * g[1] > f[1] * g[0] else -g)


def _peaks(standing: np.ndarray) -> list[tuple[float, np.ndarray]]:
    """Height and frequency (x, y) in 1 / pixel of the highest places, each a few bins from the others."""
    left = standing.copy()
    found = []
    for _ in range(PEAKS):
        row, column = divmod(int(left.argmax()), left.shape[1])
        height = left[row, column]
        if height <= 0:
            break
        y = row + _between(standing[row - 1, column], height, standing[(row + 1) % ACROSS, column])
        x = column + _between(standing[row, abs(column - 1)], height, standing[row, min(column + 1, ACROSS // 2)])
        found.append((float(height), np.array([x, (y + ACROSS // 2) % ACROSS - ACROSS // 2]) / ACROSS))
        rows = np.arange(row - 3, row + 4) % ACROSS
        left[rows, max(0, column - 3) : column + 4] = 0
        if column < 4:  # the other half of the spectrum begins beside it
            left[-rows % ACROSS, : 4 - column] = 0
    return found


def _between(before: float, at: float, after: float) -> float:
    """Where the top of the parabola through three bins is, from the middle one."""
    bend = before - 2 * at + after
    return 0.0 if bend >= 0 else float(np.clip(0.5 * (before - after) / bend, -0.5, 0.5))


_HANN = np.hanning(ACROSS).astype(np.float32)
_TAPER = _HANN[:, None] * _HANN[None]
_FREQUENCY = np.hypot(np.fft.fftfreq(ACROSS)[:, None], np.fft.rfftfreq(ACROSS)[None])
_RADIUS = np.rint(_FREQUENCY * ACROSS).astype(int)
_RADIUS_COUNT = np.maximum(np.bincount(_RADIUS.ravel()), 1)
_POSSIBLE = (_FREQUENCY > 1 / COARSEST) & (_FREQUENCY < 1 / FINEST)
