"""Pumps and their inner parts, filters, tins."""

from __future__ import annotations

import math

from drawing.boxes import block
from drawing.motors import motor_lying
from drawing.pen import TILT, Pen
from drawing.pipes import pipe_ends
from drawing.turned import bolt_circle, cylinder, tube


def filter_housing(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Head with two ports over a bowl."""
    cylinder(pen, cx, top + h * 0.2, w * 0.66, h * 0.8)
    pipe_ends(pen, cx, top + h * 0.17, w, h * 0.12)
    cylinder(pen, cx, top, w * 0.72, h * 0.34)
    pen.arc(cx, top + h * 0.62, w * 0.33, w * 0.33 * TILT, 0, 180, width=0.8)


def element(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A pleated cartridge with end caps."""
    cylinder(pen, cx, top + h * 0.08, w * 0.86, h * 0.84)
    for i in range(1, 12):
        x = cx - w * 0.43 * math.cos(math.pi * i / 12)
        pen.line((x, top + h * 0.16 + w * 0.1), (x, top + h * 0.86), width=0.7)
    cylinder(pen, cx, top + h * 0.8, w, h * 0.2)
    tube(pen, cx, top, w, h * 0.16 + w * TILT * 0.5, bore=0.4)


def centrifugal_pump(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Volute with suction and pressure stub, motor behind."""
    motor_lying(pen, cx + w * 0.16, top + h * 0.24, w * 0.68, h * 0.6)
    x, y, r = cx - w * 0.26, top + h * 0.56, min(w * 0.24, h * 0.36)
    pen.box(x + r * 0.3, top + h * 0.04, r * 0.5, h * 0.4)
    pen.box(x + r * 0.2, top, r * 0.7, h * 0.08)
    pen.oval(x, y, r, r)
    pen.oval(x, y, r * 0.4, r * 0.4)
    pen.oval(x, y, r * 0.25, r * 0.25)
    pen.box(cx - w * 0.1, top + h * 0.9, w * 0.5, h * 0.08)


def dosing_pump(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A box with a stroke knob and a liquid end with two valves."""
    block(pen, cx - w * 0.1, top + h * 0.12, w * 0.44, h * 0.7, w * 0.16)
    pen.oval(cx + w * 0.12, top + h * 0.5, w * 0.1, w * 0.1)
    pen.line((cx + w * 0.12, top + h * 0.5), (cx + w * 0.18, top + h * 0.42))
    pen.box(cx - w * 0.4, top + h * 0.26, w * 0.3, h * 0.5)
    pen.box(cx - w * 0.3, top + h * 0.06, w * 0.1, h * 0.2)
    pen.box(cx - w * 0.3, top + h * 0.76, w * 0.1, h * 0.22)
    pen.oval(cx - w * 0.25, top + h * 0.51, w * 0.09, h * 0.16)


def fluid_body(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A round pump head with an inlet below, an outlet above and a clamp bolt circle."""
    cylinder(pen, cx, top, w, h)
    for x, y in bolt_circle(cx, top + w / 2 * TILT, w * 0.42, 6):
        pen.disc(x, y, w * 0.025, width=1.0)
    pen.disc(cx, top + w / 2 * TILT, w * 0.3)
    pen.disc(cx, top + w / 2 * TILT, w * 0.05)
    for side in (-1, 1):
        pen.box(cx + side * w * 0.47 - w * 0.05, top + h * 0.5, w * 0.1, h * 0.28)


def can(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A tin or tube of grease, paste or sealant."""
    cylinder(pen, cx, top + h * 0.2, w * 0.7, h * 0.8)
    cylinder(pen, cx, top, w * 0.3, h * 0.36)
    pen.box(cx - w * 0.26, top + h * 0.55, w * 0.52, h * 0.24, width=1.0)


def ball(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A valve ball."""
    r = min(w, h) / 2
    pen.oval(cx, top + h / 2, r, r)
    pen.arc(cx, top + h / 2, r * 0.7, r * 0.7, 200, 260, width=1.0)


def diaphragm(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A moulded disc with a convolution and a clamped rim."""
    cylinder(pen, cx, top + h * 0.1, w, w * TILT + 6)
    for share in (0.42, 0.36, 0.16):
        pen.disc(cx, top + h * 0.1 + w / 2 * TILT, w * share, width=1.0)
