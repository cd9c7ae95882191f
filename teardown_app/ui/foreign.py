"""Codes that are not ours: said to be foreign, noted on the part in hand when somebody wants it, known again later."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.parts.parts import number_of, parts_with, written_on
from teardown_app.domain.tags.tag_form import LENGTH, LETTERS
from teardown_app.ui.scanning import meaning
from teardown_app.workflows.act import refuse
from teardown_app.workflows.note import note

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

CODE = "maker's code"
"""Under this it stands among what is written on the part; a second one has a 2 behind it."""
LONGEST = 120


def clean(text: str) -> str:
    """The text as it may be noted: nothing that does not print, no blanks around it."""
    return "".join(sign for sign in text if sign.isprintable()).strip()


def is_slip(text: str) -> bool:
    """True where it is rather a number of ours with a slip: ten signs, the first of them a letter of ours."""
    typed = text.strip().upper()
    return len(typed) == LENGTH and typed[0] in LETTERS and typed.isalnum()


def stands_for(desk: Desk, text: str) -> bool:
    """True when the code is noted on a part of the job in hand: then that part is scanned, or its card opened."""
    found = parts_with(desk.job, clean(text)) if desk.job_number and clean(text) else []
    if desk.asking.entry is not None and not (len(found) == 1 and number_of(desk.job, found[0])):
        return False
    if len(found) > 1:
        desk.say(f"{len(found)} parts have the code {clean(text)[:40]}. Choose one, or scan our label.")
        desk.go("found", words=clean(text), back=True)
    elif found and number_of(desk.job, found[0]):
        meaning(desk, number_of(desk.job, found[0]))
    elif found:
        desk.go("part", part=found[0], back=True)
    return bool(found)


def link(desk: Desk, part: str, text: str) -> None:
    """Notes the code on the part."""
    code = clean(text)
    if not code or len(code) > LONGEST:
        refuse(f"A code of {len(code)} signs cannot be noted.", f"At most {LONGEST}; note its number in own words.")
    if code in written_on(desk.job, part):
        refuse(f"{desk.look.name(part)} has this code already.", "Scan it, and the part is shown.")
    names = (CODE, *(f"{CODE} {n}" for n in range(2, 100)))
    name = next(one for one in names if not desk.job.value(part, f"written/{one}"))
    desk.act(
        lambda act: note(act, [part], conditions=desk.workshop.words["conditions"], written={name: code}),
        f"{desk.look.name(part)}: {CODE} {code[:40]}",
    )
