"""Sizes on the glass: millimetres and type sizes, whatever the tablet says of its own resolution.

Linux reports 96 dots an inch on every tablet, so the real figure can be set: a bar is drawn and
measured with a ruler.
"""

from __future__ import annotations

from kivy.metrics import Metrics

MM_PER_INCH = 25.4
SP_PER_INCH = 160
"""Definition of the scale-independent pixel: 160 to the inch."""

FAR, NUMBER, HEAD, BODY, NOTE = 78, 32, 28, 20, 15
"""Type sizes in sp: read at two metres; figures; headline; body; note (arm's length)."""

GLOVES, BARE = "gloves", "bare hands"
ROW_MM = {GLOVES: 13.0, BARE: 9.0}
MAIN_MM = 20.0
GAP_MM = 3.0
GRID_MM = 4.0


class Scale:
    """Pixels to the inch of this glass, and the density people chose."""

    def __init__(self) -> None:
        self.dots_per_inch = float(Metrics.dpi)
        self.density = GLOVES

    def mm(self, millimetres: float) -> float:
        """Pixels of a length."""
        return millimetres * self.dots_per_inch / MM_PER_INCH

    def sp(self, size: float) -> float:
        """Pixels of a type size."""
        return size * self.dots_per_inch / SP_PER_INCH

    @property
    def row(self) -> float:
        """Pixels of a row's height."""
        return self.mm(ROW_MM[self.density])


scale = Scale()


def mm(millimetres: float) -> float:
    """Pixels of a length on this glass."""
    return scale.mm(millimetres)


def sp(size: float) -> float:
    """Pixels of a type size on this glass."""
    return scale.sp(size)
