"""Action codes of the wall sheet: numbers that are the same in every shop, so that a sheet on the wall never ages.

They stand in a series of their own, `A0000`, that no tablet issues from. What a code does is the screen's business.
"""

from __future__ import annotations

from teardown_app.domain.tags.tag import Tag

SERIES = "0000"

ACTIONS = {
    "start": "Begin: into the bath",
    "out": "Out of the bath: done",
    "next": "Next operation of the list",
    "pause": "Stop it, go on later",
    "yes": "Do what the large button says",
    "no": "Leave it, change nothing",
}
"""Word of an action, and what it does, in the order of the sheet."""

NUMBERS = {word: Tag("A", SERIES, counter).number for counter, word in enumerate(ACTIONS, 1)}
"""Word of an action -> its number, for ever."""


def action_of(tag: Tag) -> str:
    """The word of an action code; empty for a number that is none."""
    return next((word for word, number in NUMBERS.items() if number == tag.number), "")
