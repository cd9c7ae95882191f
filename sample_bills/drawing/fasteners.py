"""Screws, nuts, washers, pins, keys."""

from __future__ import annotations

import math
from collections.abc import Callable

from drawing.pen import TILT, Pen
from drawing.turned import bolt_circle, cylinder

SHOWN_AT_MOST = 16


def shank(pen: Pen, cx: float, top: float, w: float, h: float) -> None:
    """A threaded shank."""
    pen.box(cx - w / 2, top, w, h)
    for i in range(1, int(h / 5)):
        pen.line((cx - w / 2, top + i * 5), (cx + w / 2, top + i * 5 - 2), width=0.7)


def cap_screw(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Cylinder head with a hexagon socket."""
    shank(pen, cx, top + h * 0.3, w * 0.5, h * 0.7)
    cylinder(pen, cx, top, w, h * 0.34 + w * TILT * 0.5)
    pen.disc(cx, top + w / 2 * TILT, w * 0.2, width=1.0)


def countersunk(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Countersunk head."""
    shank(pen, cx, top + h * 0.3, w * 0.45, h * 0.7)
    pen.poly(
        (cx - w / 2, top + w / 2 * TILT),
        (cx + w / 2, top + w / 2 * TILT),
        (cx + w * 0.22, top + h * 0.32),
        (cx - w * 0.22, top + h * 0.32),
    )
    pen.disc(cx, top + w / 2 * TILT, w / 2)
    pen.disc(cx, top + w / 2 * TILT, w * 0.18, width=1.0)


def hex_screw(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Hexagon head."""
    shank(pen, cx, top + h * 0.3, w * 0.5, h * 0.7)
    hex_nut(pen, cx, top, w, h * 0.38, bore=False)


def button_screw(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Button head."""
    shank(pen, cx, top + h * 0.28, w * 0.45, h * 0.72)
    pen.half_dome(cx, top + h * 0.24, w / 2, h * 0.24)


def hex_nut(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1, bore: bool = True) -> None:
    """A hexagon nut or head."""
    r, cy = w / 2, top + w / 2 * TILT
    corners = [(cx + r * math.cos(math.pi * i / 3), cy + r * TILT * math.sin(math.pi * i / 3)) for i in range(6)]
    deep = max(3.0, h - w * TILT)
    pen.poly(corners[0], corners[1], corners[2], corners[3], *[(x, y + deep) for x, y in corners[3::-1]])
    for x, y in corners[1:3]:
        pen.line((x, y), (x, y + deep))
    pen.poly(*corners)
    if bore:
        pen.disc(cx, cy, r * 0.5, width=1.2)


def washer(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A plain washer."""
    cylinder(pen, cx, top, w, w * TILT + 3)
    pen.disc(cx, top + w / 2 * TILT, w * 0.25, width=1.2)


def ring_of(
    shape: Callable[..., None], pen: Pen, cx: float, top: float, w: float, h: float, n: int, size: float
) -> None:
    """All screws, nuts or washers of a joint, standing on their bolt circle."""
    r = (w - size) / 2
    shown = max(2, min(n, SHOWN_AT_MOST))
    tall = h - 2 * r * TILT
    for x, y in bolt_circle(cx, top + r * TILT, r, shown, 0.35):
        shape(pen, x, y, size, tall)


def pin(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A plain pin, bolt or rod."""
    cylinder(pen, cx, top, w, h)


def key(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A parallel key, round at both ends."""
    r = h / 3
    for dy in (h - 2 * r, 0):
        pen.poly(
            *[
                (cx + sx * (w / 2 - r) + r * math.cos(t), top + dy + r + r * math.sin(t))
                for sx, start in ((1, -90), (-1, 90))
                for t in [math.radians(start + 15 * i) for i in range(13)]
            ]
        )
