"""Sensors, switches, heaters."""

from __future__ import annotations

import math

from drawing.boxes import block
from drawing.pen import Pen
from drawing.turned import cylinder


def sensor(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A threaded barrel with nut and cable."""
    shown = min(n, 3)
    each = w / shown
    for k in range(shown):
        x = cx - w / 2 + each * (k + 0.5)
        wavy_lead(pen, x, top + h * 0.66, each * 0.4, h * 0.34)
        cylinder(pen, x, top, each * 0.3, h * 0.72)
        for i in range(7):
            pen.arc(x, top + h * (0.16 + 0.06 * i), each * 0.15, each * 0.045, 0, 180, width=0.7)
        pen.box(x - each * 0.26, top + h * 0.34, each * 0.52, h * 0.1)


def wavy_lead(pen: Pen, x: float, y: float, w: float, h: float) -> None:
    """A lead hanging down in waves."""
    way = [(x + w * 0.5 * math.sin(i / 8 * 2 * math.pi), y + h * i / 8) for i in range(9)]
    pen.line(*way, width=4)
    pen.line(*way, width=1.5, grey=255)


def probe(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A temperature probe: head with cable, screwed fitting, thin stem."""
    shown = min(n, 2)
    each = w / shown
    for i in range(shown):
        x = cx - w / 2 + each * (i + 0.5)
        pen.box(x - each * 0.04, top + h * 0.4, each * 0.08, h * 0.6)
        pen.box(x - each * 0.18, top + h * 0.36, each * 0.36, h * 0.12)
        cylinder(pen, x, top + h * 0.1, each * 0.3, h * 0.3)
        pen.line((x, top + h * 0.14), (x + each * 0.1, top), (x + each * 0.36, top), width=3)


def switch(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A switch body with its actuator and cable."""
    wavy_lead(pen, cx + w * 0.1, top + h * 0.72, w * 0.2, h * 0.28)
    block(pen, cx - w * 0.24, top + h * 0.08, w * 0.4, h * 0.58, w * 0.14)
    block(pen, cx - w * 0.5, top + h * 0.16, w * 0.12, h * 0.36, w * 0.08)
    pen.oval(cx - w * 0.04, top + h * 0.36, 5, 5)


def thermostat(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A round cut-out with reset button and two tabs."""
    pen.box(cx - w / 2, top + h * 0.5, w, h * 0.2)
    for x in (-0.42, 0.42):
        pen.oval(cx + w * x, top + h * 0.6, 4, 3)
    cylinder(pen, cx, top + h * 0.25, w * 0.6, h * 0.75)
    cylinder(pen, cx, top, w * 0.2, h * 0.4)


def blanket(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A curved heating mat with its wire and leads."""
    bow = h * 0.2
    over = [(cx - w / 2 + w * i / 12, top + bow * math.sin(math.pi * i / 12)) for i in range(13)]
    under = [(x, y + h * 0.6) for x, y in reversed(over)]
    pen.poly(*over, *under)
    for k in range(1, 5):
        pen.line(
            *[(x + (4 if i == 0 else -4 if i == 12 else 0), y + h * 0.12 * k) for i, (x, y) in enumerate(over)],
            width=0.8,
        )
    for dx in (0.06, 0.1):
        pen.line((cx + w * dx, top + h * 0.78), (cx + w * dx + w * 0.1, top + h), width=2)


def inline_heater(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A lying tube heater with end fittings and a terminal head."""
    cy = top + h * 0.62
    pen.box(cx - w / 2, cy - h * 0.1, w, h * 0.2)
    pen.box(cx - w * 0.38, cy - h * 0.28, w * 0.76, h * 0.56)
    for x in (-0.44, 0.38):
        pen.box(cx + w * x, cy - h * 0.2, w * 0.06, h * 0.4)
    for i in range(8):
        x = cx - w * 0.32 + i * w * 0.08
        pen.line((x, cy + h * 0.2), (x + w * 0.04, cy - h * 0.2), (x + w * 0.08, cy + h * 0.2), width=0.8)
    block(pen, cx - w * 0.08, top, w * 0.14, h * 0.3, w * 0.05)


def heating_rod(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Screw-in heaters: head, hexagon, hair-pin tubes."""
    shown = min(n, 2)
    each = w / shown
    for i in range(shown):
        x = cx - w / 2 + each * (i + 0.5)
        for half in (0.1, 0.18):
            pen.line(
                (x - each * half, top + h * 0.4),
                (x - each * half, top + h * 0.96),
                (x + each * half, top + h * 0.96),
                (x + each * half, top + h * 0.4),
                width=3,
            )
        pen.box(x - each * 0.28, top + h * 0.3, each * 0.56, h * 0.12)
        cylinder(pen, x, top, each * 0.44, h * 0.32)
