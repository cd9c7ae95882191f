"""A number that nobody here issued, before it is put on a part: a person says yes, once a series and job.

What was agreed stands in the records as the numbers that were put on: a series of which the job has a part whose
number was not issued either is not asked about again. No Kivy here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.domain.shop.known_numbers import is_issued
from teardown_app.domain.tags.tag import Tag, TagFault, parse
from teardown_app.ui.form import Entry
from teardown_app.ui.forms.asking import choose
from teardown_app.ui.view import Field

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

BINDING = ("take off", "extra part", "label", "bring in")
"""Forms whose number goes on a part."""
NUMBER, AGREED = "number", "not issued"
YES, NO = "yes, it is ours", "no"
SAYS = "not issued here"


def asks(desk: Desk, entry: Entry) -> Field | None:
    """The question about the number that was entered; none where it may be put on."""
    number = str(entry.values.get(NUMBER, ""))
    if entry.form not in BINDING or AGREED in entry.values or entry.values.get("with") == "new":
        return None
    if not is_not_issued(desk, number) or _agreed(desk, parse(number)):
        return None
    says = f"{number} was not issued here, as far as this tablet knows. Is it a label of ours?"
    return choose(AGREED, says, (YES, NO), "Asked once in this job for all labels of that series.")


def is_not_issued(desk: Desk, number: str) -> bool:
    """True for a part's number that no tablet known here has issued."""
    try:
        tag = parse(number)
    except TagFault:
        return False
    return tag.letter == "P" and not is_issued(desk.workshop.shop, tag)


def taken_away(entry: Entry) -> bool:
    """Takes a number away that somebody said no to; false where the form came with it, and there is nothing to ask."""
    for name in (AGREED, NUMBER):
        entry.values.pop(name, None)
    if AGREED in entry.order:
        entry.order.remove(AGREED)
    asked_for = NUMBER in entry.order
    if asked_for:
        entry.order.remove(NUMBER)
    return asked_for


def _agreed(desk: Desk, tag: Tag) -> bool:
    """A part of the job has a number of the same series that was not issued here either."""
    job = desk.job
    return any(
        _same_series(number_of(job, part), tag) and is_not_issued(desk, number_of(job, part)) for part in parts(job)
    )


def _same_series(number: str, tag: Tag) -> bool:
    return number[: len(tag.letter + tag.incarnation)] == tag.letter + tag.incarnation
