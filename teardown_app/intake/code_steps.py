"""Steps that make a code readable: crop, other size, smoothing, evened light, threshold, negative.

Each says how corners found in its picture go back to the one it was made from. Finds nothing by itself; which
reader looks at what is in `reading_order.py`.
"""

from __future__ import annotations

import numpy as np
from attrs import evolve, frozen
from PIL import Image, ImageChops, ImageFilter

from teardown_app.intake.code_readers import Corners
from teardown_app.intake.pictures import Grey

BLOCK = 41
"""Side in pixels of the neighbourhood that a pixel is compared with (measured best)."""

BELOW = 8
"""Grey levels that a light pixel may be below the mean of its neighbourhood (measured best)."""

GAIN = 2
"""So many times are differences from the neighbourhood drawn apart when light is evened."""

CENTRE = 0.6
"""Share of width and height taken as the centre, where people aim."""

SMOOTH = ImageFilter.Kernel((3, 3), (1, 2, 1, 2, 4, 2, 1, 2, 1))


@frozen
class View:
    """A picture derived from another: pixel (x, y) here is ((x, y) / scale + offset) there."""

    grey: Grey
    scale: float = 1
    left: int = 0
    top: int = 0

    def back(self, corners: Corners) -> Corners:
        """Corners found here, in pixels of the picture it was made from."""
        return tuple((round(x / self.scale) + self.left, round(y / self.scale) + self.top) for x, y in corners)


def threshold(view: View) -> View:
    """Black and white by the mean of each pixel's neighbourhood: cures shadow and noise."""
    image = Image.fromarray(view.grey)
    above = ImageChops.subtract(image, _neighbourhood(image), 1, BELOW)
    return evolve(view, grey=np.asarray(above.point(_BLACK_AND_WHITE)))


def evened(view: View) -> View:
    """Grey around the mean of each pixel's neighbourhood: cures shadow, and keeps where edges are."""
    image = Image.fromarray(view.grey)
    return evolve(view, grey=np.asarray(ImageChops.subtract(image, _neighbourhood(image), 1 / GAIN, 128)))


def smooth(view: View) -> View:
    """Each pixel mixed with its neighbours: cures noise."""
    return evolve(view, grey=np.asarray(Image.fromarray(view.grey).filter(SMOOTH)))


def centre(view: View) -> View:
    """The middle of the picture."""
    high, wide = view.grey.shape
    top, left = int(high * (1 - CENTRE) / 2), int(wide * (1 - CENTRE) / 2)
    return evolve(view, grey=view.grey[top : high - top, left : wide - left], left=left, top=top)


def half(view: View) -> View:
    """Half the size: cures large sharp codes, noise and small stains."""
    return _sized(view, 1 / 2)


def two_thirds(view: View) -> View:
    """Two thirds of the size: as half, for codes that are not so large."""
    return _sized(view, 2 / 3)


def three_quarters(view: View) -> View:
    """Three quarters of the size: takes noise away and little else."""
    return _sized(view, 3 / 4)


def larger(view: View) -> View:
    """Half as large again: cures codes that are small or smeared."""
    return _sized(view, 3 / 2)


def double(view: View) -> View:
    """Twice the size, smoothed: cures the smallest codes."""
    return smooth(_sized(view, 2))


def negative(view: View) -> View:
    """Dark and light exchanged: laser-marked codes, which zbar never reads as they are."""
    return evolve(view, grey=255 - view.grey)


_BLACK_AND_WHITE = [0] + [255] * 255


def _neighbourhood(image: Image.Image) -> Image.Image:
    return image.filter(ImageFilter.BoxBlur(BLOCK // 2))


def _sized(view: View, factor: float) -> View:
    size = tuple(max(1, round(side * factor)) for side in view.grey.shape[::-1])
    kernel = Image.Resampling.BOX if factor < 1 else Image.Resampling.BILINEAR
    image = Image.fromarray(view.grey).resize(size, kernel)
    return evolve(view, grey=np.asarray(image), scale=view.scale * factor)
