"""A check is read: a number against the bill's limit, or an answer where a person judges."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.bill import Check, Position
from teardown_app.domain.checking import FINISHED, NEW, PART_TIMES, spoils_ahead
from teardown_app.domain.limit import Limit
from teardown_app.domain.parts import is_new, own_place
from teardown_app.domain.points.point import named
from teardown_app.domain.reading import METHOD, could_be_either, factor, is_count, is_numeric, read_quantity, verdict
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
    check, what = asked.check, f"{named_thing(act, thing)}: {asked.check.name}"
    if is_numeric(check.limit) and check.limit is not None:
        if answer:
            refuse(f"{what} has the limit {check.limit.text}.", "Give the reading: --value '… unit'.")
        read = _against(what, check.limit, value)
    elif value:
        refuse(f"{what} has no limit that a number could be held against.", "Answer good, bad or unsure.")
    elif answer not in ANSWERS:
        refuse(f"{what} is judged by a person.", f"Answer {', '.join(ANSWERS)}: --answer.")
    else:
        read = {"verdict": ANSWERS[answer]}
    limit = check.limit.text if check.limit else None
    extra = {"limit": limit, "note": note or None, "instrument": instrument or None}
    return [act.draft("check.read", (thing,), check=check.name, spot=asked.spot, when=asked.when, **read, **extra)]


def _against(what: str, limit: Limit, typed: str) -> dict[str, object]:
    if could_be_either(typed):
        refuse(f"{what}: “{typed}” could be a fraction or thousands.", "Write a point, or leave the comma out.")
    read = read_quantity(typed)
    if read is None:
        refuse(f"{what}: “{typed}” is no reading.", f"Write a number with its unit, such as '{_sample(limit)}'.")
    times = factor(read.unit or limit.unit, limit.unit)
    if times is None:
        unit = limit.unit or "numbers without unit"
        refuse(f"{what} is read in {unit}, not in {read.unit}.", f"Convert it: '{_sample(limit)}'.")
    if limit.count is not None and not is_count(read.value):
        refuse(f"{what} is counted; {read.text} is no count.", "Give a whole number.")
    said = {"text": read.text, "unit": read.unit or limit.unit}
    return {"value": said, "verdict": verdict(limit, read.value * times), "method": METHOD}


def _sample(limit: Limit) -> str:
    number = limit.max if limit.max is not None else limit.min if limit.min is not None else limit.count
    return f"{number} {limit.unit}".strip()


def not_possible(act: Act, thing: str, asked: Asked, *, why: str) -> Drafts:
    """Records that a check could not be read; it stays open."""
    act.working()
    if not why.strip():
        refuse(f"{named_thing(act, thing)}: {asked.check.name} stays open.", "Say why it could not be read.")
    body = {"check": asked.check.name, "spot": asked.spot, "when": asked.when, "why": why}
    return [act.draft("check.not_possible", (thing,), **body)]


def asked_for(act: Act, thing: str, name: str, *, when: str = "", spot: str = "") -> Asked:
    """The check of the line that a part or place belongs to, at the time that is meant."""
    position = position_of(act, thing)
    checks = checks_of(act, position)
    check = next((one for one in checks if one.name.casefold() == name.casefold()), None)
    if check is None:
        has = ", ".join(f"{one.name} ({', '.join(times(one))})" for one in checks) or "none"
        refuse(f"{named_thing(act, thing)} has no check {name}.", f"It has {has}.")
    return Asked(check, _when(act, thing, check, when), _spot(act, thing, check, spot))


def named_thing(act: Act, thing: str) -> str:
    """A part or a place for a sentence."""
    return named(act.job, thing[1:]) if is_position(thing) else act.name(thing)


def position_of(act: Act, thing: str) -> Position:
    """The place whose line says what is read."""
    key = thing[1:] if is_position(thing) else own_place(act.job, thing)
    position = act.job.positions.get(key)
    if position is None:
        refuse(f"{named_thing(act, thing)} belongs to no place of the tool.", "Nothing is to be read on it.")
    return position


def checks_of(act: Act, position: Position) -> list[Check]:
    """Checks that the line of a place asks for."""
    return [act.job.bill.checks[name] for name in position.line.checks if name in act.job.bill.checks]


def times(check: Check) -> tuple[str, ...]:
    """When a check is read; finished where the bill does not say."""
    return check.when or (FINISHED,)


def _when(act: Act, thing: str, check: Check, when: str) -> str:
    fitting = times_on(act, thing, check)
    if when and when in fitting:
        return when
    name, listed = f"{named_thing(act, thing)}: {check.name}", ", ".join(times(check))
    if when or not fitting:
        what = "place" if is_position(thing) else "part"
        refuse(
            f"{name} is read {listed}, and on this {what} {', '.join(fitting) or 'not at all'}.",
            "Name one of these with --when; fitted and gate readings are about the place, the others about the part.",
        )
    if len(fitting) > 1:
        refuse(f"{name} is read {' and '.join(fitting)}.", "Say which this is: --when.")
    return fitting[0]


def times_on(act: Act, thing: str, check: Check) -> list[str]:
    """Times at which a check is read on this part or place; *new* is for new parts, *finished* for the others."""
    if is_position(thing):
        return [one for one in times(check) if one not in PART_TIMES]
    unwanted = FINISHED if is_new(act.job, thing) else NEW
    return [one for one in times(check) if one in PART_TIMES and one != unwanted]


def _spot(act: Act, thing: str, check: Check, spot: str) -> str:
    name = f"{named_thing(act, thing)}: {check.name}"
    if not check.spots and not spot:
        return ""
    if not check.spots:
        refuse(f"{name} has no spots.", "Leave the spot out.")
    if spot not in check.spots:
        refuse(f"{name} is read at {', '.join(check.spots)}.", "Say where this was read: --spot.")
    return spot


def warnings(act: Act, thing: str, asked: Asked, note: str = "") -> list[str]:
    """What should be known of a reading that was taken all the same."""
    limit = asked.check.limit
    bare = limit is not None and not is_numeric(limit) and not note.strip()
    said = ["No note says what it was held against: --note."] if bare else []
    return said + _binding(act, thing, asked)


def _binding(act: Act, thing: str, asked: Asked) -> list[str]:
    if asked.when in ("arrival", "as found"):
        return ["As found: it shows its verdict and binds nothing."]
    if is_position(thing):
        return []
    ahead = spoils_ahead(act.job, thing, asked.check)
    return [f"{', '.join(ahead)} is still to come and spoils this reading."] if ahead else []
