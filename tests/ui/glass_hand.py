"""The same hand on the glass: every gesture is a real touch at a place of the window, or a scanner's burst."""

from __future__ import annotations

from kivy.uix.scrollview import ScrollView
from kivy.uix.widget import Widget

from teardown_app.ui.parts.plate import Plate
from teardown_app.ui.parts.rows import RowPlate
from teardown_app.ui.view import CHOICE, NUMBER, TEXT
from tests.ui.hands import Hand
from tests.ui.shop import DemoDesk
from tests.ui.stage import Stage

SCROLLED_S = 0.25
"""A pane that scrolls hands a touch on after 0.2 s, when it is sure that nobody swipes (Kivy 2.3)."""


class GlassHand(Hand):
    """Works through the window."""

    def __init__(self, desk: DemoDesk, stage: Stage) -> None:
        super().__init__(desk)
        self.stage = stage

    def touch(self, says: str) -> None:
        self._did(says)
        self._press(self.stage.plate(says))

    def take_back(self) -> None:
        self.touch("Take back")

    def who(self) -> None:
        self._did("who")
        self._press(self.stage.app.bench.ids.who)

    def row(self, text: str) -> None:
        self._did(text)
        bench = self.stage.app.bench
        key = next(one.key for one in self.view.rows if text in one.text)
        bench.rows.show_row(key)
        self.stage.frames(3)
        self.stage.touch(next(one for one in self.stage.widgets(RowPlate) if one.key == key))

    def scan(self, number: str) -> None:
        self._did(f"scan {number}")
        self.stage.wedge(number)

    def enter(self, text: str) -> None:
        field, pad = self.view.field, self.stage.app.bench.pad
        assert field, f"nothing is asked on {self.view.title}"
        self._did(f"{field.name}: {text}")
        words = [one for one in pad.walk() if isinstance(one, Plate) and one.text == text]
        if field.kind == CHOICE or (text in field.choices and words):
            self._press(words[0])
            return
        if field.kind == TEXT and field.choices:
            self._press(self.stage.plate("In own words"))
        if field.kind == NUMBER and field.unit:
            text = text.removesuffix(field.unit).strip()
        if field.kind == TEXT and any(sign not in "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.,-/ '" for sign in text):
            self.stage.wedge(text, enter=False)
            self._press(self.stage.plate_on_pad("OK"))
        else:
            self.stage.keys(text)

    def _press(self, widget: Widget) -> None:
        """Scrolls to a plate that is out of sight, then touches it."""
        parent, scrolls = widget.parent, False
        while parent is not None and parent is not self.stage.app.bench:
            if isinstance(parent, ScrollView):
                parent.scroll_to(widget, animate=False)
                scrolls = scrolls or parent.children[0].height > parent.height
                self.stage.frames(2)
            parent = parent.parent
        self.stage.touch(widget)
        if scrolls:
            self.stage.wait(SCROLLED_S)
