"""A check is read: a number against the bill's limit, or an answer where a person judges."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.bill import Check, Position
from teardown_app.domain.checking import FINISHED, NEW, PART_TIMES, spoils_ahead
from teardown_app.domain.limit import Limit
from teardown_app.domain.parts import is_new, own_place
from teardown_app.domain.points.point import named
from teardown_app.domain.reading import METHOD, factor, is_numeric, read_quantity, verdict
from teardown_app.domain.record import is_position
from teardown_app.workflows.act import Act, Drafts, refuse

ANSWERS = {"good": "accept", "bad": "reject", "unsure": "inconclusive"}
"""What a person says where no number decides."""


class Asked(NamedTuple):
    """A check of a line, and when it is read."""

    check: Check
    when: str
    spot: str


def read_check(
    act: Act, thing: str, asked: Asked, *, value: str = "", answer: str = "", note: str = "", instrument: str = ""
) -> Drafts:
    """Records a reading on a part or a place. The verdict is computed where the limit is a number."""
    act.working()
    check = asked.check
    if is_numeric(check.limit) and check.limit is not None:
        if answer:
            refuse(f"{check.name} has the limit {check.limit.text}.", "Give the reading: --value '… unit'.")
        read = _against(check, check.limit, value)
    elif value:
        refuse(f"{check.name} has no limit that a number could be held against.", "Answer good, bad or unsure.")
    elif answer not in ANSWERS:
        refuse(f"{check.name} is judged by a person.", f"Answer {', '.join(ANSWERS)}.")
    else:
        read = {"verdict": ANSWERS[answer]}
    limit = check.limit.text if check.limit else None
    extra = {"limit": limit, "note": note or None, "instrument": instrument or None}
    return [act.draft("check.read", (thing,), check=check.name, spot=asked.spot, when=asked.when, **read, **extra)]


def _against(check: Check, limit: Limit, typed: str) -> dict[str, object]:
    read = read_quantity(typed)
    if read is None:
        refuse(f"“{typed}” is no reading.", f"Write a number with its unit, such as '{_sample(limit)}'.")
    times = factor(read.unit or limit.unit, limit.unit)
    if times is None:
        refuse(f"{check.name} is read in {limit.unit or 'numbers without unit'}, not in {read.unit}.", "Convert it.")
    said = {"text": read.text, "unit": read.unit or limit.unit}
    return {"value": said, "verdict": verdict(limit, read.value * times), "method": METHOD}


def _sample(limit: Limit) -> str:
    number = limit.max if limit.max is not None else limit.min if limit.min is not None else limit.count
    return f"{number} {limit.unit}".strip()


def not_possible(act: Act, thing: str, asked: Asked, *, why: str) -> Drafts:
    """Records that a check could not be read; it stays open."""
    act.working()
    if not why.strip():
        refuse(f"{asked.check.name} stays open.", "Say why it could not be read.")
    body = {"check": asked.check.name, "spot": asked.spot, "when": asked.when, "why": why}
    return [act.draft("check.not_possible", (thing,), **body)]


def asked_for(act: Act, thing: str, name: str, *, when: str = "", spot: str = "") -> Asked:
    """The check of the line that a part or place belongs to, at the time that is meant."""
    position = position_of(act, thing)
    checks = checks_of(act, position)
    check = next((one for one in checks if one.name.casefold() == name.casefold()), None)
    if check is None:
        has = ", ".join(f"{one.name} ({', '.join(times(one))})" for one in checks) or "none"
        refuse(f"{named(act.job, position.key)} has no check {name}.", f"It has {has}.")
    return Asked(check, _when(act, thing, check, when), _spot(check, spot))


def position_of(act: Act, thing: str) -> Position:
    """The place whose line says what is read."""
    key = thing[1:] if is_position(thing) else own_place(act.job, thing)
    position = act.job.positions.get(key)
    if position is None:
        refuse(f"{act.name(thing) or 'The part'} belongs to no place of the tool.", "Nothing is to be read on it.")
    return position


def checks_of(act: Act, position: Position) -> list[Check]:
    """Checks that the line of a place asks for."""
    return [act.job.bill.checks[name] for name in position.line.checks if name in act.job.bill.checks]


def times(check: Check) -> tuple[str, ...]:
    """When a check is read; finished where the bill does not say."""
    return check.when or (FINISHED,)


def _when(act: Act, thing: str, check: Check, when: str) -> str:
    about_part = not is_position(thing)
    fitting = [one for one in times(check) if (one in PART_TIMES) == about_part]
    if about_part:
        unwanted = FINISHED if is_new(act.job, thing) else NEW
        fitting = [one for one in fitting if one != unwanted]
    if when and when in fitting:
        return when
    what = "part" if about_part else "place"
    listed = ", ".join(times(check))
    if when or not fitting:
        refuse(
            f"{check.name} is read {listed}, and on this {what} {', '.join(fitting) or 'not at all'}.",
            "Name one of these with --when; fitted and gate readings are about the place, the others about the part.",
        )
    if len(fitting) > 1:
        refuse(f"{check.name} is read {' and '.join(fitting)}.", "Say which this is: --when.")
    return fitting[0]


def _spot(check: Check, spot: str) -> str:
    if not check.spots and not spot:
        return ""
    if not check.spots:
        refuse(f"{check.name} has no spots.", "Leave the spot out.")
    if spot not in check.spots:
        refuse(f"{check.name} is read at {', '.join(check.spots)}.", "Say where this was read: --spot.")
    return spot


def warnings(act: Act, thing: str, asked: Asked) -> list[str]:
    """What should be known of a reading that was taken all the same."""
    if asked.when in ("arrival", "as found"):
        return ["As found: it shows its verdict and binds nothing."]
    if is_position(thing):
        return []
    ahead = spoils_ahead(act.job, thing, asked.check)
    return [f"{', '.join(ahead)} is still to come and spoils this reading."] if ahead else []
