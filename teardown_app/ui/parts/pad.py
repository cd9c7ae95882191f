"""Pads of our own: a tag always can be typed, whatever keyboard the system has. Numbers, letters, PIN, choices.

Given a field it shows the keys for it; `on_entered(name, text)` tells what was entered, `on_draft`
what stands there so far. A choice of a field with keys is a unit (number) or a word (letters).
"""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from teardown_app.domain.tag import ALPHABET
from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.parts.plate import Plate
from teardown_app.ui.view import CHOICE, NUMBER, PIN, TAG, TEXT, Field, Step

BACK, DONE, OWN = "back", "done", "own"

KEYS = {
    TAG: ALPHABET,
    NUMBER: "1234567890.-",
    PIN: "1234567890",
    TEXT: "1234567890QWERTYUIOPASDFGHJKL'ZXCVBNM,./- ",
}
COLUMNS = {TAG: 9, NUMBER: 3, PIN: 3, TEXT: 10, CHOICE: 1}
WIDE = {NUMBER: 7, PIN: 6}
LONGEST = 300


class Pad(BoxLayout):
    """Keys for one field, and what was entered so far."""

    asks = StringProperty("")
    hint = StringProperty("")
    shown = StringProperty("")
    unit = StringProperty("")
    only_choices = BooleanProperty(False)
    key_gap = NumericProperty(3)
    bar_mm = NumericProperty(0)

    __events__ = ("on_entered", "on_draft")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._field: Field | None = None
        self._text = ""
        self._typing = False

    def on_entered(self, name: str, text: str) -> None:
        """A field was entered; bound by whoever shows the pad."""

    def on_draft(self, name: str, text: str) -> None:
        """Something was typed that is not entered yet."""

    @property
    def field(self) -> Field | None:
        """The field whose keys are shown."""
        return self._field

    @property
    def text(self) -> str:
        """What stands there so far."""
        return self._text

    def show(self, field: Field | None) -> None:
        """Shows the keys for a field; what was typed stays while it is the same field."""
        old, self._field = self._field, field
        if field is None:
            if old is not None:
                self.ids.key_grid.clear_widgets()
                self.ids.choices.clear_widgets()
                self._text = ""
            return
        if old is None or (old.name, old.asks, old.kind, old.choices) != (
            field.name,
            field.asks,
            field.kind,
            field.choices,
        ):
            self._typing = bool(field.draft)
            self._lay_keys(field)
            self._text, self.unit = field.draft, field.unit
        self.asks, self.hint, self.bar_mm = field.asks, field.hint, field.bar_mm
        self._say()

    def type(self, text: str) -> None:
        """Characters from a keyboard or a scanner."""
        if self._field is not None and self._field.kind != CHOICE:
            if self._field.kind == TEXT and not self._typing:
                self._own_words()
            known = "".join(sign for sign in text if sign.isprintable())
            if self._field.kind in (TAG, TEXT):
                known = known.upper() if self._field.kind == TAG else known
            self._set((self._text + known)[:LONGEST])

    def take_off(self, count: int) -> None:
        """Takes the last characters back out: they were a scan, not typing."""
        self._set(self._text[: max(0, len(self._text) - count)])

    def back(self) -> None:
        """Takes the last character away."""
        self._set(self._text[:-1])

    def done(self) -> None:
        """What stands there is entered."""
        field = self._field
        if field is None or field.kind == CHOICE:
            return
        text = self._text.strip()
        if text or field.may_be_empty:
            self._enter(f"{text} {self.unit}".strip() if field.kind == NUMBER and self.unit else text)

    def _lay_keys(self, field: Field) -> None:
        keys, choices = self.ids.key_grid, self.ids.choices
        keys.clear_widgets()
        choices.clear_widgets()
        words = field.choices if field.kind != TEXT or not self._typing else ()
        for text in words:
            choices.add_widget(self._key(text, "choose", text))
        self.only_choices = field.kind == CHOICE or (field.kind == TEXT and bool(words))
        if self.only_choices:
            if field.kind == TEXT:
                choices.add_widget(self._key("In own words …", OWN))
            return
        few = field.kind in WIDE
        self._set_columns()
        self.key_gap = 3 if few else 1
        for sign in KEYS[field.kind]:
            keys.add_widget(self._key(sign if sign != " " else "space", "type", sign, small=not few))
        keys.add_widget(self._key("⌫", BACK, small=not few))
        keys.add_widget(self._key("OK", DONE, small=not few))

    def on_size(self, *_: object) -> None:
        """The keys lie in other rows when the tablet is turned."""
        self._set_columns()

    def _set_columns(self) -> None:
        kind = self._field.kind if self._field is not None else CHOICE
        lies = self.width > 1.3 * self.height
        self.ids.key_grid.cols = WIDE[kind] if kind in WIDE and lies else COLUMNS[kind]

    def _key(self, says: str, act: str, *args: str, small: bool = False) -> Plate:
        plate = Plate()
        plate.again_s = 0.0 if act in ("type", BACK) else plate.again_s
        plate.show(Step(says, act, args))
        plate.filled = act == DONE
        if small and len(says) > 1:
            plate.type_size = theme.note
        plate.bind(on_step=self._touched)
        return plate

    def _touched(self, _plate: Plate, step: Step) -> None:
        if step.act == "choose":
            self._choose(step.args[0])
        elif step.act == OWN:
            self._own_words()
        elif step.act == DONE:
            self.done()
        elif step.act == BACK:
            self.back()
        else:
            self._set((self._text + step.args[0])[:LONGEST])

    def _own_words(self) -> None:
        """The keys take the place of the words."""
        self._typing = True
        if self._field is not None:
            self._lay_keys(self._field)

    def _choose(self, text: str) -> None:
        """A word is the answer; on the number pad a unit is taken, and a number or a sentence is the answer."""
        field = self._field
        is_unit = field is not None and field.kind == NUMBER and field.unit and len(text) <= 8
        if is_unit and not text[0].isdigit():
            self.unit = text
        else:
            self._enter(text)

    def _set(self, text: str) -> None:
        self._text = text
        self._say()
        if self._field is not None:
            self.dispatch("on_draft", self._field.name, self._text)

    def _enter(self, text: str) -> None:
        if self._field is not None:
            name, self._text = self._field.name, ""
            self._say()
            self.dispatch("on_entered", name, text)

    def _say(self) -> None:
        hidden = self._field is not None and self._field.kind == PIN
        self.shown = "•" * len(self._text) if hidden else self._text


load_looks(__file__)
