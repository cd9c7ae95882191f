"""The camera's pane: what the camera sees now, outlines of what was read, how the camera stands, and questions.

The picture is asked for fifteen times a second while it is shown, the newest one is put into a texture that is kept.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.clock import Clock
from kivy.graphics import Color, Line, Rectangle
from kivy.graphics.instructions import InstructionGroup
from kivy.graphics.texture import Texture
from kivy.properties import BooleanProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from teardown_app.ui.aiming import aimed_at
from teardown_app.ui.camera import Frame
from teardown_app.ui.label_reader import Label, Seen
from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.card import keep_as_many
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.parts.plate import Plate
from teardown_app.ui.view import Live, Step

EVERY_S = 1 / 15
MARK_MM = 1.5, 4.0
"""From where to where the strokes of the mark go, from the middle of the picture."""


class Eye(Widget):
    """The picture itself; black while there is none."""

    mirrored = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._texture: Texture | None = None
        self._shown = 0
        self._seen: Seen | None = None
        with self.canvas:
            self._paint = Color(0, 0, 0, 0)
            self._box = Rectangle()
        self._lines = InstructionGroup()
        self.canvas.add(self._lines)
        self.bind(pos=self._lay, size=self._lay, mirrored=self._turn)

    def show(self, frame: Frame | None, seen: Seen | None) -> None:
        """Shows a picture with outlines; one that is shown already costs nothing."""
        if frame is None:
            self._paint.a = 0
            self._shown = 0
            self._outline(None)
            return
        first = not self._shown
        if frame.number != self._shown:
            self._shown = frame.number
            self._put(frame)
        if first or seen is not self._seen:
            self._outline(seen)

    def _put(self, frame: Frame) -> None:
        if self._texture is None or tuple(self._texture.size) != frame.small_size:
            self._texture = Texture.create(size=frame.small_size, colorfmt="rgb")
            self._box.texture = self._texture
            self._turn()
            self._lay()
        self._texture.blit_buffer(frame.small, colorfmt="rgb", bufferfmt="ubyte")
        self._paint.rgba = (1, 1, 1, 1)

    def _turn(self, *_: object) -> None:
        """The topmost row comes first; a front camera shows what a mirror would."""
        left, right = (1, 0) if self.mirrored else (0, 1)
        self._box.tex_coords = (left, 1, right, 1, right, 0, left, 0)
        self._outline(self._seen)

    def _lay(self, *_: object) -> None:
        """As large as fits, its sides as they are."""
        wide, high = self._texture.size if self._texture is not None else (4, 3)
        scale = min(self.width / wide, self.height / high)
        self._box.size = (wide * scale, high * scale)
        left, low = self.x + (self.width - wide * scale) / 2, self.y + (self.height - high * scale) / 2
        self._box.pos = (left, low)
        self._outline(self._seen)

    def _outline(self, seen: Seen | None) -> None:
        """A closed line round what is ours, thick round what is aimed at; a broken one round what is foreign or was
        not read. In the middle the mark."""
        self._seen = seen
        self._lines.clear()
        if not self._paint.a:
            return
        self._draw_mark()
        if seen is None:
            return
        aimed = aimed_at(seen)
        for label in (*seen.labels, *seen.unread):
            broken = {} if label.ours else {"dash_length": 6, "dash_offset": 5}
            for colour, thick in ((theme.over_accent, 0.7), (theme.accent, 0.35)):
                self._lines.add(Color(*colour))
                width = 1.0 if broken or label not in aimed else thick * theme.mm
                self._lines.add(Line(points=self._points(label), close=True, width=width, joint="miter", **broken))

    def _points(self, label: Label) -> list[float]:
        (left, low), (wide, high) = self._box.pos, self._box.size
        return [
            part
            for x, y in label.corners
            for part in (left + (1 - x if self.mirrored else x) * wide, low + (1 - y) * high)
        ]

    def _draw_mark(self) -> None:
        """Four strokes towards the middle of the picture, which stays free."""
        for colour, thick in ((theme.over_accent, 0.5), (theme.accent, 0.25)):
            self._lines.add(Color(*colour))
            for across, up in ((1, 0), (-1, 0), (0, 1), (0, -1)):
                points = [part for far in MARK_MM for part in self._from_middle(across * far, up * far)]
                self._lines.add(Line(points=points, width=thick * theme.mm, cap="none"))

    def _from_middle(self, across: float, up: float) -> tuple[float, float]:
        """A point so many millimetres of the glass from the middle of the picture."""
        (left, low), (wide, high) = self._box.pos, self._box.size
        return left + wide / 2 + across * theme.mm, low + high / 2 + up * theme.mm


class LivePane(BoxLayout):
    """The pane. `on_step` tells what was touched."""

    says = StringProperty("")
    mark = StringProperty("")
    pictured = BooleanProperty(False)
    stepped = BooleanProperty(False)
    tall = BooleanProperty(True)
    """False on a glass that stands upright, where the card beneath needs the room."""

    __events__ = ("on_step",)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.frame: Callable[[], Frame | None] = lambda: None
        self.outlines: Callable[[], Seen | None] = lambda: None
        self._running: Any = None

    def on_step(self, step: Step) -> None:
        """A plate was touched; bound by whoever shows the pane."""

    def show(self, live: Live | None) -> None:
        """Shows how the camera stands; looks at its pictures while there are some."""
        self.says, self.mark = (live.says, live.mark) if live else ("", "")
        self.pictured = bool(live and live.pictured)
        self.ids.eye.mirrored = bool(live and live.mirrored)
        steps = live.steps if live else ()
        self.stepped = bool(steps)
        box = self.ids.steps
        keep_as_many(box, len(steps), self._plate)
        for plate, step in zip(box.children[::-1], steps, strict=True):
            plate.show(step)
        self._run(self.pictured)

    def _plate(self) -> Plate:
        plate = Plate()
        plate.bind(on_step=lambda _, step: self.dispatch("on_step", step))
        return plate

    def _run(self, on: bool) -> None:
        if on and self._running is None:
            self._running = Clock.schedule_interval(self._look, EVERY_S)
            self._look(0)
        elif not on:
            self.forget()

    def _look(self, _elapsed: float) -> None:
        self.ids.eye.show(self.frame(), self.outlines())

    def forget(self) -> None:
        """Leaves nothing scheduled and shows no picture."""
        if self._running is not None:
            self._running.cancel()
            self._running = None
        self.ids.eye.show(None, None)


load_looks(__file__)
