"""The QR code of a number: which of the 21 x 21 modules are dark. No paper, no dots."""

from __future__ import annotations

import qrcode
from qrcode.util import MODE_ALPHA_NUM, QRData

from teardown_app.domain.tags.tag import parse
from teardown_app.intake.comparison.symbols import best_mask

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

    Drawn by `qrcode`; only which mask is best, the one it would choose, is found out sooner.
    """
    text = parse(number).number
    code = qrcode.QRCode(
        version=1, error_correction=qrcode.constants.ERROR_CORRECT_H, border=0, mask_pattern=best_mask(text)
    )
    code.add_data(QRData(text, mode=MODE_ALPHA_NUM), optimize=0)
    code.make(fit=False)
    matrix = tuple(tuple(bool(dark) for dark in row) for row in code.get_matrix())
    if len(matrix) != MODULES:
        raise AssertionError(f"{number} made a symbol of {len(matrix)} modules instead of {MODULES}.")
    return matrix


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
    edges = [x for x, (left, here) in enumerate(zip((False, *modules), (*modules, False), strict=True)) if left != here]
    return [(start, end - start) for start, end in zip(edges[::2], edges[1::2], strict=True)]
