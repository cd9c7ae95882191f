"""Pads of our own: a tag always can be typed, whatever keyboard the system has. Numbers, letters, PIN, choices.

Given a field it shows the keys for it; `on_entered(name, text)` tells what was entered, `on_draft`
what stands there so far. A choice of a field with keys is a unit (number) or a word (letters).
"""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from teardown_app.domain.tags.tag import as_typed
from teardown_app.records.pins import DIGITS
from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.cells import Cells
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.parts.plate import Plate
from teardown_app.ui.view import CHOICE, COUNT, NUMBER, PIN, TAG, TEXT, Field, Step

BACK, DONE, SPACE, OWN = "⌫", "OK", "space", "In own words …"

LETTERS = ("1234567890", "QWERTYUIOP", "ASDFGHJKL'", "ZXCVBNM,./", ("-", SPACE, BACK, DONE))
TAGS = ("0123456789", "ABCDEFGHJK", "LMNPQRSTUV", (*"WXYZ", BACK, DONE))
"""The 34 signs of a tag, in their order."""
STANDING = {
    NUMBER: ("123", "456", "789", "0.-", (BACK, DONE)),
    COUNT: ("123", "456", "789", ("0", BACK, DONE)),
}
LYING = {
    NUMBER: ("12345", "67890", (".", "-", BACK, DONE)),
    COUNT: ("12345", "67890", (BACK, DONE)),
}
"""Rows of keys in portrait, and where the pad lies beside a list."""
WIDTHS = {SPACE: 4.0, DONE: 2.5, BACK: 1.5}
LARGE = (TEXT, TAG)
LONGEST = 300
CHOICES_MM = 25
"""Most room for words above keys: two rows of them."""


class Pad(BoxLayout):
    """Keys for one field, and what was entered so far."""

    asks = StringProperty("")
    hint = StringProperty("")
    shown = StringProperty("")
    unit = StringProperty("")
    only_choices = BooleanProperty(False)
    key_gap = NumericProperty(3)
    bar_mm = NumericProperty(0)
    lies = BooleanProperty(False)
    """True where the pad is wider than high."""

    __events__ = ("on_entered", "on_draft")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._field: Field | None = None
        self._text = ""
        self._typing = self._was_entered = False
        self._rows: tuple[Any, ...] = ()
        self.cells = Cells()

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

    @property
    def is_large(self) -> bool:
        """True for keys of letters or of tags."""
        return self._field is not None and self._field.kind in LARGE

    def show(self, field: Field | None) -> None:
        """Shows the keys for a field; what was typed stays while it is the same field."""
        old, self._field = self._field, field
        if field is None:
            self._text = ""
            return
        if old is None or self._was_entered or _asked(old) != _asked(field):
            self._was_entered = False
            self._typing = bool(field.draft)
            self._text, self.unit = field.draft, field.unit
            self._lay_choices(field)
        self.asks, self.bar_mm = field.asks, field.bar_mm
        self._lay_entry(field)
        self._lay_keys()
        self._say()

    @property
    def takes_typing(self) -> bool:
        """True where characters of a keyboard have a place to go."""
        return self._field is not None and self._field.kind != CHOICE

    def type(self, text: str) -> int:
        """Characters from a keyboard or a scanner; says how many of the text that stands there are theirs."""
        field, before = self._field, len(self._text)
        if field is None or field.kind == CHOICE:
            return 0
        if field.kind == TEXT and not self._typing:
            self._own_words()
        known = "".join(sign for sign in text if sign.isprintable())
        self._set(self._text + (known.upper() if field.kind == TAG else known))
        return len(self._text) - before

    def take_off(self, count: int) -> None:
        """Takes the last characters back out: they were a scan, not typing."""
        self._set(self._text[: max(0, len(self._text) - count)])

    def back(self) -> None:
        """Takes the last character away."""
        self._set(self._text[:-1])

    def done(self) -> None:
        """What stands there is entered."""
        field, text = self._field, self._text.strip()
        if field is not None and not self.only_choices and (text or field.may_be_empty):
            says_unit = any(sign.isalpha() for sign in text)  # a gauge that types may send its unit
            self._enter(f"{text} {self.unit}".strip() if field.kind == NUMBER and not says_unit else text)

    # what stands there

    def _lay_entry(self, field: Field) -> None:
        """A tag is shown character by character, anything else as words with a unit."""
        entry = self.ids.entry
        wanted = [self.cells] if field.kind == TAG else self._as_words
        if entry.children[::-1] != wanted:
            entry.clear_widgets()
            for widget in wanted:
                entry.add_widget(widget)

    def _mark(self, field: Field) -> None:
        """Says what is wrong with what stands there in place of the hint, and marks the places to look at."""
        looked = bool(field.fault) and self._text == field.draft
        self.hint = field.fault if looked else field.hint
        if field.kind == TAG:
            self.cells.show(as_typed(self._text), field.wrong if looked else ())

    # keys

    def _lay_choices(self, field: Field) -> None:
        choices, words = self.ids.choices, field.choices
        choices.clear_widgets()
        self.ids.words.scroll_y = 1
        is_words = field.kind == TEXT and bool(words)
        if is_words and self._typing:
            words = ()
        self.only_choices = field.kind == CHOICE or (is_words and not self._typing)
        if is_words and words:
            choices.add_widget(self._key(OWN))
        for text in words:
            choices.add_widget(self._key(text, choice=True))

    def on_kv_post(self, _base: Any) -> None:
        """Binds once the looks are there."""
        self._as_words = self.ids.entry.children[::-1]  # held here while a tag is in their place
        self.ids.choices.bind(minimum_height=self._share)
        self.bind(only_choices=self._share)
        self._share()

    def _share(self, *_: object) -> None:
        """Words have all the room where there are no keys; else no more than they need, and the keys the rest."""
        words, keys = self.ids.words, self.ids.key_rows
        words.size_hint_y, keys.size_hint_y = (1, None) if self.only_choices else (None, 1)
        if self.only_choices:
            keys.height = 0
        else:
            words.height = min(self.ids.choices.minimum_height, CHOICES_MM * theme.mm)

    def on_size(self, *_: object) -> None:
        """The keys lie in other rows when the tablet is turned."""
        self.lies = self.width > 1.3 * self.height
        self._lay_keys()

    def _lay_keys(self) -> None:
        rows = self._wanted_rows()
        if rows == self._rows:
            return
        self._rows = rows
        self.key_gap = 1.5 if self.is_large else 3
        keys = self.ids.key_rows
        keys.clear_widgets()
        for row in rows:
            line = BoxLayout(spacing=self.key_gap * theme.mm)
            for says in row:
                key = self._key(says)
                key.size_hint_x = WIDTHS.get(says, 1.0)
                line.add_widget(key)
            keys.add_widget(line)

    def _wanted_rows(self) -> tuple[Any, ...]:
        if self._field is None or self.only_choices:
            return ()
        if self.is_large:
            return TAGS if self._field.kind == TAG else LETTERS
        kind = NUMBER if self._field.kind == NUMBER else COUNT
        crowded = kind == NUMBER and bool(self._field.choices) and self.width > self.height  # words take height
        return (LYING if self.lies or crowded else STANDING)[kind]

    def _key(self, says: str, *, choice: bool = False) -> Plate:
        plate = Plate(type_size=theme.number * 0.75 if len(says) == 1 or says == DONE else 0)
        is_sign = not choice and says not in (DONE, OWN)
        plate.again_s = 0.0 if is_sign else plate.again_s  # the same sign may come twice
        plate.show(Step(says, "choose" if choice else "key"))
        plate.filled = not choice and says == DONE
        plate.bind(on_step=self._touched)
        return plate

    def _touched(self, _plate: Plate, step: Step) -> None:
        if step.act == "choose":
            self._choose(step.says)
        elif step.says == OWN:
            self._own_words()
        elif step.says == DONE:
            self.done()
        elif step.says == BACK:
            self.back()
        else:
            self._set(self._text + (" " if step.says == SPACE else step.says))

    def _own_words(self) -> None:
        """The keys take the place of the words."""
        self._typing = True
        if self._field is not None:
            self._lay_choices(self._field)
            self._lay_keys()

    def _choose(self, text: str) -> None:
        """A word is the answer; on the number pad a unit is taken, and anything else is the answer."""
        field = self._field
        if field is not None and field.kind == NUMBER and text in field.units:
            self.unit = text
        else:
            self._enter(text)

    def _set(self, text: str) -> None:
        self._text = text[:LONGEST]
        self._say()
        if self._field is not None:
            self.dispatch("on_draft", self._field.name, self._text)

    def _enter(self, text: str) -> None:
        if self._field is not None:
            name, self._text, self._was_entered = self._field.name, "", True  # what was refused comes back as draft
            self._say()
            self.dispatch("on_entered", name, text)

    def _say(self) -> None:
        hidden = self._field is not None and self._field.kind == PIN
        count = len(self._text)
        self.shown = " ".join("•" * count + "_" * max(0, DIGITS - count)) if hidden else self._text
        if self._field is not None:
            self._mark(self._field)


def _asked(field: Field) -> tuple[object, ...]:
    """What makes a field another one; its draft does not, unless something was seen in it."""
    return (field.name, field.asks, field.kind, field.choices, field.fault and field.draft)


load_looks(__file__)
