"""A number on the tag pad, one cell a character; the places to look at are framed, filled and have a mark beneath."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from teardown_app.domain.tags.tag_form import LENGTH
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.parts.plate import Words

GROUPS, MOST = (1, 5, 9), 14
"""Letter, incarnation, counter, check: a line stands before each of the last three. More than `MOST` are not shown."""


class Cell(Words):
    """One character."""

    wrong = BooleanProperty(False)
    first = BooleanProperty(False)
    """First of its group."""


class Cells(BoxLayout):
    """The characters of a number; more than ten are shown too, for then one is too many."""

    many = NumericProperty(LENGTH)
    text = StringProperty("")

    def show(self, text: str, wrong: tuple[int, ...]) -> None:
        """Shows a number as far as it was typed."""
        text = text[:MOST]
        self.text, self.many = text, max(LENGTH, len(text))
        cells: list[Any] = self.children[::-1]
        for _ in range(self.many - len(cells)):
            self.add_widget(Cell())
        for cell in cells[self.many :]:
            self.remove_widget(cell)
        for place, cell in enumerate(self.children[::-1]):
            cell.text = text[place : place + 1]
            cell.wrong = place in wrong
            cell.first = place in GROUPS


load_looks(__file__)
