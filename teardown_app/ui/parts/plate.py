"""The plate: everything that can be touched. One corner is cut off, as on an engraved tag plate."""

from __future__ import annotations

from time import perf_counter
from typing import Any, ClassVar

from kivy.graphics.instructions import InstructionGroup
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.label import Label
from kivy.uix.widget import Widget

from teardown_app.ui.look.lettering import fitting_size
from teardown_app.ui.look.shapes import draw_mark, paints
from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.view import Step

AGAIN_S = 0.3
"""A second touch of the same plate within this time is a slip of a wet glove (common practice)."""


class Mark(Widget):
    """A state as a shape; empty draws nothing."""

    mark = StringProperty("")
    pale = BooleanProperty(False)
    look = StringProperty("")
    """Name of the palette that is on: bound in the `.kv`, which lets go of it when the widget is gone."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._group: InstructionGroup | None = None
        self.bind(mark=self._draw, pos=self._draw, size=self._draw, pale=self._draw, look=self._draw)

    def _draw(self, *_: object) -> None:
        if self._group is not None:
            self.canvas.remove(self._group)
        side = min(self.size)
        x, y = self.center_x - side / 2, self.center_y - side / 2
        self._group = draw_mark(self.mark, x, y, side, paints(theme, pale=self.pale))
        self.canvas.add(self._group)


class Words(Label):
    """Text in the app's type, cut with an ellipsis where it does not fit."""

    bold_type = BooleanProperty(False)


class Flow(Label):
    """Text that wraps; its height follows."""

    bold_type = BooleanProperty(False)


class Plate(ButtonBehavior, Widget):
    """A plate with words. `on_step` tells its step when it was touched and let go on it."""

    text = StringProperty("")
    mark = StringProperty("")
    held = ObjectProperty(None, allownone=True)
    filled = BooleanProperty(False)
    """The one thing to do next is filled with the accent; others have its outline."""
    ready = BooleanProperty(True)
    chosen = BooleanProperty(False)
    type_size = NumericProperty(0)
    """Wanted size of its words in pixels, 0 for the body's; they are made smaller until they fit."""
    words_size = NumericProperty(10)

    last_touch: ClassVar[tuple[str, float]] = ("", -AGAIN_S)
    """What was touched last and when: plates are made anew, a slip of the glove is one all the same."""

    __events__ = ("on_step",)

    def __init__(self, **kwargs: Any) -> None:
        self.again_s = AGAIN_S
        super().__init__(**kwargs)
        self.always_release = False

    def on_kv_post(self, _base: Any) -> None:
        """Binds once the looks are there."""
        words = self.ids.words
        for name in ("text", "size", "font_name"):
            words.fbind(name, self._fit_words)
        self.fbind("type_size", self._fit_words)

    def _fit_words(self, *_: object) -> None:
        words, wanted = self.ids.words, self.type_size or theme.body
        smaller = (theme.number * 0.75, theme.body, (theme.body + theme.note) / 2, theme.note, theme.note * 0.9)
        sizes = (wanted, *(one for one in smaller if one < wanted))
        room = (int(words.width), int(words.height))
        self.words_size = fitting_size(self.text, words.font_name, room, sizes)

    def show(self, step: Step | None) -> None:
        """Takes a step; none hides the plate."""
        self.held = step
        self.opacity = 1 if step else 0
        self.disabled = step is None
        self.text = step.says if step else ""
        self.mark = step.mark if step else ""
        self.ready = bool(step and step.ready)
        self.chosen = bool(step and step.chosen)

    def on_release(self) -> None:
        """Acts once; a second touch right after is ignored."""
        now, step = perf_counter(), self.held
        if step is None:
            return
        before, when = Plate.last_touch
        if self.again_s and step.says == before and now - when < self.again_s:
            return
        Plate.last_touch = (step.says, now)
        self.dispatch("on_step", step)

    def on_step(self, step: Step) -> None:
        """What the touched step is; bound by whoever shows the plate."""


load_looks(__file__)
