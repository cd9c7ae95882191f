"""Motors, belts, couplings, spindles."""

from __future__ import annotations

import math

from drawing.boxes import block
from drawing.pen import TILT, Pen
from drawing.turned import bolt_circle, cylinder, flange, tube


def motor(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Standing motor: shaft, flange, ribbed body, terminal box."""
    cylinder(pen, cx, top + h * 0.22, w * 0.8, h * 0.78)
    for i in range(1, 14):
        x = cx - w * 0.4 * math.cos(math.pi * i / 14)
        pen.line((x, top + h * 0.5), (x, top + h * 0.9), width=0.8)
    pen.box(cx + w * 0.22, top + h * 0.5, w * 0.26, h * 0.22)
    flange(pen, cx, top + h * 0.16, w, h * 0.3)
    cylinder(pen, cx, top, w * 0.16, h * 0.34)


def square_motor(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Stepper or servo: square flange, body, plug."""
    block(pen, cx - w / 2, top + h * 0.2, w * 0.72, h * 0.66, w * 0.28)
    pen.line((cx - w / 2, top + h * 0.5), (cx + w * 0.22, top + h * 0.5), width=1.0)
    pen.box(cx - w * 0.36, top + h * 0.68, w * 0.2, h * 0.12)
    x, y = cx - w * 0.02, top + h * 0.27
    pen.oval(x, y, w * 0.16, w * 0.07)
    cylinder(pen, x, top, w * 0.12, h * 0.3)


def motor_lying(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A motor on its side with fins, fan cover and terminal box."""
    pen.box(cx - w * 0.36, top + h * 0.2, w * 0.62, h * 0.7)
    for i in range(1, 7):
        pen.line((cx - w * 0.34, top + h * (0.2 + 0.1 * i)), (cx + w * 0.24, top + h * (0.2 + 0.1 * i)), width=0.8)
    pen.box(cx + w * 0.26, top + h * 0.24, w * 0.2, h * 0.62)
    pen.box(cx - w * 0.44, top + h * 0.14, w * 0.08, h * 0.82)
    pen.box(cx - w * 0.16, top, w * 0.26, h * 0.22)


def blower(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A side channel blower: snail, silencer, motor."""
    motor_lying(pen, cx + w * 0.2, top + h * 0.26, w * 0.6, h * 0.6)
    x, y, r = cx - w * 0.2, top + h * 0.54, min(w * 0.3, h * 0.44)
    pen.box(x - r * 0.9, y + r * 0.6, r * 0.5, h * 0.2)
    pen.oval(x, y, r, r)
    pen.oval(x, y, r * 0.6, r * 0.6)
    for i in range(6):
        t = math.pi * i / 3
        pen.line(
            (x + r * 0.18 * math.cos(t), y + r * 0.18 * math.sin(t)),
            (x + r * 0.58 * math.cos(t), y + r * 0.58 * math.sin(t)),
        )
    pen.oval(x, y, r * 0.18, r * 0.18)


def belt(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A toothed belt in the shape of its run."""
    big, small = h * 0.44, h * 0.26
    left, right, cy = cx - w / 2 + big, cx + w / 2 - small, top + h / 2
    for grow in (0, -7):
        up = _bow(left, cy, big + grow, 95)
        down = _bow(right, cy, small + grow, -85)
        pen.poly(*up, *down)
    for a, z in ((up[-1], down[0]), (down[-1], up[0])):
        up += [(a[0] + (z[0] - a[0]) * i / 12, a[1] + (z[1] - a[1]) * i / 12) for i in range(1, 12)]
    for x, y in up + down:
        pen.oval(x, y, 1.6, 1.6, fill=0)


def _bow(cx: float, cy: float, r: float, start: float) -> list[tuple[float, float]]:
    turns = [math.radians(start + 9 * i) for i in range(20)]
    return [(cx + r * math.cos(t), cy + r * math.sin(t)) for t in turns]


def coupling(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Two hubs with a star or bellows between them."""
    cylinder(pen, cx, top + h * 0.6, w, h * 0.4)
    for i in range(3):
        cylinder(pen, cx, top + h * (0.5 - i * 0.07), w * 0.86, h * 0.2 + w * TILT * 0.5)
    tube(pen, cx, top, w, h * 0.4, bore=0.4)


def star(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """The elastic star of a coupling."""
    for x, y in bolt_circle(cx, top + w / 2 * TILT, w * 0.36, 6):
        cylinder(pen, x, y - w * 0.05, w * 0.24, h * 0.3 + w * 0.05)
    tube(pen, cx, top + w * 0.05, w * 0.5, h * 0.4, bore=0.5)


def screw_spindle(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A threaded spindle with its nut."""
    cylinder(pen, cx, top, w * 0.3, h)
    for i in range(int(h / 6) - 2):
        y = top + 8 + i * 6
        pen.line((cx - w * 0.15, y), (cx + w * 0.15, y - 4), width=0.8)
    cylinder(pen, cx, top + h * 0.52, w * 0.62, h * 0.26)
    flange(pen, cx, top + h * 0.42, w, h * 0.2)
