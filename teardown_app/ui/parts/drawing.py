"""The drawing of an assembly with flags that fill as parts go in; touch a flag, pinch to zoom."""

from __future__ import annotations

from typing import Any

from kivy.graphics import Color, Line, Rectangle
from kivy.properties import StringProperty
from kivy.uix.scatter import Scatter
from kivy.uix.stencilview import StencilView
from kivy.uix.widget import Widget

from teardown_app.ui.look.shapes import draw_mark, paints
from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.view import Drawing

FLAG_MM = 4.6
TOUCH_MM = 13.0


class Sheet(Scatter):
    """The paper: the picture, and flags on it in its own pixels."""

    file = StringProperty("")


class Flags(Widget):
    """Draws flags over the sheet, always the same size on the glass."""


class DrawingPane(StencilView):
    """Shows a drawing. `on_flag` tells which flag was touched."""

    file = StringProperty("")
    says = StringProperty("")
    look = StringProperty("")
    """Name of the palette that is on."""

    __events__ = ("on_flag",)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._drawing: Drawing | None = None

    def on_kv_post(self, _base: Any) -> None:
        """Binds once the looks are there."""
        self.ids.sheet.bind(transform=self._draw, size=self._draw)
        self.bind(look=self._draw)
        self.ids.paper.bind(size=self._fit)

    def on_flag(self, key: str) -> None:
        """A flag was touched; bound by whoever shows the drawing."""

    def show(self, drawing: Drawing | None) -> None:
        """Shows a drawing; the zoom stays while it is the same one."""
        self._drawing = drawing
        self.says = drawing.says if drawing else ""
        file = drawing.file if drawing else ""
        if file != self.file:
            self.file = file
            self._fit()
        self._draw()

    def _fit(self, *_: object) -> None:
        sheet = self.ids.sheet
        sheet.scale, sheet.pos = 1, (0, 0)
        sheet.size = self.ids.paper.size

    def picture_box(self) -> tuple[float, float, float, float]:
        """Where the picture lies in the sheet: x, y, width, height before zooming."""
        image = self.ids.picture
        width, height = image.norm_image_size
        return (image.center_x - width / 2, image.center_y - height / 2, width, height)

    def place_of(self, x: float, y: float) -> tuple[float, float]:
        """Where a point of the drawing (fractions from the top left) is in this pane now."""
        left, low, width, height = self.picture_box()
        inside = (left + x * width, low + (1 - y) * height)
        placed = self.ids.sheet.to_parent(*inside)
        return (placed[0], placed[1])

    def _draw(self, *_: object) -> None:
        flags = self.ids.flags
        flags.canvas.clear()
        if self._drawing is None:
            return
        size = FLAG_MM * theme.mm
        for flag in self._drawing.flags:
            x, y = self.place_of(flag.x, flag.y)
            flags.canvas.add(Color(*theme.plate))
            flags.canvas.add(Rectangle(pos=(x - size / 2, y - size / 2), size=(size, size)))
            flags.canvas.add(draw_mark(flag.mark, x - size / 2, y - size / 2, size, paints(theme)))
            if flag.chosen:
                flags.canvas.add(Color(*theme.accent))
                flags.canvas.add(
                    Line(rectangle=(x - size * 0.75, y - size * 0.75, size * 1.5, size * 1.5), width=0.5 * theme.mm)
                )

    def on_touch_up(self, touch: Any) -> bool:
        """A short touch near a flag is for the flag; others move and zoom the sheet."""
        moved = abs(touch.x - touch.ox) + abs(touch.y - touch.oy)
        if self.collide_point(*touch.pos) and moved < 3 * theme.mm:
            key = self._nearest(*self.ids.paper.to_local(*touch.pos))
            if key:
                self.dispatch("on_flag", key)
        return bool(super().on_touch_up(touch))

    def _nearest(self, x: float, y: float) -> str:
        best, found = (TOUCH_MM * theme.mm / 2) ** 2, ""
        for flag in self._drawing.flags if self._drawing else ():
            at = self.place_of(flag.x, flag.y)
            away = (at[0] - x) ** 2 + (at[1] - y) ** 2
            if away <= best:
                best, found = away, flag.key
        return found


load_looks(__file__)
