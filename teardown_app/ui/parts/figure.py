"""A plot on the glass: bands, lines, marks and words of a `figures.Figure`, drawn to fit the pane."""

from __future__ import annotations

from typing import Any

from kivy.core.text import Label as Lettering
from kivy.graphics import Color, Rectangle
from kivy.graphics import Line as Stroke
from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from teardown_app.figures.figure import BAD, DATA, GOOD, GUARD, LIMIT, MEAN, OTHER, UNSURE, Band, Figure, Line, Words
from teardown_app.ui.look.palette import Colour
from teardown_app.ui.look.shapes import draw_mark, paints
from teardown_app.ui.look.theme import BOLD, REGULAR, theme
from teardown_app.ui.parts.looks import load_looks

MARK_MM, EDGE_MM, REACH_MM = 6.0, 5.0, 7.0
STROKES_MM = {LIMIT: 0.9, DATA: 0.35, MEAN: 0.5, OTHER: 0.4}
"""Widths of lines by what they stand for."""
HATCHED = (BAD, GUARD)
"""Bands that are told by hatching as well as by colour: towards the limit, and beyond it."""
HATCH_MM = {BAD: 2.2, GUARD: 4.0}


class FigurePane(Widget):
    """Shows a plot. `on_band` tells which of its bands was touched."""

    __events__ = ("on_band",)

    look = StringProperty("")
    """Name of the palette that is on."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.figure: Figure | None = None

    def on_kv_post(self, _base: Any) -> None:
        """Binds once the looks are there."""
        self.bind(size=self._draw, pos=self._draw, look=self._draw)

    def on_band(self, number: int) -> None:
        """A band was touched; bound by whoever shows the plot."""

    def on_touch_up(self, touch: Any) -> bool:
        """A touch on a band, or within a glove's reach of its middle."""
        if self.figure is not None and self.collide_point(*touch.pos) and self.collide_point(touch.ox, touch.oy):
            number = self._nearest(touch.x, touch.y)
            if number >= 0:
                self.dispatch("on_band", number)
        return bool(super().on_touch_up(touch))

    def _nearest(self, x: float, y: float) -> int:
        best, found = (REACH_MM * theme.mm) ** 2, -1
        for number, band in enumerate(self.figure.bands if self.figure else ()):
            at = self.at((band.left + band.right) / 2, (band.low + band.high) / 2)
            away = (at[0] - x) ** 2 + (at[1] - y) ** 2
            if away <= best:
                best, found = away, number
        return found

    def show(self, figure: Figure | None) -> None:
        """Shows a plot; the same one is left as it is."""
        if figure != self.figure:
            self.figure = figure
            self._draw()

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Where a point of the plot is on the glass."""
        figure, edge = self.figure, EDGE_MM * theme.mm
        assert figure is not None
        across, up = (figure.right - figure.left) or 1.0, (figure.high - figure.low) or 1.0
        wide, tall = max(1.0, self.width - 2 * edge), max(1.0, self.height - 2 * edge)
        scales = [wide / across, tall / up]
        if figure.equal:
            scales = [min(scales)] * 2
        left = self.center_x - across * scales[0] / 2
        low = self.center_y - up * scales[1] / 2
        return left + (x - figure.left) * scales[0], low + (y - figure.low) * scales[1]

    def _draw(self, *_: object) -> None:
        self.canvas.clear()
        figure = self.figure
        if figure is None or self.width < 2 or self.height < 2:
            return
        for band in figure.bands:
            self._band(band)
        for line in figure.lines:
            self._line(line)
        size = MARK_MM * theme.mm
        for mark in figure.marks:
            x, y = self.at(mark.x, mark.y)
            self.canvas.add(draw_mark(mark.sign, x - size / 2, y - size / 2, size, paints(theme)))
            if mark.says:
                self._word(Words(mark.x, mark.y, mark.says), lift=size * 0.9)
        for word in figure.words:
            self._word(word)

    def _band(self, band: Band) -> None:
        (left, low), (right, high) = self.at(band.left, band.low), self.at(band.right, band.high)
        size = (right - left, high - low)
        self.canvas.add(Color(*_fill(band.role, band.share)))
        self.canvas.add(Rectangle(pos=(left, low), size=size))
        if band.role in HATCHED:
            self._hatch(left, low, right, high, HATCH_MM[band.role] * theme.mm)
        self.canvas.add(Color(*theme.ink))
        self.canvas.add(Stroke(rectangle=(left, low, *size), width=0.15 * theme.mm))

    def _hatch(self, left: float, low: float, right: float, high: float, gap: float) -> None:
        """Slanted strokes, so that a colour is never the only sign."""
        self.canvas.add(Color(*theme.ink))
        tall, x = high - low, left - (high - low)
        while x < right and gap > 1:
            foot, top = max(x, left), min(x + tall, right)
            if top > foot:
                points = [foot, low + (foot - x), top, low + (top - x)]
                self.canvas.add(Stroke(points=points, width=max(1.0, 0.12 * theme.mm)))
            x += gap

    def _line(self, line: Line) -> None:
        points = [part for x, y in line.points for part in self.at(x, y)]
        if len(points) < 4:
            return
        width = max(1.0, STROKES_MM.get(line.role, 0.35) * theme.mm / 2)
        self.canvas.add(Color(*_ink(line.role)))
        if line.dashed:
            for n in range(0, len(points) - 2, 2):
                self._dashes(points[n : n + 4], width)
            return
        self.canvas.add(Stroke(points=points, width=width, close=line.closed, joint="round"))

    def _dashes(self, ends: list[float], width: float) -> None:
        long = ((ends[2] - ends[0]) ** 2 + (ends[3] - ends[1]) ** 2) ** 0.5
        pieces = max(1, int(long / (1.6 * theme.mm)))
        for n in range(0, pieces, 2):
            share = (n / pieces, min(1.0, (n + 1) / pieces))
            points = [ends[k % 2] + s * (ends[2 + k % 2] - ends[k % 2]) for s in share for k in (0, 1)]
            self.canvas.add(Stroke(points=points, width=width))

    def _word(self, word: Words, lift: float = 0.0) -> None:
        size, face = (theme.head, BOLD) if word.large else (theme.body, REGULAR)
        lettering = Lettering(text=word.says, font_size=size, font_name=face)
        lettering.refresh()
        texture = lettering.texture
        if texture is None:
            return
        x, y = self.at(word.x, word.y)
        wide, tall = texture.size
        x -= {"left": 0.0, "right": wide}.get(word.anchor, wide / 2)
        x = min(max(x, self.x), max(self.x, self.right - wide))
        y = min(max(y + lift - tall / 2, self.y), max(self.y, self.top - tall))
        self.canvas.add(Color(*theme.ink))
        self.canvas.add(Rectangle(texture=texture, pos=(x, y), size=texture.size))


def _fill(role: str, share: float) -> Colour:
    """Colour of a band; heights run from the plate's colour to the accent."""
    if role == DATA:
        pairs = zip(tuple(theme.plate)[:3], tuple(theme.accent)[:3], strict=True)
        red, green, blue = (low + share * (high - low) for low, high in pairs)
        return (red, green, blue, 1.0)
    chosen = {GOOD: theme.safe, BAD: theme.stop, GUARD: theme.caution, UNSURE: theme.caution}.get(role, theme.line)
    red, green, blue, _ = tuple(chosen)
    return (red, green, blue, 0.55)


def _ink(role: str) -> Colour:
    return tuple(theme.quiet if role == OTHER else theme.accent if role == MEAN else theme.ink)


load_looks(__file__)
