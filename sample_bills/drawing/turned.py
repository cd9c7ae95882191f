"""Round bodies about an upright axis: cylinders, flanges, covers, shafts, wheels.

Every shape is called with (pen, cx, top, w, h, n): centre, top edge, width, height and how many of it
there are. It stays inside that box."""

from __future__ import annotations

import math

from drawing.pen import TILT, Pen


def bolt_circle(cx: float, cy: float, r: float, n: int, turn: float = 0.4) -> list[tuple[float, float]]:
    """Places on a circle seen obliquely, the far ones first."""
    turns = [turn + 2 * math.pi * i / n for i in range(n)]
    places = [(cx + r * math.cos(t), cy + r * TILT * math.sin(t)) for t in turns]
    return sorted(places, key=lambda p: p[1])


def cylinder(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A plain round body standing upright."""
    r, ry = w / 2, w / 2 * TILT
    bottom = max(top + h - ry, top + ry + 1)
    pen.disc(cx, bottom, r)
    pen.poly((cx - r, top + ry), (cx + r, top + ry), (cx + r, bottom), (cx - r, bottom), width=0.1)
    pen.arc(cx, bottom, r, ry, 0, 180)
    pen.line((cx - r, top + ry), (cx - r, bottom))
    pen.line((cx + r, top + ry), (cx + r, bottom))
    pen.disc(cx, top + ry, r)


def tube(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1, bore: float = 0.6) -> None:
    """A cylinder with a bore."""
    cylinder(pen, cx, top, w, h)
    ry = w / 2 * TILT
    pen.disc(cx, top + ry, w / 2 * bore)
    pen.arc(cx, top + ry + min(4, h / 8), w / 2 * bore, ry * bore, 200, 340, width=0.8)


def flange(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A disc with a bore and a bolt circle."""
    tube(pen, cx, top, w, min(h, w * TILT + w * 0.08), bore=0.62)
    for x, y in bolt_circle(cx, top + w / 2 * TILT, w * 0.41, 8):
        pen.disc(x, y, max(2.0, w * 0.022), width=1.0)


def cover(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A closed disc with a raised middle and a bolt circle."""
    flange(pen, cx, top + h * 0.2, w, h * 0.8)
    tube(pen, cx, top, w * 0.62, h * 0.8, bore=0.35)


def shaft(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A stepped shaft with a keyway and a threaded end."""
    steps = [(0.34, 0.26), (0.5, 0.2), (0.62, 0.22), (1.0, 0.08), (0.5, 0.24)]
    at = top + h
    for width, share in reversed(steps):
        at -= h * share
        cylinder(pen, cx, at - w * width * TILT / 2, w * width, h * share + w * width * TILT)
    for i in range(5):
        y = top + h * 0.06 + i * h * 0.03
        pen.arc(cx, y, w * 0.17, w * 0.17 * TILT, 0, 180, width=0.8)
    pen.oval(cx, top + h * 0.36, w * 0.05, h * 0.06, width=1.0)


def pulley(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A toothed wheel between two flanges."""
    flat = w * TILT + h * 0.08
    cylinder(pen, cx, top + h - flat, w, flat)
    cylinder(pen, cx, top + h * 0.08, w * 0.88, h * 0.84)
    for i in range(1, 16):
        x = cx - w * 0.44 * math.cos(math.pi * i / 16)
        y = top + w * 0.44 * TILT * math.sin(math.pi * i / 16)
        pen.line((x, y + w * 0.2), (x, y + h * 0.82), width=0.8)
    tube(pen, cx, top, w, flat, bore=0.35)


def bearing_housing(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A flanged body with a stepped bore."""
    cylinder(pen, cx, top + h * 0.2, w * 0.66, h * 0.8)
    flange(pen, cx, top, w, h * 0.5)
    pen.disc(cx, top + w / 2 * TILT + 4, w * 0.24, width=1.0)


def spring(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A coil spring."""
    turns = 7
    for i in range(turns):
        y = top + w / 2 * TILT + i * (h - w * TILT) / turns
        pen.arc(cx, y, w / 2, w / 2 * TILT, -20, 200)
        pen.line((cx - w / 2, y), (cx + w / 2, y + (h - w * TILT) / turns), width=0.8)


def coin(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A flat cell with its plus sign."""
    cylinder(pen, cx, top, w, w * TILT + 6)
    cy = top + w / 2 * TILT
    pen.line((cx - 6, cy), (cx + 6, cy))
    pen.line((cx, cy - 4), (cx, cy + 4))
