"""Plates, panels, door leaves, open frames, panes, strips."""

from __future__ import annotations

from drawing.boxes import SLANT, block, front_of
from drawing.pen import Pen
from drawing.turned import bolt_circle


def panel(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A thin upright sheet with corner screws; several stand one behind the other."""
    shown = min(n, 2)
    step = w * 0.14
    for i in reversed(range(shown)):
        x, wide = cx - w / 2 + step * i, w - step * (shown - 1)
        block(pen, x, top + (shown - 1 - i) * 8, wide - 6, h - 6 - (shown - 1) * 8, 6)
    _corners(pen, cx - w / 2, top + 4 + (shown - 1) * 8, w - step * (shown - 1) - 6, h - 10 - (shown - 1) * 8)


def _corners(pen: Pen, x: float, y: float, w: float, h: float) -> None:
    for fx in (0.06, 0.94):
        for fy in (0.08, 0.92):
            pen.oval(x + w * fx, y + h * fy, 3, 3, width=1.0)


def louvred(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A sheet with louvres and a fan opening."""
    panel(pen, cx, top, w, h)
    for i in range(6):
        y = top + h * (0.5 + i * 0.06)
        pen.line((cx - w * 0.36, y), (cx + w * 0.3, y), width=2)
    pen.oval(cx - w * 0.03, top + h * 0.28, h * 0.14, h * 0.14)


def plate(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A plate lying flat, with corner holes."""
    deep = min(h, w * 0.42)
    lean, thick = w * 0.22, max(5.0, deep * 0.12)
    a, b = (cx - w / 2, top + deep - thick), (cx + w / 2 - lean, top + deep - thick)
    c, d = (cx + w / 2, top), (cx - w / 2 + lean, top)
    pen.poly(a, b, c, (c[0], c[1] + thick), (b[0], b[1] + thick), (a[0], a[1] + thick))
    pen.line(b, (b[0], b[1] + thick))
    pen.poly(a, b, c, d)
    for u, v in ((0.08, 0.15), (0.92, 0.15), (0.08, 0.85), (0.92, 0.85)):
        pen.oval(a[0] + (b[0] - a[0]) * u + lean * v, a[1] - (a[1] - d[1]) * v, 5, 3, width=1.0)


def face_plate(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A plate lying flat with a large bore and its bolt circle."""
    plate(pen, cx, top, w, h)
    cy = top + min(h, w * 0.42) * 0.46
    pen.oval(cx, cy, w * 0.23, w * 0.11)
    pen.arc(cx, cy + 4, w * 0.22, w * 0.1, 195, 345, width=0.8)
    for x, y in bolt_circle(cx, cy, w * 0.27, 8):
        pen.oval(x, cy + (y - cy) * 1.55, 4, 2.5, width=1.0)


def door_leaf(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A rectangular door leaf with a rounded frame line and a window."""
    x, y, fw, fh, d = front_of(cx, top, w, h, 0.08)
    block(pen, x, y, fw, fh, d)
    y += d * SLANT
    pen.box(x + fw * 0.08, y + fh * 0.08, fw * 0.84, fh * 0.84, width=1.0)
    pen.box(x + fw * 0.33, y + fh * 0.33, fw * 0.34, fh * 0.34)


def open_frame(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A rectangular frame or gasket, open in the middle."""
    t = max(6.0, min(w, h) * 0.1)
    pen.box(cx - w / 2, top, w, h)
    pen.box(cx - w / 2 + t, top + t, w - 2 * t, h - 2 * t)


def pane(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A square pane of glass."""
    block(pen, cx - w / 2, top, w - 8, h - 6, 8)
    for shift in (0.0, 0.12):
        pen.line((cx - w * (0.3 - shift), top + h * 0.6), (cx + w * shift, top + h * 0.25), width=0.8)


def strip(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """Clamping strips with a row of holes."""
    shown = min(n, 4)
    tall = min(22.0, h / (shown + 0.5))
    for i in range(shown):
        y = top + i * h / shown
        block(pen, cx - w / 2, y, w - 8, tall - 5, 8)
        for k in range(8):
            pen.oval(cx - w * 0.45 + k * w * 0.125, y + tall * 0.55, 2.5, 2.5, width=1.0)


def comb(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A slotted support."""
    for k in range(min(n, 2)):
        y = top + k * h / 2
        tall = h / 2 * 0.8 if n > 1 else h * 0.8
        pen.box(cx - w / 2, y + tall * 0.55, w, tall * 0.45)
        for i in range(13):
            pen.box(cx - w / 2 + i * w / 13, y, w / 26, tall * 0.58, width=1.0)
