"""The card of the thing in hand: what it is from two metres, whether it is all right, facts, pictures."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.properties import BooleanProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.image import AsyncImage
from kivy.uix.layout import Layout
from kivy.uix.scrollview import ScrollView
from kivy.uix.widget import Widget

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

    __events__ = ("on_step",)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._card: Card | None = None

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
        plate = Plate()
        plate.bind(on_step=lambda _, touched: self.dispatch("on_step", touched))
        return plate


load_looks(__file__)
