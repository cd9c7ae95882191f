"""Controllers, drives, fans, buttons, leads."""

from __future__ import annotations

import math

from drawing.boxes import block
from drawing.fasteners import hex_nut
from drawing.pen import Pen
from drawing.sensing import wavy_lead
from drawing.turned import cylinder


def fan(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A square fan."""
    side = min(w, h) * 0.9
    block(pen, cx - w / 2, top, side, side, side * 0.16)
    x, y, r = cx - w / 2 + side / 2, top + side / 2 + side * 0.088, side * 0.42
    pen.oval(x, y, r, r)
    pen.oval(x, y, r * 0.35, r * 0.35)
    for i in range(7):
        t = 2 * math.pi * i / 7
        pen.line(
            (x + r * 0.35 * math.cos(t), y + r * 0.35 * math.sin(t)),
            (x + r * 0.9 * math.cos(t + 0.4), y + r * 0.9 * math.sin(t + 0.4)),
        )


def controller(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A controller: display, keys, plugs."""
    d = w * 0.2
    block(pen, cx - w / 2, top, w - d, h - d * 0.55, d)
    y = top + d * 0.55
    tall = h - d * 0.55
    pen.box(cx - w * 0.42, y + tall * 0.12, w * 0.4, tall * 0.34)
    for i in range(3):
        for k in range(2):
            pen.box(cx + w * 0.04 + i * w * 0.075, y + tall * (0.14 + k * 0.18), w * 0.05, tall * 0.12, width=1.0)
    for i in range(4):
        pen.box(cx - w * 0.42 + i * w * 0.18, y + tall * 0.7, w * 0.13, tall * 0.18, width=1.0)


def drive_unit(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Drives, supplies, modules on a rail: narrow boxes with terminals and slots."""
    shown = min(n, 4)
    each = w / shown
    for i in range(shown):
        x, d = cx - w / 2 + i * each, min(each * 0.24, 26.0)
        wide, tall = each * 0.7, h - d * 0.55
        block(pen, x, top, wide, tall, d)
        y = top + d * 0.55
        for k in range(4):
            pen.oval(x + wide * (0.16 + 0.23 * k), y + tall * 0.1, 3, 3, width=1.0)
            pen.oval(x + wide * (0.16 + 0.23 * k), y + tall * 0.9, 3, 3, width=1.0)
        for k in range(5):
            pen.line(
                (x + wide * 0.2, y + tall * (0.3 + 0.1 * k)), (x + wide * 0.8, y + tall * (0.3 + 0.1 * k)), width=0.8
            )


def e_stop(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A mushroom button on its block."""
    block(pen, cx - w * 0.3, top + h * 0.55, w * 0.5, h * 0.34, w * 0.12)
    cylinder(pen, cx, top + h * 0.38, w * 0.44, h * 0.22)
    cylinder(pen, cx, top + h * 0.24, w * 0.3, h * 0.24)
    cylinder(pen, cx, top + h * 0.12, w * 0.8, h * 0.2)
    pen.half_dome(cx, top + h * 0.2, w * 0.4, h * 0.2)


def bar_ionizer(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A bar with points and a lead."""
    block(pen, cx - w / 2, top, w * 0.94, h * 0.34, w * 0.05)
    for i in range(9):
        x = cx - w * 0.45 + i * w * 0.105
        pen.poly((x - 4, top + h * 0.5), (x + 4, top + h * 0.5), (x, top + h * 0.72))
    wavy_lead(pen, cx + w * 0.42, top + h * 0.48, w * 0.05, h * 0.5)


def cable(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A lead with a connector or eye at each end."""
    way = [
        (cx - w * 0.4 + w * 0.8 * i / 20, top + h / 2 + h * 0.28 * math.sin(i / 20 * 2 * math.pi)) for i in range(21)
    ]
    pen.line(*way, width=7)
    pen.line(*way, width=4, grey=255)
    for x, y in (way[0], way[-1]):
        pen.box(x - w * 0.06, y - h * 0.14, w * 0.12, h * 0.28)
        pen.line((x - w * 0.02, y - h * 0.14), (x - w * 0.02, y + h * 0.14))


def display(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A panel with a screen."""
    d = w * 0.1
    block(pen, cx - w / 2, top, w - d, h - d * 0.55, d)
    pen.box(cx - w * 0.44, top + h * 0.14, w * 0.78, h * 0.66)
    pen.line(
        (cx - w * 0.36, top + h * 0.64),
        (cx - w * 0.16, top + h * 0.4),
        (cx, top + h * 0.5),
        (cx + w * 0.24, top + h * 0.26),
    )


def lamp(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A signal lamp tower."""
    for i in (3, 2, 1, 0):
        cylinder(pen, cx, top + h * 0.16 * i, w * 0.6, h * 0.26)
    pen.box(cx - w * 0.06, top + h * 0.72, w * 0.12, h * 0.2)
    pen.box(cx - w * 0.4, top + h * 0.9, w * 0.8, h * 0.08)


def gland(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A cable gland."""
    cylinder(pen, cx, top + h * 0.5, w * 0.6, h * 0.5)
    hex_nut(pen, cx, top + h * 0.4, w, h * 0.3, bore=False)
    hex_nut(pen, cx, top + h * 0.05, w * 0.8, h * 0.4)


def cable_tie(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A tie, closed to a loop."""
    r = min(w, h) * 0.4
    pen.oval(cx, top + h * 0.5, r, r, width=3)
    pen.box(cx + r * 0.7, top + h * 0.3, r * 0.5, r * 0.5)
    pen.line((cx + r, top + h * 0.3), (cx + r * 1.2, top), width=3)
