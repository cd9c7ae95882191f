"""Tubes, hoses, fittings, nozzles."""

from __future__ import annotations

import math

from drawing.boxes import block
from drawing.pen import Pen
from drawing.turned import cylinder, flange, tube


def pipe_ends(pen: Pen, cx: float, cy: float, w: float, bore: float) -> None:
    """A horizontal body with a collar at each end."""
    pen.box(cx - w / 2, cy - bore * 0.5, w, bore)
    for side in (-1, 1):
        pen.box(cx + side * w * 0.44 - w * 0.06, cy - bore * 0.75, w * 0.12, bore * 1.5)


def tube_run(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A bent tube."""
    x, y, t = cx - w / 2, top + h * 0.12, max(6.0, h * 0.1)
    middle = [
        (x, y),
        (x + w * 0.36, y),
        (x + w * 0.44, y + h * 0.1),
        (x + w * 0.44, y + h * 0.6),
        (x + w * 0.52, y + h * 0.72),
        (x + w, y + h * 0.72),
    ]
    pen.line(*middle, width=t)
    pen.line(*middle, width=t - 3, grey=255)
    for ex, ey in (middle[0], middle[-1]):
        pen.oval(ex, ey, t * 0.3, t * 0.5)


def hose(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A ribbed hose in a bow."""
    r = h * 0.13
    places = [
        (cx - w * 0.44 + w * 0.88 * i / 26, top + h * 0.3 + h * 0.22 * math.sin(i / 26 * 2 * math.pi) + h * 0.2)
        for i in range(27)
    ]
    for x, y in places:
        pen.oval(x, y, r * 0.45, r, width=1.2)


def tee(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Three ends with union nuts."""
    cy = top + h * 0.7
    pen.box(cx - w * 0.09, top + h * 0.1, w * 0.18, h * 0.6)
    pipe_ends(pen, cx, cy, w, h * 0.26)
    pen.box(cx - w * 0.14, top, w * 0.28, h * 0.2)
    pen.box(cx - w * 0.085, cy - h * 0.2, w * 0.17, h * 0.16, width=0.1)


def measuring_body(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A through body with a measuring head, its plug and its plate."""
    cy = top + h * 0.78
    pipe_ends(pen, cx, cy, w, h * 0.2)
    pen.box(cx - w * 0.24, cy - h * 0.18, w * 0.48, h * 0.36)
    block(pen, cx - w * 0.2, top + h * 0.1, w * 0.32, h * 0.34, w * 0.1)
    pen.box(cx - w * 0.15, top + h * 0.26, w * 0.22, h * 0.12, width=1.0)
    pen.box(cx - w * 0.1, top, w * 0.12, h * 0.16)


def union(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A screwed union with its hexagon."""
    cy = top + h / 2
    pen.box(cx - w / 2, cy - h * 0.22, w, h * 0.44)
    for i in range(4):
        pen.line(
            (cx - w * 0.47 + i * w * 0.06, cy - h * 0.22), (cx - w * 0.49 + i * w * 0.06, cy + h * 0.22), width=0.8
        )
    for x, wide in ((-0.12, 0.24), (0.3, 0.2)):
        pen.box(cx + w * x, top + h * 0.08, w * wide, h * 0.84)
        for f in (0.36, 0.64):
            pen.line((cx + w * x, top + h * f), (cx + w * (x + wide), top + h * f), width=1.0)


def stub(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A flanged stub pipe."""
    tube(pen, cx, top + h * 0.2, w * 0.5, h * 0.8)
    flange(pen, cx, top, w, h * 0.5)


def cap(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Port caps with a ribbed edge."""
    shown = min(n, 3)
    each = w / shown
    for i in range(shown):
        x = cx - w / 2 + each * (i + 0.5)
        cylinder(pen, x, top + h * 0.1, each * 0.7, h * 0.8)
        for k in range(1, 7):
            a = x - each * 0.35 * math.cos(math.pi * k / 7)
            pen.line((a, top + h * 0.42), (a, top + h * 0.84), width=0.8)


def bent_pipe(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A quarter bend with a flange at the top."""
    x0, x1, y1 = cx - w * 0.3, cx + w * 0.42, top + h * 0.76
    way = [(x0, top + h * 0.12), (x0, top + h * 0.5), (x0 + w * 0.08, y1 - h * 0.06), (x0 + w * 0.24, y1), (x1, y1)]
    pen.line(*way, width=h * 0.24)
    pen.line(*way, width=h * 0.24 - 3, grey=255)
    pen.box(x0 - w * 0.2, top + h * 0.04, w * 0.4, h * 0.09)
    pen.oval(x1, y1, w * 0.04, h * 0.12)


def spray_pipe(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A pipe with spray holes; the jets are thin."""
    cy, t = top + h * 0.28, h * 0.24
    for i in range(6):
        x = cx - w * 0.36 + i * w * 0.145
        for lean in (-0.05, 0.05):
            pen.line((x, cy + t * 0.5), (x + w * lean, top + h * 0.95), width=0.7, grey=90)
    pen.box(cx - w / 2, cy - t / 2, w, t)
    pen.oval(cx + w / 2, cy, t * 0.25, t / 2)
    for i in range(6):
        pen.oval(cx - w * 0.36 + i * w * 0.145, cy + t * 0.2, 4, 3)


def nozzle(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Screw-in flat fan nozzles."""
    shown = min(n, 3)
    each = w / shown
    for i in range(shown):
        x = cx - w / 2 + each * (i + 0.5)
        pen.box(x - each * 0.16, top, each * 0.32, h * 0.4)
        for k in range(4):
            pen.line((x - each * 0.16, top + 4 + k * h * 0.09), (x + each * 0.16, top + 2 + k * h * 0.09), width=0.7)
        pen.box(x - each * 0.32, top + h * 0.38, each * 0.64, h * 0.28)
        pen.poly(
            (x - each * 0.22, top + h * 0.66),
            (x + each * 0.22, top + h * 0.66),
            (x + each * 0.1, top + h),
            (x - each * 0.1, top + h),
        )
