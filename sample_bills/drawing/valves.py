"""Valves, regulators, gauges, manifolds."""

from __future__ import annotations

import math

from drawing.boxes import block
from drawing.pen import Pen
from drawing.pipes import pipe_ends
from drawing.turned import cylinder


def diaphragm_valve(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Weir body with flanged bonnet and a round actuator."""
    cy = top + h * 0.8
    pipe_ends(pen, cx, cy, w, h * 0.2)
    pen.poly(
        (cx - w * 0.3, cy - h * 0.1),
        (cx - w * 0.18, cy - h * 0.26),
        (cx + w * 0.18, cy - h * 0.26),
        (cx + w * 0.3, cy - h * 0.1),
    )
    pen.box(cx - w * 0.26, cy - h * 0.34, w * 0.52, h * 0.08)
    cylinder(pen, cx, top + h * 0.06, w * 0.46, h * 0.42)
    pen.box(cx + w * 0.22, top + h * 0.3, w * 0.1, h * 0.07)
    cylinder(pen, cx, top, w * 0.1, h * 0.11)


def valve_panel(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """An upright board with two valves on one pipe."""
    pen.box(cx - w / 2, top, w, h)
    for fx, fy in ((0.05, 0.07), (0.95, 0.07), (0.05, 0.93), (0.95, 0.93)):
        pen.oval(cx - w / 2 + w * fx, top + h * fy, 3, 3, width=1.0)
    for dy in (-5, 5):
        pen.line((cx - w / 2, top + h * 0.68 + dy), (cx + w / 2, top + h * 0.68 + dy))
    for side in (-1, 1):
        diaphragm_valve(pen, cx + side * w * 0.22, top + h * 0.2, w * 0.34, h * 0.6)


def valve_island(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A row of valves on one base with a bus plug."""
    solenoid(pen, cx, top, w * 0.96, h * 0.8, 4)
    block(pen, cx - w / 2, top + h * 0.66, w * 0.92, h * 0.24, w * 0.08)
    pen.box(cx - w * 0.48, top + h * 0.84, w * 0.08, h * 0.12)


def hand_valve(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Ball valve with a lever."""
    cy = top + h * 0.7
    pipe_ends(pen, cx, cy, w, h * 0.28)
    pen.oval(cx, cy, w * 0.2, h * 0.26)
    pen.box(cx - w * 0.04, top + h * 0.2, w * 0.08, h * 0.25)
    pen.poly(
        (cx - w * 0.08, top + h * 0.1),
        (cx + w * 0.48, top),
        (cx + w * 0.48, top + h * 0.1),
        (cx - w * 0.08, top + h * 0.22),
    )


def check_valve(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A straight body with the flow arrow on it."""
    cy = top + h / 2
    pipe_ends(pen, cx, cy, w, h * 0.5)
    pen.box(cx - w * 0.26, top + h * 0.1, w * 0.52, h * 0.8)
    pen.line((cx - w * 0.18, cy), (cx + w * 0.18, cy))
    pen.line((cx + w * 0.08, cy - h * 0.14), (cx + w * 0.18, cy), (cx + w * 0.08, cy + h * 0.14))


def solenoid(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Block body, coil, plug; a row of them when there are more."""
    shown = min(n, 4)
    each = w / shown
    for i in range(shown):
        x = cx - w / 2 + each * i
        block(pen, x, top + h * 0.55, each * 0.62, h * 0.32, each * 0.22)
        block(pen, x + each * 0.08, top + h * 0.12, each * 0.46, h * 0.36, each * 0.18)
        pen.box(x + each * 0.18, top, each * 0.26, h * 0.2)
        pen.oval(x + each * 0.3, top + h * 0.78, each * 0.09, each * 0.09)


def manifold(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A long block with ports."""
    d = h * 0.5
    block(pen, cx - w / 2, top, w - d, h - d * 0.55, d)
    for i in range(4):
        x = cx - w / 2 + (w - d) * (0.14 + i * 0.24)
        pen.oval(x, top + h * 0.62, h * 0.12, h * 0.12)
        pen.oval(x + d * 0.5, top + d * 0.28, h * 0.1, h * 0.05, width=1.0)


def regulator(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Body, spring bonnet, knob and gauge."""
    cy = top + h * 0.74
    pipe_ends(pen, cx, cy, w, h * 0.2)
    cylinder(pen, cx, cy - h * 0.2, w * 0.46, h * 0.42)
    pen.poly(
        (cx - w * 0.2, cy - h * 0.1),
        (cx - w * 0.12, top + h * 0.2),
        (cx + w * 0.12, top + h * 0.2),
        (cx + w * 0.2, cy - h * 0.1),
    )
    cylinder(pen, cx, top, w * 0.26, h * 0.26)
    gauge(pen, cx + w * 0.36, top + h * 0.2, w * 0.26, h * 0.4)


def gauge(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A dial on a stem."""
    r = min(w / 2, h * 0.42)
    pen.box(cx - r * 0.16, top + r * 1.9, r * 0.32, max(4, h - r * 1.9))
    pen.oval(cx, top + r, r, r)
    pen.oval(cx, top + r, r * 0.84, r * 0.84, width=1.0)
    pen.line((cx, top + r), (cx + r * 0.5, top + r * 0.5))
    for i in range(7):
        t = math.radians(135 + 45 * i)
        pen.line(
            (cx + r * 0.7 * math.cos(t), top + r + r * 0.7 * math.sin(t)),
            (cx + r * 0.84 * math.cos(t), top + r + r * 0.84 * math.sin(t)),
            width=0.8,
        )
