"""Boxes seen obliquely, and cabinets, frames, brackets made of them."""

from __future__ import annotations

from drawing.pen import Pen

SLANT = 0.55
"""Rise of a receding edge over its run."""


def block(pen: Pen, x: float, y: float, w: float, h: float, d: float) -> None:
    """A box: front face w x h at the lower left, receding d to the upper right."""
    rise = d * SLANT
    pen.poly((x, y + rise), (x + d, y), (x + w + d, y), (x + w, y + rise))
    pen.poly((x + w, y + rise), (x + w + d, y), (x + w + d, y + h), (x + w, y + h + rise))
    pen.box(x, y + rise, w, h)


def front_of(cx: float, top: float, w: float, h: float, depth: float) -> tuple[float, float, float, float, float]:
    """Left, top, width, height of the front face and the depth, so that the whole box fits."""
    d = min(w, h) * depth
    return cx - w / 2, top, w - d, h - d * SLANT, d


def box(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1, depth: float = 0.35) -> None:
    """A plain box."""
    block(pen, *front_of(cx, top, w, h, depth))


def tray(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """An open shallow box."""
    x, y, fw, fh, d = front_of(cx, top, w, h, 0.5)
    rise = d * SLANT
    block(pen, x, y, fw, fh, d)
    pen.poly((x + 6, y + rise), (x + d, y + 4), (x + fw + d - 6, y + 4), (x + fw, y + rise), width=1.0)
    pen.line((x + d, y + 4), (x + d, y + rise), width=1.0)


def frame(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A welded frame of square tube on four feet."""
    x, y, fw, fh, d = front_of(cx, top, w, h * 0.94, 0.45)
    rise, t = d * SLANT, max(6.0, w * 0.035)
    for dx, dy in ((d, 0), (0, rise)):
        for sx in (x + dx, x + dx + fw - t):
            pen.box(sx, y + dy, t, fh)
            pen.box(sx - 2, y + dy + fh, t + 4, h * 0.05)
        for sy in (y + dy, y + dy + fh - t * 2):
            pen.box(x + dx, sy, fw, t)
    for sx in (x, x + fw - t):
        pen.poly((sx, y + rise), (sx + d, y), (sx + d + t, y), (sx + t, y + rise))


def bracket(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A bent angle with holes."""
    d, t, x = w * 0.3, 6, cx - w / 2
    block(pen, x, top, t, h * 0.86 - d * SLANT, d)
    block(pen, x, top + h * 0.86 - t - d * SLANT, w - d, t, d)
    for f in (0.3, 0.6):
        pen.oval(x + t + d * 0.5, top + h * f * 0.8, 3.5, 5, width=1.0)
        pen.oval(x + t + d * 0.5 + (w - d) * f, top + h * 0.86 - t - d * SLANT * 0.5, 5, 3, width=1.0)


def profile(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """An extruded profile: long, with slots along it."""
    x, y, tall, run = cx - w / 2, top + h * 0.3, h * 0.66, w * 0.86
    rise = h * 0.3
    for i in range(5):
        a = y + tall * i / 4
        pen.line((x + tall, a), (x + run + tall * 0.3, a - rise), width=1.0)
    pen.poly((x, y), (x + tall, y), (x + run + tall * 0.3, y - rise), (x + run - tall * 0.7, y - rise))
    pen.line((x + run + tall * 0.3, y - rise), (x + run + tall * 0.3, y + tall - rise))
    pen.box(x, y, tall, tall)
    pen.box(x + tall * 0.3, y + tall * 0.3, tall * 0.4, tall * 0.4, width=1.0)
    for i in (0, 1):
        pen.box(x + tall * 0.42, y + i * tall * 0.86, tall * 0.16, tall * 0.14, width=1.0)


def cabinet(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A cabinet with door, handle and louvres."""
    x, y, fw, fh, d = front_of(cx, top, w, h, 0.3)
    block(pen, x, y, fw, fh, d)
    y += d * SLANT
    pen.box(x + fw * 0.06, y + fh * 0.05, fw * 0.88, fh * 0.9, width=1.0)
    pen.box(x + fw * 0.84, y + fh * 0.42, fw * 0.04, fh * 0.14)
    for i in range(4):
        pen.line((x + fw * 0.2, y + fh * (0.76 + i * 0.04)), (x + fw * 0.6, y + fh * (0.76 + i * 0.04)), width=1.5)


def filter_mat(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A mat with a crossed weave."""
    x, y, fw, fh, d = front_of(cx, top, w, h, 0.15)
    block(pen, x, y, fw, fh, d)
    y += d * SLANT
    for i in range(1, 8):
        pen.line((x + fw * i / 8, y), (x + fw * i / 8, y + fh), width=0.7)
        pen.line((x, y + fh * i / 8), (x + fw, y + fh * i / 8), width=0.7)


def sheet_of_paper(pen: Pen, cx: float, top: float, w: float, h: float, n: int = 1) -> None:
    """A document with a turned corner."""
    x, fold = cx - w / 2, w * 0.25
    pen.poly((x, top), (x + w - fold, top), (x + w, top + fold), (x + w, top + h), (x, top + h))
    pen.poly((x + w - fold, top), (x + w, top + fold), (x + w - fold, top + fold))
    for i in range(4):
        pen.line((x + w * 0.15, top + h * (0.4 + i * 0.13)), (x + w * 0.8, top + h * (0.4 + i * 0.13)), width=1.0)
