"""Numbers for places and people that have none yet, so that labels can be printed for them."""

from __future__ import annotations

from collections.abc import Callable

from teardown_app.domain.ledger.record import SHOP, Draft
from teardown_app.workflows.act import Drafts, ShopAct
from teardown_app.workflows.deed import by_hand
from teardown_app.workflows.shop import add_place, give_rights

NewNumbers = Callable[[int], tuple[list[str], Draft]]
"""How many -> numbers never issued before, and the record that says so."""


def number_places(act: ShopAct, new: NewNumbers) -> Drafts:
    """Every place in use gets a number; none when all have one."""
    act.needs("record")
    names = [one.name for one in act.shop.places() if not one.number]
    if not names:
        return []
    numbers, issued = new(len(names))
    given = [add_place(act, name, number=number) for name, number in zip(names, numbers, strict=True)]
    return [issued, *(draft for drafts in given for draft in drafts)]


def badge_people(act: ShopAct, new: NewNumbers) -> Drafts:
    """Everybody without a badge gets one; rights stay as they are."""
    act.needs("office")
    people = {code: one for code, one in sorted(act.shop.people().items()) if not one.badge and not one.revoked}
    if not people:
        return []
    numbers, issued = new(len(people))
    drafts: Drafts = [issued]
    for (code, one), number in zip(people.items(), numbers, strict=True):
        drafts += give_rights(
            act,
            code,
            rights=one.rights,
            until=one.until,
            qualifications=one.qualifications,
            badge=number,
        )
    return drafts


SHEET = by_hand("label sheet", SHOP, "{count} labels: {done}", "numbers.issued", "place.given", "person.given")
