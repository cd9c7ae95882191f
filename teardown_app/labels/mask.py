"""Which of the eight masks a symbol of version 1 gets: the one that the `qrcode` library would choose, sooner.

Holds only the counting of penalties (ISO/IEC 18004, 7.8.3) for all masks at once; the symbol is drawn by the library.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Modules = NDArray[np.bool_]

SIDE = 21
_ROW, _COLUMN = np.indices((SIDE, SIDE))
_PRODUCT = _ROW * _COLUMN
MASKS: Modules = np.array([
    (_ROW + _COLUMN) % 2 == 0,
    _ROW % 2 == 0,
    _COLUMN % 3 == 0,
    (_ROW + _COLUMN) % 3 == 0,
    (_ROW // 2 + _COLUMN // 3) % 2 == 0,
    _PRODUCT % 2 + _PRODUCT % 3 == 0,
    (_PRODUCT % 2 + _PRODUCT % 3) % 2 == 0,
    (_PRODUCT % 3 + (_ROW + _COLUMN) % 2) % 2 == 0,
])  # fmt: skip
"""The eight patterns over the whole symbol (ISO/IEC 18004, table 10)."""

_CORNERS = ((_ROW < 9) & (_COLUMN < 9)) | ((_ROW < 9) & (_COLUMN > 12)) | ((_ROW > 12) & (_COLUMN < 9))
DATA: Modules = ~(_CORNERS | (_ROW == 6) | (_COLUMN == 6))
"""Modules that carry data or correction: 26 codewords of 8."""

FORMAT: Modules = np.zeros((SIDE, SIDE), bool)
"""Modules that say error correction and mask, and the dark one beside them."""
FORMAT[:9, 8] = FORMAT[8, :9] = FORMAT[8, -8:] = FORMAT[-8:, 8] = True
FORMAT[6, 8] = FORMAT[8, 6] = False
_LOOKS_LIKE_A_FINDER = (0b10111010000, 0b00001011101)
_BITS = 1 << np.arange(SIDE)[::-1]


def best_mask(drawn: Modules) -> int:
    """The mask with the fewest penalty points, of a symbol that was drawn with the first one; the first of equals.

    The format modules count as light, as the library leaves them while it chooses.
    """
    candidates = np.where(DATA, drawn ^ MASKS[0] ^ MASKS, drawn & ~FORMAT)
    return int(np.argmin(penalties(candidates)))


def masked(drawn: Modules, mask: int, with_format: Modules) -> Modules:
    """The same symbol under another mask; `with_format` is any symbol that the library drew with that one."""
    return np.where(FORMAT, with_format, np.where(DATA, drawn ^ MASKS[0] ^ MASKS[mask], drawn))


def penalties(symbols: Modules) -> NDArray[np.int64]:
    """Penalty points of symbols (n x 21 x 21): runs, blocks, finder look-alikes, share of dark."""
    turned = symbols.transpose(0, 2, 1)
    both = np.concatenate([symbols, turned], axis=1)
    points = _runs(both) + 3 * _blocks(symbols) + 40 * _look_alikes(both)
    dark = symbols.sum((1, 2)) / SIDE**2
    return np.asarray(points + 10 * (np.abs(dark * 100 - 50) / 5).astype(int), np.int64)


def _runs(rows: Modules) -> NDArray[np.int64]:
    """A run of n >= 5 equal modules costs n - 2: one for each five in it, and two."""
    same = rows[:, :, 1:] == rows[:, :, :-1]
    fives = same[:, :, :-3] & same[:, :, 1:-2] & same[:, :, 2:-1] & same[:, :, 3:]
    begins = fives[:, :, 0].sum(1) + (fives[:, :, 1:] & ~fives[:, :, :-1]).sum((1, 2))
    return np.asarray(fives.sum((1, 2)) + 2 * begins, np.int64)


def _blocks(symbols: Modules) -> NDArray[np.int64]:
    """Squares of 2 x 2 equal modules."""
    across = symbols[:, :, 1:] == symbols[:, :, :-1]
    down = symbols[:, 1:, 1:] == symbols[:, :-1, 1:]
    return np.asarray((across[:, 1:] & across[:, :-1] & down).sum((1, 2)), np.int64)


def _look_alikes(rows: Modules) -> NDArray[np.int64]:
    """Dark and light as 1 : 1 : 3 : 1 : 1 with four light ones on a side."""
    windows = ((rows @ _BITS)[:, :, None] >> np.arange(SIDE - 10)) & 0b11111111111
    first, second = _LOOKS_LIKE_A_FINDER
    return np.asarray(((windows == first) | (windows == second)).sum((1, 2)), np.int64)
