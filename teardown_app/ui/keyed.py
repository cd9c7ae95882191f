"""What a keyboard-wedge scanner sent, also through a keyboard other than this tablet's. No Kivy here.

A number that is right as it stands is taken. One that is right through another keyboard only is put right
when there is one such number and the tablet knows it; else a person compares it with the label.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.tags.tag import is_ours
from teardown_app.domain.tags.tag_keyboards import AS_IT_STANDS, PUT_RIGHT, Reading, judged, readings
from teardown_app.ui.known_here import Looked, is_known, perhaps
from teardown_app.ui.scanning import meaning
from teardown_app.ui.view import TAG, UNSURE
from teardown_app.workflows.act import refuse

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


def is_scan(desk: Desk, text: str) -> bool:
    """True for a scanner's text among what is typed; in a field for words or figures only with a number known here."""
    if is_ours(text):
        return True
    found = [one.number for one in readings(text)] + [text.upper()] * is_ours(text.upper())
    if any(is_known(desk, number) for number in found):
        return True
    field = desk.asking.field()
    return bool(found) and (field is None or field.kind == TAG) and perhaps(desk, text) is None


def keyed(desk: Desk, text: str) -> None:
    """Does what the text means; through another keyboard only what can be one number alone."""
    verdict, found = judged(text, lambda number: is_known(desk, number))
    if verdict == PUT_RIGHT:
        number = found[0].number
        desk.say_with(_remark(found[0]), lambda: meaning(desk, number))
    elif verdict == AS_IT_STANDS:
        meaning(desk, text)
    elif len(found) > 1:
        numbers = " or ".join(one.number for one in found)
        refuse(
            f"{text.strip()} can be {numbers}: is the scanner set to another keyboard?",
            "Type the number that is on the label.",
        )
    elif perhaps(desk, text):
        meaning(desk, text)  # one wrong character is likelier; it is refused with its place
    else:
        _compare(desk, found[0])


def _remark(one: Reading) -> str:
    return f"Read as {one.number}: {one.differs} on the scanner's keyboard."


def _compare(desk: Desk, one: Reading) -> None:
    """Nobody here knows the number: it stands on the pad, and a person says OK with the label in hand."""
    asked = desk.asking.field()
    if asked is not None and asked.kind != TAG:
        refuse(f"{_remark(one)} Nobody here knows that number.", "Type the number that is on the label.")
    if asked is None:
        desk.open("find")
    entry = desk.asking.entry
    if entry is not None:
        says = f"{_remark(one)} It is not known here: compare it with the label, then OK."
        entry.typed, entry.looked = one.number, Looked(one.number, says)
        desk.say(says, UNSURE)
