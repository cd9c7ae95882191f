"""The symbols of many numbers at once, as the label room prints them: version 1-H, the mask of least penalty.

The qrcode library draws one symbol at a time, and most of its time goes into choosing the mask; here thousands are
made together: codewords, error correction, eight masks, penalties (ISO/IEC 18004). Printing takes the mask from here
and the symbol from the library; both are equal module by module (tests/labels/test_symbols.py, test_comparison.py).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from teardown_app.intake.comparison.penalty import penalties
from teardown_app.intake.comparison.plan import BIT_PLACES, CODEWORDS, DATA_CODEWORDS, FINDER, SIDE, TIMING

SIGNS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
"""Alphanumeric mode: the value of a character is its place here."""

LENGTH = 10
MODE = 0b0010
LENGTH_BITS = 9
CORRECTION_CODEWORDS = CODEWORDS - DATA_CODEWORDS
FIELD = 0x11D
"""The polynomial of the field of 256 elements."""

LEVEL_H = 0b10
FORMAT_POLYNOMIAL, FORMAT_MASK = 0b10100110111, 0b101010000010010


def symbols(numbers: Sequence[str]) -> np.ndarray:
    """(n, 21, 21) bool, True where dark, of `n` numbers of ten characters."""
    if not numbers:
        return np.zeros((0, SIDE, SIDE), bool)
    masked = _masked(numbers)
    best = penalties(masked).argmin(axis=1)
    chosen = masked[np.arange(len(numbers)), best]
    for mask in range(len(MASKS)):
        chosen[best == mask] |= _format(mask)
    return np.asarray(chosen)


def best_mask(number: str) -> int:
    """The mask that a number is printed with, 0 to 7: of least penalty, the first of equals."""
    return int(penalties(_masked([number])).argmin())


def _masked(numbers: Sequence[str]) -> np.ndarray:
    """(n, 8, 21, 21): each number under every mask, without the format information."""
    bits = np.unpackbits(_codewords(numbers), axis=1).astype(bool)
    bare = np.repeat(_functions()[None], len(numbers), axis=0).reshape(len(numbers), -1)
    bare[:, BIT_PLACES] = bits
    return np.asarray(bare.reshape(-1, 1, SIDE, SIDE) ^ MASKS[None])


def _codewords(numbers: Sequence[str]) -> np.ndarray:
    """(n, 26) bytes: mode, length, five pairs of characters, terminator, then the error correction."""
    values = np.array([[SIGNS.index(sign) for sign in number] for number in numbers])
    if values.shape[1:] != (LENGTH,):
        raise ValueError(f"Numbers of {LENGTH} characters are needed.")
    pairs = values[:, ::2] * 45 + values[:, 1::2]
    fields = [np.full((len(values), 1), MODE), np.full((len(values), 1), LENGTH), pairs]
    widths = [4, LENGTH_BITS, *[11] * 5]
    columns = np.concatenate(fields, axis=1)
    bits = [columns[:, [i]] >> np.arange(width - 1, -1, -1) & 1 for i, width in enumerate(widths)]
    bits.append(np.zeros((len(values), DATA_CODEWORDS * 8 - sum(widths)), int))
    data = np.packbits(np.concatenate(bits, axis=1).astype(bool), axis=1)
    return np.concatenate([data, _correction(data)], axis=1)


def _correction(data: np.ndarray) -> np.ndarray:
    """Remainders of the data by the generator polynomial of 17 roots."""
    rest = np.concatenate([data, np.zeros((len(data), CORRECTION_CODEWORDS), np.uint8)], axis=1)
    for place in range(DATA_CODEWORDS):
        factor = rest[:, place]
        product = EXP[(LOG[factor][:, None] + LOG[GENERATOR][None]) % 255]
        product[factor == 0] = 0
        rest[:, place : place + len(GENERATOR)] ^= product
    return rest[:, DATA_CODEWORDS:]


def _field() -> tuple[np.ndarray, np.ndarray]:
    exp, log = np.zeros(255, np.uint8), np.zeros(256, int)
    value = 1
    for power in range(255):
        exp[power], log[value] = value, power
        value = value << 1 ^ (FIELD if value & 0x80 else 0)
    return exp, log


EXP, LOG = _field()


def _generator() -> np.ndarray:
    """Coefficients of (x - 2^0)(x - 2^1) … in the field, the highest first."""
    polynomial = np.array([1], np.uint8)
    for power in range(CORRECTION_CODEWORDS):
        times_root = np.where(polynomial == 0, 0, EXP[(LOG[polynomial] + power) % 255]).astype(np.uint8)
        polynomial = np.append(polynomial, np.uint8(0)) ^ np.insert(times_root, 0, 0)
    return polynomial


GENERATOR = _generator()


def _functions() -> np.ndarray:
    """Finders and timing, without the format information: so the penalties are counted when printing."""
    plan = np.zeros((SIDE, SIDE), bool)
    finder = np.ones((FINDER, FINDER), bool)
    finder[1:-1, 1:-1] = False
    finder[2:-2, 2:-2] = True
    plan[:FINDER, :FINDER] = plan[:FINDER, -FINDER:] = plan[-FINDER:, :FINDER] = finder
    plan[TIMING, FINDER + 1 : -FINDER - 1 : 2] = plan[FINDER + 1 : -FINDER - 1 : 2, TIMING] = True
    return plan


def _masks() -> np.ndarray:
    """(8, 21, 21) bool, laid over the places that carry bits only."""
    i, j = np.mgrid[:SIDE, :SIDE]
    conditions = [
        (i + j) % 2,
        i % 2,
        j % 3,
        (i + j) % 3,
        (i // 2 + j // 3) % 2,
        i * j % 2 + i * j % 3,
        (i * j % 2 + i * j % 3) % 2,
        ((i + j) % 2 + i * j % 3) % 2,
    ]
    masks = np.zeros((len(conditions), SIDE * SIDE), bool)
    masks[:, BIT_PLACES] = np.stack(conditions).reshape(len(conditions), -1)[:, BIT_PLACES] == 0
    return masks.reshape(-1, SIDE, SIDE)


MASKS = _masks()


def _format(mask: int) -> np.ndarray:
    """The format information of level H with a mask, and the one module that is always dark."""
    data = LEVEL_H << 3 | mask
    rest = data << 10
    for shift in range(4, -1, -1):
        if rest >> shift + 10 & 1:
            rest ^= FORMAT_POLYNOMIAL << shift
    word = (data << 10 | rest) ^ FORMAT_MASK
    plan = np.zeros((SIDE, SIDE), bool)
    down = [0, 1, 2, 3, 4, 5, 7, 8, *range(SIDE - 7, SIDE)]
    along = [*range(SIDE - 1, SIDE - 9, -1), 7, 5, 4, 3, 2, 1, 0]
    for bit in range(15):
        plan[down[bit], 8] |= word >> bit & 1
        plan[8, along[bit]] |= word >> bit & 1
    plan[SIDE - 8, 8] = True
    return plan
