"""A consumable is renewed, with lot and expiry where the bill asks for them, or kept where it may be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from teardown_app.domain.against.renewal import against_renewal
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.ledger.times import is_day
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.consumable import ON_CONDITION, rule_of
from teardown_app.domain.places.place import fits_place
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.called import in_scope, places_meant, thing_of
from teardown_app.workflows.deed import DAY, PLACES, Deed, Field


def renew(
    act: Act,
    keys: Sequence[str],
    *,
    lot: str = "",
    serial: str = "",
    expiry: str = "",
    part_number: str = "",
    old: str = "",
) -> Drafts:
    """New consumables of one lot at these places; `old` says what became of what was there."""
    act.working()
    places, expiry = _places(act, keys), expiry.strip()
    if expiry:
        _check_expiry(act, lot, expiry)
    for position in places:
        _check_renewal(act, position, {"lot": lot.strip(), "serial": serial.strip(), "expiry": expiry}, part_number)
        refuse_for(against_renewal(act.job, position))
    return [_draft(act, places, "renewed", lot=lot, serial=serial, expiry=expiry, part_number=part_number, old=old)]


def keep(act: Act, keys: Sequence[str]) -> Drafts:
    """Consumables that are in good condition and stay, where the bill lets them."""
    act.working()
    places = _places(act, keys)
    for position in places:
        if rule_of(position) != ON_CONDITION:
            refuse(
                f"{named(act.job, position.key)} is renewed {rule_of(position)}, not on condition.",
                "Fit a new one.",
                "consumable renew",
            )
    return [_draft(act, places, "kept")]


def _places(act: Act, keys: Sequence[str]) -> list[Position]:
    places = places_meant(act, keys, "consumable")
    if not places:
        refuse("No place is named.", "Name the places of the consumables.")
    for position in places:
        in_scope(act, position)
    return places


def _draft(act: Act, places: Sequence[Position], word: str, **texts: str) -> Draft:
    given = {name: text.strip() for name, text in texts.items() if text.strip()}
    things = tuple(thing_of(position) for position in places)
    return act.draft("consumable.renewed", things, **{"as": word, **given})


def _check_expiry(act: Act, lot: str, expiry: str) -> None:
    """In date by the tablet's clock; a clock that cannot be trusted proves nothing."""
    if not is_day(expiry):
        refuse(f"{expiry} is no day.", "Write it as 2027-03-31.")
    name = f"lot {lot}" if lot else "it"
    if act.now.clk != "ok":
        refuse(
            f"This tablet's clock cannot be trusted, so nobody can say whether {name} is in date.",
            "Set the clock right, or record it on another tablet.",
        )
    if act.now.wall[:10] > expiry:
        refuse(f"{name[0].upper()}{name[1:]} expired on {expiry}.", "Take another lot.")


def _check_renewal(act: Act, position: Position, given: Mapping[str, str], part_number: str) -> None:
    name = named(act.job, position.key)
    for what in position.line.write_down:
        if not given.get(what):
            refuse(f"The {what} of {name} has to be written down.", "Give it.")
    facts = act.job.bill.components.get(part_number or position.line.part_number)
    if facts is not None and facts.shelf_life_days and not given["expiry"]:
        refuse(f"{name}: its part number has a shelf life.", "Give the last day on its bag.")
    if part_number and not fits_place(act.job, position, part_number):
        takes = " or ".join(sorted(act.job.bill.fitting(position.line.position)))
        refuse(f"{part_number} does not fit {name}; it takes {takes}.", "Take the right one.")


RENEW = Deed(
    name="consumable renew", about=PLACES, do=renew, writes=("consumable.renewed",),
    says="Record that consumables were renewed: lot, expiry, what became of the old ones.",
    example="PO-7781 10.40 --lot L-2231 --expiry 2031-06-30 --old scrapped --by AS",
    done="{name} is renewed.",
    fields=(Field("lot", "The lot on its bag", "the maker's lot"),
            Field("serial", says="the serial number on it"),
            Field("expiry", "Its last day, as 2027-03-31", "last day it may be used, as 2027-03-31", sort=DAY),
            Field("part_number", says="where it is not the bill's own"),
            Field("old", says="what became of the old one")),
)  # fmt: skip
KEEP = Deed(
    name="consumable keep", about=PLACES, do=keep, writes=("consumable.renewed",),
    says="Keep consumables that the bill renews on condition, because they are good.",
    example="PO-7781 10.60 --by AS",
    done="{name} is kept, its condition is good.",
)  # fmt: skip
