"""Where things are in the symbol of a tag: QR Code version 1, error correction H (ISO/IEC 18004).

21 x 21 modules, 26 codewords of 8 bits: 9 of data, 17 of error correction. Places are indices row * 21 + column
of the symbol held upright.
"""

from __future__ import annotations

import numpy as np

SIDE = 21
CODEWORDS, DATA_CODEWORDS = 26, 9
FINDER = 7
FORMAT = 9
"""Rows and columns at a finder that hold it, its separator and the format information."""
TIMING = 6

HEADER_BITS = 13
"""Mode and length: the same in every number."""
END_BITS = 4
"""Terminator: the same in every number."""


def reserved() -> np.ndarray:
    """(21, 21) bool: finders, separators, timing and format; everything that carries no codeword."""
    taken = np.zeros((SIDE, SIDE), bool)
    taken[:FORMAT, :FORMAT] = taken[:FORMAT, -FORMAT + 1 :] = taken[-FORMAT + 1 :, :FORMAT] = True
    taken[TIMING, :] = taken[:, TIMING] = True
    return taken


def bit_places() -> np.ndarray:
    """Place of each of the 208 bits in their order: two columns up, two columns down, from the right."""
    free = ~reserved()
    places = []
    upwards = True
    right = SIDE - 1
    while right > 0:
        if right == TIMING:
            right -= 1
        for row in range(SIDE - 1, -1, -1) if upwards else range(SIDE):
            places += [row * SIDE + column for column in (right, right - 1) if free[row, column]]
        upwards = not upwards
        right -= 2
    return np.array(places)


BIT_PLACES = bit_places()

_DATA_BITS = np.arange(HEADER_BITS, DATA_CODEWORDS * 8 - END_BITS)
_CORRECTION_BITS = np.arange(DATA_CODEWORDS * 8, CODEWORDS * 8)

EVIDENCE = BIT_PLACES[np.concatenate([_DATA_BITS, _CORRECTION_BITS])]
"""Places that can tell one number from another: 55 of data, 136 of error correction."""

IS_CORRECTION = np.arange(len(EVIDENCE)) >= len(_DATA_BITS)
"""Which of the evidence is error correction."""


def turned(quarter: int) -> np.ndarray:
    """Place in the picture's grid of each place of the symbol, when it lies turned by so many quarters."""
    return np.rot90(np.arange(SIDE * SIDE).reshape(SIDE, SIDE), quarter).ravel()
