"""What forms ask, as fields: the first of these that is not entered yet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from teardown_app.ui.form import Values
from teardown_app.ui.view import CHOICE, Field
from teardown_app.workflows.act import refuse


def first_open(values: Values, *fields: Field) -> Field | None:
    """The first field without a value."""
    return next((field for field in fields if field.name not in values), None)


def choose(name: str, asks: str, choices: Iterable[str], hint: str = "") -> Field:
    """A field with words to choose from."""
    return Field(name, asks, CHOICE, choices=tuple(choices), hint=hint)


def text(name: str, asks: str, choices: Sequence[str] = (), *, may_be_empty: bool = False, hint: str = "") -> Field:
    """A field with letters, and words that are offered above them."""
    return Field(name, asks, choices=tuple(choices), may_be_empty=may_be_empty, hint=hint)


def whole(values: Values, name: str) -> int:
    """A whole number that was entered, also as `8, all of them`; refuses what is none."""
    entered = str(values[name]).partition(",")[0].strip()
    if not (entered.isdecimal() and entered.isascii() and len(entered) < 10):
        refuse(f"{entered or 'Nothing'} is no count.", "Count them: a whole number.")
    return int(entered)
