"""What a person calls a part or a place: the number on a label, or the place it belongs to.

Small parts need no label; the place they came out of is name enough. Refusals say what a name could
have meant.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NoReturn

from teardown_app.domain.against.scope import against_scope
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.going_back import GONE, handed_over
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import disposition_of, is_part, number_of, own_place, parts, parts_of_number
from teardown_app.domain.tags.tag import TagFault, parse
from teardown_app.workflows.act import Act, refuse, refuse_for

Elsewhere = Callable[[str], str]
"""A number -> the other job and place it belongs to, as words; empty when no job knows it."""


def nowhere(number: str) -> str:
    """No other job is asked."""
    return ""


def parts_meant(act: Act, names: Iterable[str], elsewhere: Elsewhere = nowhere) -> list[str]:
    """The parts that these names mean, each once, in the order named."""
    return list(dict.fromkeys(part_meant(act, name, elsewhere) for name in names))


def part_meant(act: Act, name: str, elsewhere: Elsewhere = nowhere) -> str:
    """The part that a number on a label, or the place it belongs to, means."""
    number = as_printed(name)
    found = parts_of_number(act.job, number)
    if len(found) > 1:
        refuse(f"{number} is on {len(found)} parts.", "Give one of them a new label first.")
    if found:
        return found[0]
    if name in act.job.positions:
        return _of_place(act, name)
    if is_part(act.job, name):
        return act.job.group(name)[0]
    return _unknown(act, number, elsewhere(number))


def as_printed(name: str) -> str:
    """A number as it is printed, however it was typed; other names as they are."""
    try:
        return parse(name).number
    except TagFault:
        return name


def _of_place(act: Act, key: str) -> str:
    """The part of a place: of several, the one that still has to go in."""
    found = [part for part in parts(act.job) if own_place(act.job, part) == key]
    wanted = [part for part in found if not is_gone(act, part)] or found
    if not wanted:
        refuse(f"No part of {named(act.job, key)} is known.", "Record that it was taken off, or brought in.")
    if len(wanted) > 1:
        numbers = ", ".join(number_of(act.job, part) or "one without number" for part in wanted)
        refuse(f"{named(act.job, key)} has {len(wanted)} parts: {numbers}.", "Name the one by its number.")
    return wanted[0]


def is_gone(act: Act, part: str) -> bool:
    """True for a part that does not go back into the tool."""
    return disposition_of(act.job, part) in GONE or handed_over(act.job, part) > 0


def _unknown(act: Act, name: str, other: str) -> NoReturn:
    if other:
        refuse(f"{name} belongs to {other}, not to job {act.job.number}.", "Take it back there, or hand it over.")
    refuse(
        f"{name} is neither the number of a part nor a place of job {act.job.number}.",
        "Scan it again, or look at the list.",
        "part list",
    )


def place_meant(act: Act, key: str, *kinds: str) -> Position:
    """The place of a key, which has to be of one of these kinds of line where any are given."""
    position = act.job.positions.get(key.removeprefix("@"))
    if position is None:
        refuse(f"{key} is no place of this tool.", "See its places.", "job places")
    kind = position.line.kind
    if kinds and kind not in kinds:
        refuse(f"{named(act.job, position.key)} is for {KIND_WORDS[kind]}.", *INSTEAD[kind])
    return position


def places_meant(act: Act, keys: Sequence[str], *kinds: str) -> list[Position]:
    """The places of these keys, each once, in the order named."""
    return [place_meant(act, key, *kinds) for key in dict.fromkeys(keys)]


def in_scope(act: Act, position: Position) -> None:
    """Refuses work at a place that is not asked for, or where all stayed fitted."""
    refuse_for(against_scope(act.job, position))


def thing_of(position: Position) -> str:
    """The name of a place in records."""
    return position_thing(position.key)


KIND_WORDS = {
    "assembly": "an assembly",
    "part": "a part",
    "hardware": "counted hardware",
    "consumable": "a consumable",
    "temporary": "something that is in only for a time",
}
INSTEAD = {
    "assembly": ("Fit its part.", "part fit"),
    "part": ("Fit its part.", "part fit"),
    "hardware": ("Count and move it.", "hardware move"),
    "consumable": ("Renew it.", "consumable renew"),
    "temporary": ("Say whether it is in.", "temporary in"),
}
