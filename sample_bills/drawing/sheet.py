"""One drawing: frame, title block, parts, balloons; gives back where each part is."""

from __future__ import annotations

from dataclasses import dataclass

from drawing import layout
from drawing.lines import DrawnLine
from drawing.pen import OVERSIZE, SHEET_PX, Pen

BALLOON_PX = 14.0
REACH = (
    (34, -26),
    (40, 0),
    (34, 26),
    (52, -40),
    (60, 0),
    (52, 40),
    (-40, -30),
    (0, -44),
    (-46, 0),
    (0, 44),
    (80, -56),
    (90, 0),
)


@dataclass(frozen=True)
class Title:
    """What the title block says."""

    model: str
    revision: str
    number: str
    name: str


def draw_sheet(
    title: Title, children: list[DrawnLine], plan: dict[str, list[list[str]]]
) -> tuple[Pen, dict[str, tuple[float, float]]]:
    """The sheet and, for each position, a point on the ink of its part in pixels."""
    pen = Pen()
    _frame(pen, title)
    placed = _place(pen, children, plan)
    for p in placed:
        p.draw(pen)
    points = {p.line.position: _point_on(p) for p in placed}
    for p in placed:
        _balloon(pen, p.line, points[p.line.position])
    return pen, points


def _place(pen: Pen, children: list[DrawnLine], plan: dict[str, list[list[str]]]) -> list[layout.Placed]:
    by_step = {c.step: c for c in children}
    axes, runs = plan.get("axis", []), plan.get("run", [])
    named = {e.partition(":")[0] for part in axes + runs for e in part}
    rest = [c for c in children if c.step not in named]
    left, top, right, bottom = layout.AREA
    wide = layout.AXIS_PX[len(axes) > 1] if rest or runs else (right - left) / max(1, len(axes))
    placed = []
    for i, entries in enumerate(axes):
        placed += layout.axis(entries, by_step, left + wide * (i + 0.5), min(wide, 480.0), pen)
    left += wide * len(axes)
    tall = min(290.0, (bottom - top) / max(1, len(runs)) * (0.6 if rest else 1.0))
    for i, entries in enumerate(runs):
        placed += layout.run(entries, by_step, (left, top + tall * i, right, top + tall * (i + 1)), pen)
    return placed + layout.rows(rest, (left, top + tall * len(runs), right, bottom))


def _point_on(p: layout.Placed) -> tuple[float, float]:
    """The right-most ink of the part at about a third of its height."""
    alone = Pen()
    p.draw(alone)
    ink = alone.image.point([255 if v < 128 else 0 for v in range(256)])
    box = ink.getbbox()
    for share in (0.3, 0.45, 0.15, 0.6, 0.8):
        y = round(box[1] + (box[3] - box[1]) * share)
        across = ink.crop((0, y, ink.width, y + 1)).getbbox()
        if across:
            return (across[2] - 2) / OVERSIZE, y / OVERSIZE
    raise ValueError(f"{p.line.position}: nothing drawn")


def _balloon(pen: Pen, line: DrawnLine, at: tuple[float, float]) -> None:
    words = f"{line.quantity}x" if line.quantity > 1 else ""
    dx, dy = next((r for r in REACH if _is_free(pen, at, r, bool(words))), REACH[0])
    x, y = at[0] + dx, at[1] + dy
    far = (dx * dx + dy * dy) ** 0.5
    pen.line(at, (x - dx / far * BALLOON_PX, y - dy / far * BALLOON_PX), width=1.0)
    pen.oval(at[0], at[1], 2.2, 2.2, fill=0)
    pen.oval(x, y, BALLOON_PX, BALLOON_PX, width=1.2)
    pen.text(x, y, line.step, 13 if len(line.step) < 3 else 11, "mm")
    if words:
        pen.text(x + BALLOON_PX + 3, y, words, 12, "lm")


def _is_free(pen: Pen, at: tuple[float, float], reach: tuple[int, int], words: bool) -> bool:
    x, y, r = at[0] + reach[0], at[1] + reach[1], BALLOON_PX + 3
    box = (x - r, y - r, x + r + (26 if words else 0), y + r)
    if box[0] < 30 or box[1] < 30 or box[2] > SHEET_PX[0] - 30 or box[3] > 880:
        return False
    crop = pen.image.crop([round(v * OVERSIZE) for v in box])
    return crop.getextrema()[0] > 60


def _frame(pen: Pen, title: Title) -> None:
    w, h = SHEET_PX
    pen.box(14, 14, w - 28, h - 28, fill=None, width=1.0)
    pen.box(24, 24, w - 48, h - 48, fill=None, width=2.5)
    x, y = w - 24 - 620, h - 24 - 84
    pen.box(x, y, 620, 84, width=2.0)
    pen.line((x + 150, y), (x + 150, y + 84))
    pen.line((x + 500, y), (x + 500, y + 84))
    pen.line((x + 150, y + 50), (x + 620, y + 50))
    pen.text(x + 12, y + 12, title.model, 24)
    pen.text(x + 12, y + 56, "not to scale", 13)
    pen.text(x + 162, y + 12, title.name[:38], 20 if len(title.name) < 28 else 16)
    pen.text(x + 162, y + 58, f"Drawing {title.model} / {title.number}", 15)
    pen.text(x + 512, y + 12, title.number, 22)
    pen.text(x + 512, y + 58, f"Rev. {title.revision}", 15)
