"""Clips, clamps, feet, mounts, hinges, latches, handles."""

from __future__ import annotations

from drawing.fasteners import hex_nut, shank
from drawing.pen import TILT, Pen
from drawing.turned import cylinder, tube


def hose_clip(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Band with a worm screw."""
    tube(pen, cx, top + h * 0.1, w, h * 0.9, bore=0.93)
    pen.box(cx - w * 0.16, top + h * 0.5, w * 0.32, h * 0.3)
    for i in range(4):
        pen.line(
            (cx - w * 0.12 + i * w * 0.08, top + h * 0.5), (cx - w * 0.14 + i * w * 0.08, top + h * 0.8), width=0.8
        )


def hinged_clamp(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Two halves, a pivot and a wing nut."""
    tube(pen, cx, top + h * 0.2, w * 0.84, h * 0.8, bore=0.82)
    pen.box(cx + w * 0.36, top + h * 0.45, w * 0.1, h * 0.3)
    x, y = cx + w * 0.42, top + h * 0.25
    pen.poly((x, y + h * 0.2), (x - w * 0.08, y - h * 0.12), (x, y), (x + w * 0.08, y - h * 0.12))
    pen.oval(cx - w * 0.43, top + h * 0.6, w * 0.04, h * 0.07)


def foot(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Levelling foot: stud, nut, plate."""
    cylinder(pen, cx, top + h * 0.72, w, h * 0.28)
    shank(pen, cx, top, w * 0.2, h * 0.78)
    hex_nut(pen, cx, top + h * 0.5, w * 0.42, h * 0.2, bore=False)


def rubber_mount(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Rubber buffer with a stud at each end."""
    shank(pen, cx, top + h * 0.7, w * 0.24, h * 0.3)
    cylinder(pen, cx, top + h * 0.22, w, h * 0.58)
    pen.arc(cx, top + h * 0.5, w / 2, w / 2 * TILT, 10, 170, width=0.8)
    shank(pen, cx, top, w * 0.24, h * 0.22 + w * TILT / 2)


def caster(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A swivel wheel."""
    pen.box(cx - w * 0.4, top, w * 0.8, h * 0.1)
    pen.poly(
        (cx - w * 0.2, top + h * 0.1),
        (cx + w * 0.2, top + h * 0.1),
        (cx + w * 0.3, top + h * 0.66),
        (cx + w * 0.14, top + h * 0.66),
    )
    r = min(w * 0.36, h * 0.3)
    pen.oval(cx + w * 0.18, top + h - r, r, r)
    pen.oval(cx + w * 0.18, top + h - r, r * 0.35, r * 0.35)


def hinge(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Two leaves on a pin."""
    for side in (-1, 1):
        pen.box(cx - w * 0.46 if side < 0 else cx, top + h * 0.1, w * 0.46, h * 0.8)
        for f in (0.28, 0.72):
            pen.oval(cx + side * w * 0.28, top + h * f, 4, 4, width=1.0)
    for i in range(5):
        pen.box(cx - w * 0.07, top + i * h / 5, w * 0.14, h / 5)


def latch(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """An over-centre latch: base, bow, lever."""
    pen.box(cx - w * 0.46, top + h * 0.5, w * 0.5, h * 0.46)
    pen.line((cx - w * 0.2, top + h * 0.62), (cx + w * 0.36, top + h * 0.62), width=3)
    pen.line((cx - w * 0.2, top + h * 0.82), (cx + w * 0.36, top + h * 0.82), width=3)
    pen.box(cx + w * 0.32, top + h * 0.5, w * 0.16, h * 0.46)
    pen.poly(
        (cx - w * 0.3, top + h * 0.62),
        (cx + w * 0.18, top),
        (cx + w * 0.28, top + h * 0.12),
        (cx - w * 0.2, top + h * 0.8),
    )


def handle(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A bow handle or recessed grip."""
    pen.box(cx - w / 2, top, w, h)
    pen.box(cx - w * 0.38, top + h * 0.2, w * 0.76, h * 0.6)
    pen.line((cx - w * 0.38, top + h * 0.42), (cx + w * 0.38, top + h * 0.42))
