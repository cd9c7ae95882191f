"""A photograph that is being marked: a touch sets a ring, a stroke draws an arrow to where it ends."""

from __future__ import annotations

from typing import Any

from kivy.graphics import Color, Line
from kivy.properties import StringProperty
from kivy.uix.relativelayout import RelativeLayout

from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.view import Photo, Ring

STROKE_MM = 8.0
RING_MM = 5.0


class PhotoPane(RelativeLayout):
    """Shows a photograph with its marks. `on_ring(x, y, from_x, from_y)` tells a new one."""

    file = StringProperty("")
    says = StringProperty("")

    __events__ = ("on_ring",)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._photo: Photo | None = None

    def on_kv_post(self, _base: Any) -> None:
        """Binds once the looks are there."""
        self.ids.picture.bind(norm_image_size=self._draw, pos=self._draw, size=self._draw)

    def on_ring(self, x: float, y: float, from_x: float, from_y: float) -> None:
        """A mark was set; bound by whoever shows the pane."""

    def show(self, photo: Photo | None) -> None:
        """Shows a photograph, or none."""
        self._photo = photo
        self.file, self.says = (photo.file, photo.says) if photo else ("", "")
        self._draw()

    def _box(self) -> tuple[float, float, float, float]:
        image = self.ids.picture
        width, height = image.norm_image_size
        return (image.center_x - width / 2, image.center_y - height / 2, width, height)

    def _draw(self, *_: object) -> None:
        canvas = self.ids.marks.canvas
        canvas.clear()
        left, low, width, height = self._box()
        for ring in self._photo.rings if self._photo else ():
            x, y = left + ring.x * width, low + (1 - ring.y) * height
            for colour, thick in ((theme.over_accent, 1.1), (theme.stop, 0.6)):
                canvas.add(Color(*colour))
                canvas.add(self._line(ring, x, y, thick))

    def _line(self, ring: Ring, x: float, y: float, thick: float) -> Line:
        left, low, width, height = self._box()
        if ring.from_x < 0:
            return Line(circle=(x, y, RING_MM * theme.mm), width=thick * theme.mm)
        foot = (left + ring.from_x * width, low + (1 - ring.from_y) * height)
        return Line(points=[*foot, x, y], width=thick * theme.mm)

    def on_touch_up(self, touch: Any) -> bool:
        """A mark where the finger was lifted."""
        if self._photo is None or not self.collide_point(*touch.pos) or not self.collide_point(touch.ox, touch.oy):
            return bool(super().on_touch_up(touch))
        x, y = self._fraction(*touch.pos)
        from_x, from_y = self._fraction(touch.ox, touch.oy)
        if not (0 <= x <= 1 and 0 <= y <= 1):
            return True
        far = abs(touch.x - touch.ox) + abs(touch.y - touch.oy) > STROKE_MM * theme.mm
        self.dispatch("on_ring", x, y, *((from_x, from_y) if far else (-1.0, -1.0)))
        return True

    def _fraction(self, x: float, y: float) -> tuple[float, float]:
        here = self.to_local(x, y)
        left, low, width, height = self._box()
        return ((here[0] - left) / max(1, width), 1 - (here[1] - low) / max(1, height))


load_looks(__file__)
