"""Symbols that are known painted over with the paper around them, so that the others in the picture are looked for."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from PIL import Image, ImageDraw

from teardown_app.intake.code_readers import Corners
from teardown_app.intake.pictures import Grey

BEYOND = 1.12
"""So much larger than the symbol is what is painted over: its quiet zone is not reached."""
PAPER = 1.2
"""So far out, in the same measure, the paper is looked at."""


def without(grey: Grey, symbols: Iterable[Corners]) -> Grey:
    """The picture, uint8, with these symbols painted over; the same picture where there are none."""
    outlines = [np.asarray(corners, float) for corners in symbols if len(corners) >= 3]
    if not outlines:
        return grey
    image = Image.fromarray(grey)
    pen = ImageDraw.Draw(image)
    for outline in outlines:
        pen.polygon([(x, y) for x, y in _grown(outline, BEYOND).tolist()], fill=_paper(grey, outline))
    return np.asarray(image)


def _grown(outline: np.ndarray, by: float) -> np.ndarray:
    middle = outline.mean(0)
    return np.asarray(middle + (outline - middle) * by)


def _paper(grey: Grey, outline: np.ndarray) -> int:
    """The level of what lies around: the median of points a little outside of corners and sides."""
    around = _grown(np.concatenate([outline, (outline + np.roll(outline, 1, 0)) / 2]), PAPER).round().astype(int)
    high, wide = grey.shape
    inside = around[(around >= 0).all(1) & (around[:, 0] < wide) & (around[:, 1] < high)]
    return int(np.median(grey[inside[:, 1], inside[:, 0]])) if len(inside) else int(np.median(grey))
