"""Rings: seals, gaskets, bearings, lock nuts, tab washers, circlips."""

from __future__ import annotations

from drawing.pen import TILT, Pen
from drawing.turned import bolt_circle, tube


def o_ring(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A thin round ring; several lie one over the other."""
    cord = max(4.0, min(9.0, w * 0.05))
    for i in reversed(range(min(n, 3))):
        cy = top + w / 2 * TILT + cord * 1.8 * i
        pen.disc(cx, cy, w / 2)
        pen.oval(cx, cy, w / 2 - cord, w / 2 * TILT - cord * 0.6)


def flat_gasket(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A flat ring with holes."""
    pen.disc(cx, top + w / 2 * TILT, w / 2)
    pen.disc(cx, top + w / 2 * TILT, w * 0.34)
    for x, y in bolt_circle(cx, top + w / 2 * TILT, w * 0.42, 6):
        pen.disc(x, y, max(2.0, w * 0.02), width=1.0)


def lip_seal(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A ring with a turned-in lip."""
    tube(pen, cx, top, w, min(h, w * TILT + w * 0.07), bore=0.86)
    pen.disc(cx, top + w / 2 * TILT + 2, w * 0.385, width=1.0)
    pen.disc(cx, top + w / 2 * TILT + 4, w * 0.35, width=1.5)


def bearing(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Outer ring, balls, inner ring; a pair stands one over the other."""
    each = h / min(n, 2)
    for i in reversed(range(min(n, 2))):
        y = top + each * i
        tube(pen, cx, y, w, max(each - 3, w * TILT + 4), bore=0.8)
        for x, by in bolt_circle(cx, y + w / 2 * TILT, w * 0.34, 12):
            pen.oval(x, by, w * 0.045, w * 0.03, width=1.0)
        pen.disc(cx, y + w / 2 * TILT, w * 0.28)
        pen.disc(cx, y + w / 2 * TILT, w * 0.22)


def lock_nut(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A slotted round nut."""
    tube(pen, cx, top, w, h, bore=0.66)
    for x, y in bolt_circle(cx, top + w / 2 * TILT, w * 0.45, 4):
        pen.box(x - w * 0.04, y - 2, w * 0.08, 6, width=1.0)


def tab_washer(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A thin ring with tabs round its edge."""
    cy = top + w / 2 * TILT
    for x, y in bolt_circle(cx, cy, w * 0.46, 14):
        pen.box(x - 3, y - 3, 6, 6, width=1.0)
    pen.disc(cx, cy, w * 0.45)
    pen.disc(cx, cy, w * 0.32)


def circlip(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """An open spring ring with two eyes."""
    cy = top + w / 2 * TILT
    pen.arc(cx, cy, w / 2, w / 2 * TILT, 100, 440)
    pen.arc(cx, cy, w * 0.43, w * 0.43 * TILT, 104, 436)
    for x in (cx - w * 0.08, cx + w * 0.08):
        pen.oval(x, cy + w * 0.44 * TILT, w * 0.05, w * 0.035)
