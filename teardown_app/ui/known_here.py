"""What this tablet knows of a number: issued, or in use; and which known number a wrong one may be. No Kivy here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import frozen

from teardown_app.domain.parts.instrument import instrument
from teardown_app.domain.shop.known_numbers import is_issued
from teardown_app.domain.tags.tag import TagFault, as_typed, parse
from teardown_app.domain.tags.tag_keyboards import readings
from teardown_app.domain.tags.tag_slips import MOST_PLACES, one_away

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


@frozen
class Looked:
    """What was seen in a text on the tag pad: in words, and the places to look at, counted from 0."""

    text: str
    says: str
    places: tuple[int, ...] = ()


def is_known(desk: Desk, number: str) -> bool:
    """True for a number that a tablet is known to have issued, or that something here has."""
    tag, shop = parse(number), desk.workshop.shop
    if is_issued(shop, tag):
        return True
    if tag.letter == "P":
        return desk.workshop.whose(number) is not None
    if tag.letter == "J":
        return number in desk.workshop.home.jobs()
    if tag.letter == "W":
        return any(one.badge == number for one in shop.people().values())
    if tag.letter == "M":
        return instrument(shop, number) is not None
    return any(one.number == number for one in [*shop.places(), *shop.carriers()])


def perhaps(desk: Desk, text: str) -> Looked | None:
    """The numbers known here that a wrong one is one slip away from; none where there are too many, or none."""
    found = {one.number: one for one in one_away(as_typed(text)) if is_known(desk, one.number)}
    if not 1 <= len(found) <= MOST_PLACES:
        return None
    named = " or ".join(f"{number}: {one.says}" for number, one in found.items())
    places = sorted({place for one in found.values() for place in one.places})
    return Looked(text, f"{as_typed(text)} does not fit. Perhaps {named}.", tuple(places))


def looked_at(desk: Desk, text: str) -> Looked | None:
    """What is wrong with a number as typed, and what it may be; none when nothing is wrong."""
    try:
        parse(text)
    except TagFault as fault:
        return perhaps(desk, text) or _through(desk, text) or Looked(text, str(fault), fault.places)
    return None


def _through(desk: Desk, text: str) -> Looked | None:
    """The one number known here that it is through another keyboard."""
    found = [one for one in readings(text) if is_known(desk, one.number)]
    return Looked(text, f"Perhaps {found[0].number}: {found[0].differs}.") if len(found) == 1 else None
