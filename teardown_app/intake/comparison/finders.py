"""The grid of modules in a window from its three finders, where blur has wiped out the edges between modules.

A finder is seen as rings, whichever way it lies: dark, light, dark, with light around. Three of them at a right angle
and fourteen modules apart give the grid.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations

import numpy as np
from attrs import frozen

from teardown_app.intake.comparison.lattice import ACROSS, Lattice, Window
from teardown_app.intake.comparison.modules import levels

MODULES = (2.4, 2.9, 3.5, 4.2, 5.1, 6.2)
"""Pixels of the window a module may be wide."""
RINGS = (1.69, 2.82, 3.95, 4.9)
"""Radii in modules of circles as large as the squares of 3, 5 and 7 modules and what is kept light around them."""
AROUND = 40
"""Pixels of the window in which light and dark are both seen."""

PEAKS = 7
MIDDLE = 3
"""Modules from the first of a symbol to the middle of its finder."""
LEG = 14
"""Modules from the middle of one finder to the next."""
LEG_OFF = 0.3
LEGS_ALIKE = 0.7
RIGHT_ANGLE = 0.45
"""Cosine of the angle at the corner, at most."""


@frozen
class Rings:
    """One finder, perhaps: its middle in the window, the module it fits best, how well."""

    middle: np.ndarray
    module: float
    fit: float


def by_finders(window: Window, count: int) -> list[tuple[Lattice, np.ndarray]]:
    """The likeliest grids and the shift of each axis in modules, the best first: the symbol begins at line 0."""
    found = []
    for one, two, three in combinations(_rings(window.grey), 3):
        for corner, right, low in ((one, two, three), (two, one, three), (three, one, two)):
            grid = _grid(corner, right, low)
            if grid is not None:
                found.append((corner.fit + right.fit + low.fit, *grid))
    found.sort(key=lambda triple: -triple[0])
    return [(lattice, shift) for _, lattice, shift in found[:count]]


def _grid(corner: Rings, right: Rings, low: Rings) -> tuple[Lattice, np.ndarray] | None:
    across, down = right.middle - corner.middle, low.middle - corner.middle
    if across[0] * down[1] < across[1] * down[0]:
        across, down = down, across
    wide, high = np.hypot(*across), np.hypot(*down)
    module = (corner.module + right.module + low.module) / 3
    if not (
        LEGS_ALIKE < wide / high < 1 / LEGS_ALIKE
        and abs(across @ down) < RIGHT_ANGLE * wide * high
        and abs((wide + high) / 2 / module / LEG - 1) < LEG_OFF
    ):
        return None
    axes = np.linalg.inv(np.stack([across, down], 1) / LEG)
    return Lattice(axes[0], axes[1]), MIDDLE + 0.5 - axes @ corner.middle


def _rings(grey: np.ndarray) -> list[Rings]:
    """The places where rings fit best, of one polarity: a symbol has its three alike."""
    seen = np.fft.rfft2(levels(grey, AROUND)[1:-1, 1:-1])
    fits = np.stack([np.fft.irfft2(seen * _template(module), s=(ACROSS, ACROSS)) for module in MODULES])
    return max((_peaks(fits * sign) for sign in (1, -1)), key=lambda rings: sum(one.fit for one in rings[:3]))


def _peaks(fits: np.ndarray) -> list[Rings]:
    left, found = fits.copy(), []
    for _ in range(PEAKS):
        size, row, column = np.unravel_index(int(left.argmax()), left.shape)
        fit = float(left[size, row, column])
        if not np.isfinite(fit) or fit <= 0:
            break
        found.append(Rings(np.array([column, row], float), MODULES[size], fit))
        away = int(4 * MODULES[size])
        left[:, max(0, row - away) : row + away + 1, max(0, column - away) : column + away + 1] = -np.inf
    return found


@lru_cache(maxsize=len(MODULES))
def _template(module: float) -> np.ndarray:
    """Spectrum of the rings at one size, balanced and of unit length, turned for correlation."""
    steps = np.minimum(np.arange(ACROSS), ACROSS - np.arange(ACROSS))
    far = np.hypot(steps[:, None], steps[None]) / module
    discs = [np.clip((radius - far) * module + 0.5, 0, 1) for radius in RINGS]
    rings = 2 * discs[0] - 2 * discs[1] + 2 * discs[2] - discs[3]
    rings -= discs[3] * (rings.sum() / discs[3].sum())
    return np.conj(np.fft.rfft2((rings / np.sqrt((rings**2).sum())).astype(np.float32)))
