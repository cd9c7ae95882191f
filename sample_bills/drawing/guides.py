"""Guides, cylinders, grippers, chains, bellows."""

from __future__ import annotations

import math

from drawing.boxes import block
from drawing.pen import Pen


def rail(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Guide rails with counterbored holes."""
    shown = min(n, 2)
    for i in range(shown):
        y, tall = top + i * h / shown, h / shown * 0.8
        d = tall * 0.5
        block(pen, cx - w / 2, y, w - d, tall - d * 0.55, d)
        for k in range(9):
            pen.oval(cx - w * 0.46 + k * (w - d) / 9 + d * 0.5, y + d * 0.28, 5, 2.5, width=1.0)


def carriage(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Guide carriages."""
    shown = min(n, 2)
    each = w / shown
    for i in range(shown):
        x, d = cx - w / 2 + i * each, each * 0.3
        block(pen, x, top, each * 0.62, h - d * 0.55, d)
        pen.box(x + each * 0.2, top + h * 0.66, each * 0.22, h * 0.34)
        for u in (0.16, 0.46):
            pen.oval(x + each * u + d * 0.5, top + d * 0.28, 4, 2, width=1.0)


def cylinder_pneumatic(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A lying cylinder with rod, end caps and ports."""
    cy = top + h / 2
    pen.box(cx + w * 0.2, cy - h * 0.1, w * 0.3, h * 0.2)
    pen.box(cx + w * 0.44, cy - h * 0.18, w * 0.06, h * 0.36)
    pen.box(cx - w * 0.46, cy - h * 0.34, w * 0.66, h * 0.68)
    for x in (-0.5, 0.14):
        pen.box(cx + w * x, top + h * 0.06, w * 0.1, h * 0.88)
        pen.oval(cx + w * (x + 0.05), cy, h * 0.09, h * 0.09)


def chain(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """An energy chain in its bend."""
    t = h * 0.22
    upper = [(cx - w / 2 + i * w * 0.075, top + t / 2) for i in range(11)]
    bend = [
        (cx + w * 0.28 + h * 0.39 * math.cos(math.radians(a)), top + h / 2 + h * 0.39 * math.sin(math.radians(a)))
        for a in range(-75, 90, 25)
    ]
    lower = [(cx + w * 0.25 - i * w * 0.075, top + h - t / 2) for i in range(5)]
    for x, y in upper + bend + lower:
        pen.oval(x, y, w * 0.045, t / 2)


def bellows(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A folding bellows."""
    folds = 9
    for i in range(folds):
        x = cx - w / 2 + i * w / folds
        pen.poly(
            (x, top + h * 0.12),
            (x + w / folds / 2, top),
            (x + w / folds, top + h * 0.12),
            (x + w / folds, top + h * 0.88),
            (x + w / folds / 2, top + h),
            (x, top + h * 0.88),
        )
        pen.line((x + w / folds / 2, top), (x + w / folds / 2, top + h), width=0.8)


def finger(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Gripper fingers."""
    for i in range(min(n, 2)):
        s = 1 if i else -1
        x = cx + s * w * 0.24
        pen.poly(
            (x - s * w * 0.16, top),
            (x + s * w * 0.16, top),
            (x + s * w * 0.16, top + h),
            (x - s * w * 0.06, top + h),
            (x - s * w * 0.06, top + h * 0.86),
            (x + s * w * 0.04, top + h * 0.8),
            (x + s * w * 0.04, top + h * 0.3),
            (x - s * w * 0.16, top + h * 0.24),
        )
        pen.oval(x, top + h * 0.12, 4, 4)
