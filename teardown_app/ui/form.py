"""A form asks one thing after the other and then does one act. No Kivy here.

`ask` gives the next field for what was entered so far, None when nothing more is wanted; `finish` does
it. What was entered is plain values, so that a half-entered form comes back after a restart.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from attrs import define, field, frozen

from teardown_app.figures.figure import Figure
from teardown_app.ui.known_here import Looked
from teardown_app.ui.view import Field

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

Values = dict[str, Any]


@frozen
class Form:
    """One form: what it is for in words, what it asks, what it does."""

    name: str
    says: str
    ask: Callable[[Desk, Values], Field | None]
    finish: Callable[[Desk, Values], object]
    picture: Callable[[Desk, Values, str, str], Figure | None] | None = None
    """A picture of what was entered so far: of (desk, values, field that is asked, what stands on its pad)."""
    shown_by: Callable[[Desk, Values, int], str] | None = None
    """The field that the n-th band of the picture shows, to be asked again when it is touched; empty for none."""


@define
class Entry:
    """A form that is being filled in: what was entered, in which order, and what stands on the pad."""

    form: str
    values: Values = field(factory=dict)
    order: list[str] = field(factory=list)
    typed: str = ""
    looked: Looked | None = None
    """What was seen in what stands on the tag pad."""

    def as_note(self) -> Values:
        """As it is kept in `drafts/`."""
        return {"form": self.form, "values": self.values, "order": self.order, "typed": self.typed}


def entry_from(note: object, known: Callable[[str], bool]) -> Entry | None:
    """An entry as it was kept; none when it is not understood."""
    if not isinstance(note, dict) or not known(str(note.get("form"))):
        return None
    values, order = note.get("values"), note.get("order")
    if not isinstance(values, dict) or not isinstance(order, list):
        return None
    return Entry(str(note["form"]), values, [str(one) for one in order], str(note.get("typed") or ""))
