"""The card of the thing in hand: what it is from two metres, whether it is all right, facts, pictures."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.image import AsyncImage
from kivy.uix.scrollview import ScrollView

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
        box.clear_widgets()
        for fact in facts:
            box.add_widget(FactLine(name=fact.name, says=fact.says, mark=fact.mark))

    def _show_pictures(self, files: tuple[str, ...]) -> None:
        box = self.ids.pictures
        box.clear_widgets()
        for file in files[:4]:
            box.add_widget(Picture(source=file))
        self.pictured = bool(files)

    def _show_steps(self, steps: tuple[Step, ...]) -> None:
        box = self.ids.steps
        box.clear_widgets()
        for step in steps:
            plate = Plate()
            plate.show(step)
            plate.bind(on_step=lambda _, touched: self.dispatch("on_step", touched))
            box.add_widget(plate)


load_looks(__file__)
