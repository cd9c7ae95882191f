"""The QR code of a number: which of the 21 x 21 modules are dark. No paper, no dots."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import qrcode
from numpy.typing import NDArray
from qrcode.util import MODE_ALPHA_NUM, QRData

from teardown_app.domain.tag import parse
from teardown_app.domain.tag_form import with_check
from teardown_app.labels.mask import best_mask, masked

Matrix = tuple[tuple[bool, ...], ...]
"""Rows from the top, modules from the left; True is dark."""

MODULES = 21
"""A side of version 1 (ISO/IEC 18004)."""

QUIET = 4
"""Modules kept light on each side (ISO/IEC 18004)."""

ACROSS = MODULES + 2 * QUIET
"""A side of the symbol with its quiet zone."""

Run = tuple[int, int, int, int]
"""A dark rectangle: column, row, width, height in modules."""


def symbol(number: str) -> Matrix:
    """The smallest symbol at the strongest correction: version 1, H, alphanumeric; without quiet zone.

    Module for module what `qrcode` makes of the number; only which mask is best is found out sooner.
    """
    drawn = _drawn(parse(number).number, 0)
    mask = best_mask(drawn)
    chosen = masked(drawn, mask, _any_with(mask)) if mask else drawn
    return tuple(tuple(row) for row in chosen.tolist())


def _drawn(number: str, mask: int) -> NDArray[np.bool_]:
    """The symbol as the library draws it with that mask."""
    code = qrcode.QRCode(version=1, error_correction=qrcode.constants.ERROR_CORRECT_H, border=0, mask_pattern=mask)
    code.add_data(QRData(number, mode=MODE_ALPHA_NUM), optimize=0)
    code.make(fit=False)
    matrix = np.array(code.get_matrix(), bool)
    if matrix.shape != (MODULES, MODULES):
        raise AssertionError(f"{number} made a symbol of {len(matrix)} modules instead of {MODULES}.")
    return matrix


@lru_cache(maxsize=8)
def _any_with(mask: int) -> NDArray[np.bool_]:
    return _drawn(with_check("P00000000"), mask)


def runs(matrix: Matrix) -> list[Run]:
    """The dark modules as few rectangles: runs in a row, joined with equal runs of the rows below.

    >>> runs(((True, True), (True, True)))
    [(0, 0, 2, 2)]
    """
    done: list[Run] = []
    growing: dict[tuple[int, int], int] = {}
    for row, modules in enumerate([*matrix, ()]):
        here = _row_runs(modules)
        done += [(x, top, width, row - top) for (x, width), top in growing.items() if (x, width) not in here]
        growing = {run: growing.get(run, row) for run in here}
    return done


def _row_runs(modules: tuple[bool, ...]) -> list[tuple[int, int]]:
    """Start and length of each dark run of a row."""
    edges = [x for x, (left, here) in enumerate(zip((False, *modules), (*modules, False), strict=True))
             if left != here]
    return [(start, end - start) for start, end in zip(edges[::2], edges[1::2], strict=True)]
