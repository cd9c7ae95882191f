"""A part comes off: out of which place, under which number, in what condition, and where it is put."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from teardown_app.domain.against.leaving import against_off
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.parts.naming import named
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.called import Elsewhere, nowhere, place_meant
from teardown_app.workflows.condition import check_condition
from teardown_app.workflows.deed import PLACES, by_hand
from teardown_app.workflows.number import free_number
from teardown_app.workflows.put import check_place

HOWS = ("taken off", "came loose", "extra")
"""How a part came to be in hand: an extra one was found and belongs to no place of the tool."""

TAKES_PARTS = ("assembly", "part")


def take_off(
    act: Act,
    key: str,
    *,
    number: str = "",
    how: str = HOWS[0],
    condition: str = "",
    place: str = "",
    part_number: str = "",
    written: Mapping[str, str] | None = None,
    note: str = "",
    elsewhere: Elsewhere = nowhere,
    conditions: Sequence[str] = (),
) -> Drafts:
    """Brings a part into the job. `key` is its place, empty for an extra one.

    Without a number it needs a place to lie.
    """
    act.working()
    if how not in HOWS:
        refuse(f"{how} is not known.", f"A part is {', '.join(HOWS)}.")
    if key:
        _check_origin(act, place_meant(act, key, *TAKES_PARTS), how)
    elif how != "extra":
        refuse("A part comes out of a place.", "Name its place, or record it as extra.")
    if number:
        number = free_number(act, number, elsewhere)
    elif not place:
        refuse("A part without a number needs a place to lie.", "Put a label on it, or say which tray or bag it is in.")
    if place:
        check_place(act, place)
    if condition and conditions:
        check_condition(conditions, condition, note)
    body = {
        "out_of": key or None,
        "number": number or None,
        "how": how,
        "condition": condition or None,
        "place": place or None,
        "part_number": part_number or None,
        "written": dict(written) if written else None,
        "note": note or None,
    }
    return [act.draft("part.taken_off", ("new:1",), **body)]


def _check_origin(act: Act, position: Position, how: str) -> None:
    name = named(act.job, position.key)
    if how == "extra":
        refuse(f"An extra part belongs to no place, but {name} was named.", "Leave the place out.")
    refuse_for(against_off(act.job, position))


def not_written(act: Act, key: str, written: Mapping[str, str] | None) -> list[str]:
    """What the bill wants written down of the part (serial, lot) and was not given."""
    position = act.job.positions.get(key)
    wanted = position.line.write_down if position else ()
    return [what for what in wanted if not (written or {}).get(what)]


OFF = by_hand("part off", PLACES, "{name}: {how}.", "part.taken_off", "numbers.issued", "label.queued")
