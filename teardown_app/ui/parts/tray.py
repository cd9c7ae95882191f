"""A picture with several labels on it: each outlined and numbered, with the shape of what it is.

A closed line goes, a thin one stays, a broken one is foreign or hard to read or left out; one that is refused is
struck through. The number stands in the list beside it too.
"""

from __future__ import annotations

from typing import Any

from kivy.core.text import Label as Text
from kivy.graphics import Color, Line, Rectangle
from kivy.properties import StringProperty
from kivy.uix.relativelayout import RelativeLayout

from teardown_app.ui.look.shapes import draw_mark, paints
from teardown_app.ui.look.theme import BOLD, theme
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.view import ACCEPT, HOLD, REJECT, TO_DO, UNSURE, Spot, Tray

BADGE_MM = 5.0
TOUCH_MM = 9.0


class TrayPane(RelativeLayout):
    """Shows the picture. `on_flag(key)` tells which label was touched."""

    file = StringProperty("")
    says = StringProperty("")
    look = StringProperty("")
    """Name of the palette that is on."""

    __events__ = ("on_flag",)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._tray: Tray | None = None

    def on_kv_post(self, _base: Any) -> None:
        """Binds once the looks are there."""
        self.ids.picture.bind(norm_image_size=self._draw, pos=self._draw, size=self._draw)
        self.bind(look=self._draw)

    def on_flag(self, key: str) -> None:
        """A label was touched; bound by whoever shows the pane."""

    def show(self, tray: Tray | None) -> None:
        """Shows a tray, or none."""
        self._tray = tray
        self.file, self.says = (tray.file, tray.says) if tray else ("", "")
        self._draw()

    def _box(self) -> tuple[float, float, float, float]:
        image = self.ids.picture
        width, height = image.norm_image_size
        left, low = image.x + (image.width - width) / 2, image.y + (image.height - height) / 2
        return (left, low, width, height)  # not by its centre, which follows a move only after this is drawn

    def _points(self, spot: Spot) -> list[tuple[float, float]]:
        left, low, width, height = self._box()
        return [(left + x * width, low + (1 - y) * height) for x, y in spot.corners]

    def _draw(self, *_: object) -> None:
        canvas = self.ids.marks.canvas
        canvas.clear()
        for spot in self._tray.spots if self._tray else ():
            if spot.corners:
                self._draw_spot(canvas, spot)

    def _draw_spot(self, canvas: Any, spot: Spot) -> None:
        corners = self._points(spot)
        flat = [part for corner in corners for part in corner]
        broken = spot.mark == UNSURE or spot.out
        thick = 0.7 if spot.mark in (ACCEPT, TO_DO) else 0.35
        for colour, extra in ((theme.plate, 0.5), (theme.ink, 0.0)):
            canvas.add(Color(*colour))
            if broken:
                for one in _dashes(corners, 2.4 * theme.mm):
                    canvas.add(Line(points=one, width=(0.4 + extra) * theme.mm, cap="none"))
            else:
                canvas.add(Line(points=flat, close=True, width=(thick + extra) * theme.mm, joint="miter"))
            if spot.mark in (REJECT, HOLD):
                canvas.add(Line(points=[*corners[0], *corners[2 % len(corners)]], width=(0.4 + extra) * theme.mm))
        self._draw_badge(canvas, spot, corners)

    def _draw_badge(self, canvas: Any, spot: Spot, corners: list[tuple[float, float]]) -> None:
        """Its number and its shape, on a plate over the middle."""
        side = BADGE_MM * theme.mm
        text = Text(text=spot.number, font_name=BOLD, font_size=side * 0.8)
        text.refresh()
        wide = text.texture.width + side * 1.3
        x = sum(one[0] for one in corners) / len(corners) - wide / 2
        y = sum(one[1] for one in corners) / len(corners) - side / 2
        canvas.add(Color(*theme.plate))
        canvas.add(Rectangle(pos=(x - 2, y - 1), size=(wide + 4, side + 2)))
        canvas.add(draw_mark(spot.mark, x, y, side, paints(theme)))
        canvas.add(Color(*theme.ink))
        at = (x + side * 1.15, y + (side - text.texture.height) / 2)
        canvas.add(Rectangle(texture=text.texture, pos=at, size=text.texture.size))

    def on_touch_up(self, touch: Any) -> bool:
        """The label nearest to the finger, if it is near enough."""
        if self._tray is None or not self.collide_point(*touch.pos) or not self.collide_point(touch.ox, touch.oy):
            return bool(super().on_touch_up(touch))
        here = self.to_local(*touch.pos)
        near = [(self._away(spot, here), spot.key) for spot in self._tray.spots if spot.corners]
        away, key = min(near, default=(1e9, ""))
        if away <= TOUCH_MM * theme.mm:
            self.dispatch("on_flag", key)
        return True

    def _away(self, spot: Spot, here: tuple[float, float]) -> float:
        """How far the finger is from a label; 0 on it."""
        xs, ys = zip(*self._points(spot), strict=True)
        across = max(min(xs) - here[0], 0, here[0] - max(xs))
        up = max(min(ys) - here[1], 0, here[1] - max(ys))
        return float((across**2 + up**2) ** 0.5)


def _dashes(corners: list[tuple[float, float]], long: float) -> list[list[float]]:
    """A broken line round a label: strokes and gaps of one length."""
    strokes = []
    for (x, y), (to_x, to_y) in zip(corners, [*corners[1:], corners[0]], strict=True):
        far = max(1e-6, ((to_x - x) ** 2 + (to_y - y) ** 2) ** 0.5)
        count = max(1, round(far / (2 * long)))
        for n in range(count):
            a, b = n / count, (n + 0.5) / count
            strokes.append([x + (to_x - x) * a, y + (to_y - y) * a, x + (to_x - x) * b, y + (to_y - y) * b])
    return strokes


load_looks(__file__)
