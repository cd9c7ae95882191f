"""Steps that make a code readable for zbar: threshold, crop, other size, negative.

Each says how corners found in its picture go back to the one it was made from. Finds nothing by itself.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from attrs import frozen
from PIL import Image, ImageFilter

from teardown_app.intake.code_readers import Corners
from teardown_app.intake.pictures import Grey

BLOCK = 41
"""Side in pixels of the neighbourhood for the threshold (measured best)."""

BELOW = 4
"""Grey levels that a dark module must be below the mean of its neighbourhood."""

CENTRE = 0.6
"""Share of width and height taken as the centre, where people aim."""


@frozen
class View:
    """A picture derived from another: pixel (x, y) here is ((x, y) / scale + offset) there."""

    grey: Grey
    scale: float = 1
    left: int = 0
    top: int = 0

    def back(self, corners: Corners) -> Corners:
        """Corners found here, in pixels of the picture it was made from."""
        return tuple((round(x / self.scale) + self.left, round(y / self.scale) + self.top)
                     for x, y in corners)


def adaptive(view: View) -> View:
    """Black and white by the mean of each pixel's neighbourhood: cures shadow and noise."""
    mean = Image.fromarray(view.grey).filter(ImageFilter.BoxBlur(BLOCK // 2))
    light = view.grey.astype(np.int16) > np.asarray(mean, dtype=np.int16) - BELOW
    return View(np.where(light, np.uint8(255), np.uint8(0)), view.scale, view.left, view.top)


def centre(view: View) -> View:
    """The middle of the picture."""
    high, wide = view.grey.shape
    top, left = int(high * (1 - CENTRE) / 2), int(wide * (1 - CENTRE) / 2)
    return View(view.grey[top:high - top, left:wide - left], view.scale, left, top)


def half(view: View) -> View:
    """Half the size: cures large sharp codes."""
    return _sized(view, 0.5)


def double(view: View) -> View:
    """Twice the size, smoothed: cures small codes."""
    larger = _sized(view, 2)
    smooth = Image.fromarray(larger.grey).filter(ImageFilter.GaussianBlur(1))
    return View(np.asarray(smooth), larger.scale, larger.left, larger.top)


def negative(view: View) -> View:
    """Dark and light exchanged: laser-marked codes, which zbar never reads as they are."""
    return View(255 - view.grey, view.scale, view.left, view.top)


def _sized(view: View, factor: float) -> View:
    size = tuple(max(1, round(side * factor)) for side in view.grey.shape[::-1])
    image = Image.fromarray(view.grey).resize(size, Image.Resampling.BILINEAR)
    return View(np.asarray(image), view.scale * factor, view.left, view.top)


Step = tuple[str, tuple[Callable[[View], View], ...]]
"""What is said of a code found by it, and the treatments one after the other."""

ALWAYS: Step = ("zbar, threshold", (adaptive,))

IF_NOTHING_YET: tuple[Step, ...] = (
    ("zbar, threshold, negative", (adaptive, negative)),
    ("zbar, half size", (half,)),
    ("zbar, centre, double size, threshold", (centre, double, adaptive)),
)
