"""Where each part of an assembly stands on the sheet.

Axes: parts one over the other on a common centre line, apart from each other as they come off. Runs:
fittings side by side on one pipe. What is on neither stands in rows beside them.
"""

from __future__ import annotations

from dataclasses import dataclass

from drawing.fasteners import ring_of
from drawing.lines import DrawnLine
from drawing.nouns import FLOW, STANDING_ROUND, Shape, shape_of
from drawing.pen import TILT, Pen

AREA = (60.0, 60.0, 1540.0, 850.0)
"""Left, top, right, bottom of what may be drawn on."""
AXIS_PX = (480.0, 350.0)
"""Width of the only axis of a sheet, and of each of several."""
GAP_PX = 22.0


@dataclass
class Placed:
    """One part with its box on the sheet."""

    line: DrawnLine
    shape: Shape
    cx: float
    top: float
    w: float
    h: float
    ring_px: float = 0.0
    """Size of one screw when they stand on a bolt circle."""

    def draw(self, pen: Pen) -> None:
        """Puts the part on the sheet."""
        if self.ring_px:
            ring_of(self.shape, pen, self.cx, self.top, self.w, self.h, self.line.quantity, self.ring_px)
        else:
            self.shape(pen, self.cx, self.top, self.w, self.h, self.line.quantity)


def _named(entry: str, children: dict[str, DrawnLine]) -> tuple[DrawnLine, float]:
    step, _, wide = entry.partition(":")
    return children[step], float(wide or 0)


def axis(entries: list[str], children: dict[str, DrawnLine], cx: float, room: float, pen: Pen) -> list[Placed]:
    """Parts on one upright centre line, first at the top."""
    placed: list[Placed] = []
    for entry in entries:
        line, wide = _named(entry, children)
        placed.append(_on_axis(line, wide, placed[-1].w if placed else 190.0, cx))
    _spread(placed, room - 60)
    pen.centre_line((cx, AREA[1] - 20), (cx, AREA[3] + 10))
    return placed


def _on_axis(line: DrawnLine, wide: float, before: float, cx: float) -> Placed:
    shape, w, h = shape_of(line.description)
    if shape in STANDING_ROUND and line.quantity > 1:
        across = wide or before * 0.9
        return Placed(line, shape, cx, 0, across, (across - w * 0.7) * TILT + h * 0.7, ring_px=w * 0.7)
    k = wide / w if wide else 1.0
    return Placed(line, shape, cx, 0, w * k, h * k)


def _spread(placed: list[Placed], widest: float) -> None:
    room = AREA[3] - AREA[1] - GAP_PX * (len(placed) - 1)
    k = min(1.25, room / sum(p.h for p in placed), widest / max(p.w for p in placed))
    gap = (AREA[3] - AREA[1] - k * sum(p.h for p in placed)) / max(1, len(placed) - 1)
    gap = min(gap, 70.0)
    at = AREA[1] + (AREA[3] - AREA[1] - k * sum(p.h for p in placed) - gap * (len(placed) - 1)) / 2
    for p in placed:
        p.top, p.w, p.h, p.ring_px = at, p.w * k, p.h * k, p.ring_px * k
        at += p.h + gap


def run(
    entries: list[str], children: dict[str, DrawnLine], box: tuple[float, float, float, float], pen: Pen
) -> list[Placed]:
    """Fittings on one level pipe, drawn behind them."""
    left, top, right, bottom = box
    items = [_named(e, children)[0] for e in entries]
    sizes = [shape_of(i.description) for i in items]
    k = min(1.1, (right - left) / (sum(w for _, w, _ in sizes) + 60 * len(sizes)), (bottom - top) / 240)
    pitch = (right - left - k * sum(w for _, w, _ in sizes)) / len(sizes)
    bore = top + (bottom - top) * 0.6
    for dy in (-7, 7):
        pen.line((left, bore + dy), (right, bore + dy))
    placed, x = [], left + pitch / 2
    for item, (shape, w, h) in zip(items, sizes, strict=True):
        placed.append(Placed(item, shape, x + w * k / 2, bore - h * k * FLOW.get(shape, 0.6), w * k, h * k))
        x += w * k + pitch
    return placed


def rows(items: list[DrawnLine], box: tuple[float, float, float, float]) -> list[Placed]:
    """The rest, in rows, as large as they fit."""
    if not items:
        return []
    left, top, right, bottom = box
    for k in (1.5, 1.35, 1.2, 1.1, 1.0, 0.9, 0.8, 0.72, 0.64, 0.56, 0.5, 0.44, 0.38):
        shelves = _shelves(items, right - left, k)
        tall = sum(max(p.h for p in s) + 40 for s in shelves)
        if tall <= bottom - top:
            break
    spare = max(0.0, bottom - top - tall) / len(shelves)
    at = top
    for shelf in shelves:
        high = max(p.h for p in shelf)
        _stand(shelf, left, right, at + spare / 2 + 20, high)
        at += high + 40 + spare
    return [p for shelf in shelves for p in shelf]


def _shelves(items: list[DrawnLine], width: float, k: float) -> list[list[Placed]]:
    shelves: list[list[Placed]] = [[]]
    used = 0.0
    for item in items:
        shape, w, h = shape_of(item.description)
        grow = k * (1.25 if w < 60 else 1.0)
        if used + w * grow + 90 > width and shelves[-1]:
            shelves.append([])
            used = 0.0
        shelves[-1].append(Placed(item, shape, 0, 0, w * grow, h * grow))
        used += w * grow + 90
    return shelves


def _stand(shelf: list[Placed], left: float, right: float, at: float, high: float) -> None:
    gap = (right - left - sum(p.w for p in shelf)) / len(shelf)
    x = left + gap / 2 - 20
    for p in shelf:
        p.cx, p.top = x + p.w / 2, at + (high - p.h) / 2
        x += p.w + gap
