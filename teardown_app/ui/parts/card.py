"""The card of the thing in hand: what it is from two metres, whether it is all right, facts, pictures."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.image import AsyncImage
from kivy.uix.layout import Layout
from kivy.uix.scrollview import ScrollView
from kivy.uix.widget import Widget

from teardown_app.ui.look.lettering import fitting_size
from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.parts.plate import Plate
from teardown_app.ui.view import Card, Fact, Step


class FactLine(BoxLayout):
    """One fact: its name, what it says, a mark where it is good or bad."""

    name = StringProperty("")
    says = StringProperty("")
    mark = StringProperty("")


class Picture(AsyncImage):
    """A photograph."""


def keep_as_many(box: Layout, count: int, make: Callable[[], Widget]) -> None:
    """Leaves so many widgets in a box; those that are there are used again, for making one is slow."""
    for widget in box.children[: max(0, len(box.children) - count)]:
        box.remove_widget(widget)
    for _ in range(count - len(box.children)):
        box.add_widget(make())


class CardPane(ScrollView):
    """Shows a card. `on_step` tells a touched plate of the card."""

    far = StringProperty("")
    head = StringProperty("")
    mark = StringProperty("")
    word = StringProperty("")
    pictured = BooleanProperty(False)
    far_size = NumericProperty(10)

    __events__ = ("on_step",)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._card: Card | None = None

    def on_kv_post(self, _base: Any) -> None:
        """Binds once the looks are there."""
        self.ids.far.bind(size=self._fit_far, text=self._fit_far)

    def _fit_far(self, words: Any, _: object) -> None:
        """As large as can be read from two metres, and as small as it has to be to stay on one line."""
        sizes = tuple(theme.far * part / 10 for part in range(10, 3, -1))
        room = (int(words.width), int(words.height * 1.4))  # capitals reach neither edge of their line
        self.far_size = fitting_size(words.text, words.font_name, room, sizes, 1)

    def on_step(self, step: Step) -> None:
        """A plate of the card was touched; bound by whoever shows it."""

    def show(self, card: Card) -> None:
        """Shows a card; what did not change is left as it is."""
        if card == self._card:
            return
        old, self._card = self._card, card
        self.far, self.head, self.mark, self.word = card.far, card.head, card.mark, card.word
        if old is None or old.facts != card.facts:
            self._show_facts(card.facts)
        if old is None or old.photos != card.photos:
            self._show_pictures(card.photos)
        if old is None or old.steps != card.steps:
            self._show_steps(card.steps)
        if old is None or old.head != card.head:
            self.scroll_y = 1

    def _show_facts(self, facts: tuple[Fact, ...]) -> None:
        box = self.ids.facts
        keep_as_many(box, len(facts), FactLine)
        for line, fact in zip(box.children[::-1], facts, strict=True):
            line.name, line.says, line.mark = fact.name, fact.says, fact.mark

    def _show_pictures(self, files: tuple[str, ...]) -> None:
        box = self.ids.pictures
        box.clear_widgets()
        for file in files[:4]:
            box.add_widget(Picture(source=file))
        self.pictured = bool(files)

    def _show_steps(self, steps: tuple[Step, ...]) -> None:
        box = self.ids.steps
        keep_as_many(box, len(steps), self._plate)
        for plate, step in zip(box.children[::-1], steps, strict=True):
            plate.show(step)

    def _plate(self) -> Plate:
        plate = Plate(type_size=theme.number * 0.7)
        plate.bind(on_step=lambda _, touched: self.dispatch("on_step", touched))
        return plate


load_looks(__file__)
