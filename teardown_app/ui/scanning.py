"""What a scanned or typed text means here: the screen's own next step, else the thing it stands for is shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.parts.instrument import instrument
from teardown_app.domain.parts.parts import parts_of_number
from teardown_app.domain.tags.tag import Tag, TagFault, as_typed, parse
from teardown_app.domain.tags.tag_form import LENGTH
from teardown_app.ui.hands_free import hands_free
from teardown_app.ui.known_here import looked_at
from teardown_app.ui.view import REJECT
from teardown_app.workflows.act import refuse
from teardown_app.workflows.label import not_void

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

LONGEST_SHOWN = 40


def is_tag(text: str) -> bool:
    """True for a number of ours, also as people type it."""
    try:
        parse(text)
    except TagFault:
        return False
    return True


def meaning(desk: Desk, text: str) -> None:
    """Does what the text means. A foreign code changes nothing and is said to be foreign."""
    tag = _tag(desk, text)
    if tag.letter == "A":
        hands_free(desk, tag)
        return
    if desk.asking.scanned(tag):
        return
    if tag.letter == "W":
        _badge(desk, tag)
    else:
        desk.asking.leave()
        if not (desk.job_number or tag.letter == "J") or not desk.screen.scanned(tag):
            show(desk, tag)


def _tag(desk: Desk, text: str) -> Tag:
    shown = "".join(sign if sign.isprintable() else "?" for sign in text[:LONGEST_SHOWN])
    looked = looked_at(desk, text)
    if looked is None:
        return parse(text)
    if len(as_typed(text)) == LENGTH:
        refuse(f"{shown}: {looked.says}", "Scan it again, or read it off the label.")
    return refuse(f"“{shown}” is no number of ours.", "Scan our label; a maker's code can be noted as a part number.")


def show(desk: Desk, tag: Tag) -> None:
    """Shows what a number stands for: a job, a part of this or of another job, a place, a carrier."""
    workshop = desk.workshop
    if tag.letter == "J":
        if tag.number not in workshop.home.jobs():
            refuse(f"{tag.number} is the number of no job here.", "Open a job with it in the office.")
        desk.job_number = tag.number
        desk.go("jobs", at=tag.number)
        return
    if tag.letter == "P":
        _show_part(desk, tag.number)
        return
    tool = instrument(workshop.shop, tag.number) if tag.letter == "M" else None
    if tool is not None:
        refuse(
            f"{tag.number} is {tool.name or tool.reads}, a measuring instrument.",
            "Begin the reading or the torque first; scan it where it is asked which one.",
        )
    place = next(
        (one for one in [*workshop.shop.places(), *workshop.shop.carriers()] if one.number == tag.number), None
    )
    if place is None:
        not_void(workshop.shop, tag.number)
        refuse(
            f"{tag.number} is a label for {tag.names} that nothing is recorded of.", "Enter it in the office: places."
        )
    desk.say(f"{tag.number} is {place.name}.")
    desk.go("found", words=place.name, back=True)


def _show_part(desk: Desk, number: str) -> None:
    workshop = desk.workshop
    if desk.job_number:
        found = parts_of_number(desk.job, number)
        if found:
            desk.say(desk.look.name(found[0]))
            desk.go("part", part=found[0], back=True)
            return
    row = workshop.whose(number)
    if row is None:
        not_void(workshop.shop, number)
        refuse(f"{number} is on no part yet.", "Choose the place in teardown, then scan the label again.")
    other = str(row["job"])
    came_from = desk.job_number
    desk.go("part", job=other, part=str(row["part"]), back=True)
    if came_from and came_from != other:
        desk.say(f"{number} belongs to job {other}, not to {came_from}.", REJECT)


def _badge(desk: Desk, tag: Tag) -> None:
    people = desk.workshop.shop.people()
    has = [one for one, person in people.items() if person.badge == tag.number and not person.revoked]
    code = next(iter(has), "")
    if not code:
        refuse(f"{tag.number} is nobody's badge here.", "Sign on with your initials; the office gives badges.")
    if desk.session.change_to(code):
        desk.signed_on(code)
    else:
        desk.open("who", why=f"{code}: the PIN, once a shift", code=code)
