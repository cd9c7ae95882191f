"""The pen: black lines and white faces on a sheet, drawn twice as large and reduced to four greys.

Holds nothing about parts. Coordinates are pixels of the finished sheet, from the top left.
"""

from __future__ import annotations

import math
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

SHEET_PX = (1600, 1000)
OVERSIZE = 2
TILT = 0.3
"""Height over width of a circle seen from obliquely above."""
GREYS = (0, 96, 176, 255)
Point = tuple[float, float]


FONT = Path(__file__).parents[2] / "assets" / "fonts" / "DejaVuSansCondensed.ttf"


class Pen:
    """Draws; what comes later hides what lies behind it."""

    def __init__(self, size: tuple[int, int] = SHEET_PX) -> None:
        self.size = size
        self.image = Image.new("L", (size[0] * OVERSIZE, size[1] * OVERSIZE), 255)
        self.draw = ImageDraw.Draw(self.image)

    def _p(self, points: list[Point]) -> list[Point]:
        return [(x * OVERSIZE, y * OVERSIZE) for x, y in points]

    def line(self, *points: Point, width: float = 1.5, grey: int = 0) -> None:
        """An open line through the points."""
        self.draw.line(self._p(list(points)), fill=grey, width=round(width * OVERSIZE), joint="curve")

    def poly(self, *points: Point, fill: int | None = 255, width: float = 1.5) -> None:
        """A closed face that hides what is behind it."""
        if fill is not None:
            self.draw.polygon(self._p(list(points)), fill=fill)
        self.line(*points, points[0], points[1], width=width)

    def box(self, x: float, y: float, w: float, h: float, fill: int | None = 255, width: float = 1.5) -> None:
        """An upright rectangle."""
        self.poly((x, y), (x + w, y), (x + w, y + h), (x, y + h), fill=fill, width=width)

    def arc(self, cx: float, cy: float, rx: float, ry: float, start: float, end: float, width: float = 1.5) -> None:
        """Part of an ellipse, degrees clockwise from the right."""
        steps = max(8, int((end - start) / 6))
        turns = [math.radians(start + (end - start) * i / steps) for i in range(steps + 1)]
        self.line(*[(cx + rx * math.cos(t), cy + ry * math.sin(t)) for t in turns], width=width)

    def oval(self, cx: float, cy: float, rx: float, ry: float, fill: int | None = 255, width: float = 1.5) -> None:
        """A whole ellipse."""
        turns = [math.radians(6 * i) for i in range(60)]
        self.poly(*[(cx + rx * math.cos(t), cy + ry * math.sin(t)) for t in turns], fill=fill, width=width)

    def half_dome(self, cx: float, base: float, r: float, height: float) -> None:
        """A dome standing on a circle seen from obliquely above."""
        over = [math.radians(180 + 6 * i) for i in range(31)]
        under = [math.radians(6 * i) for i in range(31)]
        upper = [(cx + r * math.cos(t), base + height * math.sin(t)) for t in over]
        lower = [(cx + r * math.cos(t), base + r * TILT * math.sin(t)) for t in under]
        self.poly(*upper, *lower)

    def disc(self, cx: float, cy: float, r: float, fill: int | None = 255, width: float = 1.5) -> None:
        """A circle seen from obliquely above."""
        self.oval(cx, cy, r, r * TILT, fill, width)

    def centre_line(self, a: Point, b: Point) -> None:
        """Long dash, short dash, thin: an axis."""
        length = math.dist(a, b) or 1.0
        ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
        at, long = 0.0, True
        while at < length:
            end = min(length, at + (18 if long else 4))
            self.line((a[0] + ux * at, a[1] + uy * at), (a[0] + ux * end, a[1] + uy * end), width=0.8, grey=90)
            at, long = end + 5, not long

    def text(self, x: float, y: float, words: str, size: float = 15, anchor: str = "la") -> None:
        """Words; anchor as Pillow names it."""
        font = ImageFont.truetype(str(FONT), round(size * OVERSIZE))
        self.draw.text((x * OVERSIZE, y * OVERSIZE), words, font=font, fill=0, anchor=anchor)

    def dark(self, x: float, y: float, near_px: int = 3) -> bool:
        """Whether there is ink within a few pixels."""
        n = near_px * OVERSIZE
        cx, cy = int(x * OVERSIZE), int(y * OVERSIZE)
        return self.image.crop((cx - n, cy - n, cx + n + 1, cy + n + 1)).getextrema()[0] < 100

    def save(self, path: Path) -> None:
        """Writes a palette picture of four greys, a few kilobytes."""
        small = self.image.resize(self.size, Image.Resampling.BOX)
        levels = small.point([min(range(4), key=lambda i: abs(GREYS[i] - v)) for v in range(256)])
        out = Image.frombytes("P", self.size, levels.tobytes())
        out.putpalette([v for g in GREYS for v in (g, g, g)])
        out.save(path, optimize=True, bits=2)
