"""A part that did not come off this tool: new, from stock, exchanged, the customer's, borrowed."""

from __future__ import annotations

from collections.abc import Mapping

from teardown_app.domain.against.leaving import against_bring_in
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.place import fits_place
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.called import Elsewhere, nowhere, place_meant
from teardown_app.workflows.deed import PLACES, by_hand
from teardown_app.workflows.number import free_number
from teardown_app.workflows.put import check_place
from teardown_app.workflows.take_off import TAKES_PARTS

BROUGHT = ("new", "stock", "exchanged", "customer's", "borrowed")


def bring_in(
    act: Act,
    key: str,
    *,
    part_number: str,
    origin: str,
    number: str = "",
    set_mark: str = "",
    place: str = "",
    written: Mapping[str, str] | None = None,
    note: str = "",
    elsewhere: Elsewhere = nowhere,
) -> Drafts:
    """Brings in a part meant for a place. The part it replaces has to be out of the way, and answered for."""
    act.working()
    if origin not in BROUGHT:
        refuse(f"{origin} is no origin.", f"It is one of {', '.join(BROUGHT)}.")
    position = place_meant(act, key, *TAKES_PARTS)
    check_fits(act, position, part_number)
    refuse_for(against_bring_in(act.job, position))
    if number:
        number = free_number(act, number, elsewhere)
    elif not place:
        refuse("A part without a number needs a place to lie.", "Put a label on it, or say where it is.")
    if place:
        check_place(act, place)
    body = {
        "part_number": part_number,
        "origin": origin,
        "meant_for": position.key,
        "number": number or None,
        "set_mark": set_mark or None,
        "place": place or None,
        "written": dict(written) if written else None,
        "note": note or None,
    }
    return [act.draft("part.brought_in", ("new:1",), **body)]


def check_fits(act: Act, position: Position, part_number: str) -> None:
    """Refuses a part number that does not go into the place."""
    if fits_place(act.job, position, part_number):
        return
    known = position.key in act.job.bill.positions
    fitting = sorted(act.job.bill.fitting(position.line.position)) if known else [position.line.part_number]
    refuse(f"{part_number} does not fit {named(act.job, position.key)}.", f"It takes {' or '.join(fitting)}.")


BRING_IN = by_hand("part bring-in", PLACES, "{name}: {origin}.", "part.brought_in", "numbers.issued")
