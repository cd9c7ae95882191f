"""Which check of a line is meant, at what time and spot; and what a part or place has to be checked for."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.bill.bill import Check, Position
from teardown_app.domain.ledger.kinds.work import has_stroke
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.parts.parts import is_new, own_place
from teardown_app.domain.parts.seat import asking
from teardown_app.domain.places.checking import (
    FINISHED,
    NEW,
    PART_TIMES,
    PLAIN,
    Needed,
    place_checks,
    release_checks,
    times_of,
)
from teardown_app.domain.places.reading_ground import AGAIN
from teardown_app.workflows.act import Act, refuse


class Asked(NamedTuple):
    """A check of a line, and when it is read."""

    check: Check
    when: str
    spot: str


def asked_for(act: Act, thing: str, name: str, *, when: str = "", spot: str = "") -> Asked:
    """The check of the line that a part or place belongs to, at the time that is meant."""
    check = _check_called(act, thing, name)
    asked = Asked(check, _when(act, thing, check, when), _spot(act, thing, check, spot))
    if has_stroke(check.name) or has_stroke(asked.spot):
        name = f"{check.name} {asked.spot}".strip()
        refuse(f"{name} has a stroke in its name; no reading of it is understood.", "Correct the bill.")
    return asked


def _check_called(act: Act, thing: str, name: str) -> Check:
    """The check of this name, in capitals or not, that is asked of a part or place."""
    checks = checks_on(act, thing)
    check = next((one for one in checks if one.name.casefold() == name.casefold()), None)
    if check is None:
        has = ", ".join(f"{one.name} ({', '.join(times_of(one))})" for one in checks) or "none"
        refuse(f"{act.name(thing)} has no check {name}.", f"It has {has}.")
    return check


def position_of(act: Act, thing: str) -> Position:
    """The place whose line says what is read."""
    key = thing[1:] if is_position(thing) else own_place(act.job, thing)
    position = act.job.positions.get(key)
    if position is None:
        refuse(f"{act.name(thing)} belongs to no place of the tool.", "Nothing is to be read on it.")
    return position


def checks_of(act: Act, position: Position) -> list[Check]:
    """Checks that the line of a place asks for."""
    return [act.job.bill.checks[name] for name in position.line.checks if name in act.job.bill.checks]


def checks_on(act: Act, thing: str) -> list[Check]:
    """Checks that are asked of a place, or of a part by each line of its seat."""
    keys = [] if is_position(thing) else asking(act.job, thing)
    places = [act.job.positions[key] for key in keys if key in act.job.positions] or [position_of(act, thing)]
    return list({check.name: check for place in places for check in checks_of(act, place)}.values())


def _when(act: Act, thing: str, check: Check, when: str) -> str:
    fitting = times_on(act, thing, check)
    if when and (when in fitting or when == PLAIN):
        return when
    name, listed = f"{act.name(thing)}: {check.name}", ", ".join(times_of(check))
    if when or not fitting:
        what = "place" if is_position(thing) else "part"
        refuse(
            f"{name} is read {listed}, and on this {what} {', '.join(fitting) or 'not at all'}.",
            "Name one of these; fitted and gate readings are about the place, the others about the part.",
        )
    if len(fitting) > 1:
        refuse(f"{name} is read {' and '.join(fitting)}.", "Say which this is.")
    return fitting[0]


def times_on(act: Act, thing: str, check: Check) -> list[str]:
    """Times at which a check is read on this part or place: *new* for new parts, *finished* for the others; and
    whatever is asked of it."""
    wanted = {one.when for one in _needed(act, thing) if one.check.name == check.name}
    if is_position(thing):
        return [one for one in times_of(check) if one not in PART_TIMES or one in wanted]
    unwanted = FINISHED if is_new(act.job, thing) else NEW
    return [
        one for one in times_of(check) if one in wanted or (one in PART_TIMES and one.removesuffix(AGAIN) != unwanted)
    ]


def _needed(act: Act, thing: str) -> list[Needed]:
    if not is_position(thing):
        return release_checks(act.job, thing)
    position = act.job.positions.get(thing[1:])
    return place_checks(act.job, position) if position is not None else []


def _spot(act: Act, thing: str, check: Check, spot: str) -> str:
    name = f"{act.name(thing)}: {check.name}"
    if not check.spots and not spot:
        return ""
    if not check.spots:
        refuse(f"{name} has no spots.", "Leave the spot out.")
    if spot not in check.spots:
        refuse(f"{name} is read at {', '.join(check.spots)}.", "Say where this was read.")
    return spot
