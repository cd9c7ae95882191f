"""Penalty points of QR symbols by the four rules of ISO/IEC 18004, many grids at once: rows as whole numbers."""

from __future__ import annotations

import numpy as np

from teardown_app.intake.comparison.plan import SIDE

WEIGHTS = 1 << np.arange(SIDE - 1, -1, -1)
LOOK_ALIKE = 0b10111010000, 0b00001011101
"""Dark 1, light 1, dark 3, light 1, dark 1, with four light modules on one side."""
LOOK_ALIKE_BITS = 11
RUN, SQUARE, LIKE, SHARE = 3, 3, 40, 10

_ONES = np.array([bin(value).count("1") for value in range(1 << 11)], np.uint8)


def penalties(grids: np.ndarray) -> np.ndarray:
    """Points of grids (…, 21, 21) of bool, True where dark: runs, squares, finder look-alikes, unequal shares."""
    rows, columns = grids @ WEIGHTS, np.swapaxes(grids, -1, -2) @ WEIGHTS
    points = _runs(rows) + _runs(columns) + _look_alikes(rows) + _look_alikes(columns)
    points = points + SQUARE * _squares(rows) + SHARE * _share(rows)
    return np.asarray(points, int)


def _count(words: np.ndarray) -> np.ndarray:
    """Dark modules of all lines of each grid."""
    return np.asarray((_ONES[words & 0x7FF].astype(int) + _ONES[words >> 11 & 0x7FF]).sum(-1))


def _runs(lines: np.ndarray) -> np.ndarray:
    """Three points for five of one colour in a line, one for each more."""
    same = ~(lines ^ lines >> 1) & (1 << SIDE - 1) - 1
    five = same & same >> 1 & same >> 2 & same >> 3
    begins = five & ~(five >> 1)
    return np.asarray(_count(five) + (RUN - 1) * _count(begins))


def _squares(rows: np.ndarray) -> np.ndarray:
    """How many 2 x 2 squares are of one colour."""
    upper, lower = rows[..., :-1], rows[..., 1:]
    alike = ~(upper ^ lower) & ~(upper ^ upper >> 1) & ~(lower ^ lower >> 1)
    return _count(alike & (1 << SIDE - 1) - 1)


def _look_alikes(lines: np.ndarray) -> np.ndarray:
    windows = (lines >> shift & (1 << LOOK_ALIKE_BITS) - 1 for shift in range(SIDE - LOOK_ALIKE_BITS + 1))
    return np.asarray(LIKE * sum(((one == LOOK_ALIKE[0]) | (one == LOOK_ALIKE[1])).sum(-1) for one in windows))


def _share(rows: np.ndarray) -> np.ndarray:
    """Steps of 5 % that the dark share is away from a half."""
    return (np.abs(_count(rows) / SIDE**2 * 100 - 50) / 5).astype(int)
