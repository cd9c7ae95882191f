"""Bowl, door, rotor, basket, tank: what the process runs in."""

from __future__ import annotations

import math

from drawing.boxes import SLANT, block, front_of
from drawing.pen import TILT, Pen
from drawing.turned import bolt_circle, cylinder, flange, tube


def bowl(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A drum with a bolted rim, open to the top, coned to a drain."""
    body = w * 0.8
    ry = w / 2 * TILT
    low = top + h * 0.74
    tube(pen, cx, top + h * 0.86, w * 0.13, h * 0.14)
    pen.poly(
        (cx - body / 2, low), (cx - w * 0.07, top + h * 0.89), (cx + w * 0.07, top + h * 0.89), (cx + body / 2, low)
    )
    cylinder(pen, cx, top + ry * 0.6, body, low - top + body * TILT / 2 - ry * 0.6)
    cylinder(pen, cx, top, w, ry * 2 + h * 0.05)
    for x, y in bolt_circle(cx, top + ry, w * 0.46, 8):
        pen.disc(x, y, w * 0.014, width=1.0)
    pen.disc(cx, top + ry, body / 2)
    pen.disc(cx, top + ry, body / 2 - 6, width=1.0)
    pen.arc(cx, top + ry * 1.5, body / 2 * 0.86, ry * 0.62, 195, 345, width=0.8)


def dome(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A dished door: rim, dome, round window."""
    ry = w / 2 * TILT
    base = top + h - ry - h * 0.06
    cylinder(pen, cx, base - ry, w, ry * 2 + h * 0.06)
    pen.half_dome(cx, base, w * 0.42, base - top - 2)
    pen.disc(cx, top + (base - top) * 0.34, w * 0.17)
    pen.disc(cx, top + (base - top) * 0.34, w * 0.14, width=1.0)


def rotor(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Two rings on spokes about a hub, joined by bars."""
    r, ry = w / 2, w / 2 * TILT
    low, high = top + h - ry, top + ry
    _spoked(pen, cx, low, r)
    for x, y in bolt_circle(0, 0, r * 0.93, 8, 0.2):
        pen.box(cx + x - 3, high + y, 6, low - high)
    pen.box(cx - r * 0.1, high, r * 0.2, low - high, width=1.2)
    _spoked(pen, cx, high, r)


def _spoked(pen: Pen, cx: float, cy: float, r: float) -> None:
    pen.disc(cx, cy, r, fill=None)
    pen.disc(cx, cy, r * 0.86, fill=None)
    for turn in (0.5, 2.07, 3.64, 5.21):
        x, y = cx + r * 0.86 * math.cos(turn), cy + r * 0.86 * TILT * math.sin(turn)
        pen.poly((cx - 5, cy), (cx + 5, cy), (x + 5, y), (x - 5, y))
    pen.disc(cx, cy, r * 0.24)
    pen.disc(cx, cy, r * 0.11)


def basket(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A turning basket: cross of four arms with a box holder at each end."""
    for turn in (0.45, 2.02, 3.59, 5.16):
        x, y = cx + w * 0.32 * math.cos(turn), top + h * 0.45 + h * 0.3 * math.sin(turn)
        pen.line((cx, top + h * 0.45), (x, y), width=9)
        pen.line((cx, top + h * 0.45), (x, y), width=6, grey=255)
        block(pen, x - w * 0.11, y - h * 0.12, w * 0.16, h * 0.16, w * 0.06)
    tube(pen, cx, top + h * 0.36, w * 0.2, h * 0.24, bore=0.5)


def tank(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A round tank with level marks."""
    cylinder(pen, cx, top, w, h)
    pen.disc(cx, top + w / 2 * TILT, w * 0.44)
    for i in range(5):
        pen.line((cx - w * 0.1, top + h * (0.45 + i * 0.1)), (cx + w * 0.02, top + h * (0.45 + i * 0.1)), width=1.0)


def chamber(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A square process chamber, open at the front, with a drain below."""
    x, y, fw, fh, d = front_of(cx, top, w, h * 0.9, 0.36)
    pen.box(x + fw * 0.42, y + fh + d * SLANT - 4, fw * 0.12, h * 0.1)
    block(pen, x, y, fw, fh, d)
    y += d * SLANT
    pen.box(x + fw * 0.1, y + fh * 0.1, fw * 0.8, fh * 0.8)
    pen.box(x + fw * 0.1 + d * 0.3, y + fh * 0.1, fw * 0.8 - d * 0.3, fh * 0.8 - d * 0.2, width=1.0)
    pen.line((x + fw * 0.1, y + fh * 0.9), (x + fw * 0.1 + d * 0.3, y + fh * 0.9 - d * 0.2), width=1.0)
    for i in range(10):
        for side in (0.05, 0.95):
            pen.oval(x + fw * side, y + fh * (0.08 + i * 0.093), 2.5, 2.5, width=1.0)


def spindle_unit(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A flanged bearing housing with the shaft standing out."""
    cylinder(pen, cx, top + h * 0.7, w * 0.2, h * 0.3)
    cylinder(pen, cx, top + h * 0.34, w * 0.62, h * 0.5)
    flange(pen, cx, top + h * 0.22, w, h * 0.4)
    cylinder(pen, cx, top + h * 0.08, w * 0.4, h * 0.32)
    cylinder(pen, cx, top, w * 0.22, h * 0.22)
