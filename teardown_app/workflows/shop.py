"""People, places and carriers of the shop."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.record import SHOP, Draft
from teardown_app.workflows.act import Drafts, ShopAct, refuse
from teardown_app.workflows.deed import NUMBER, Deed, Field, by_hand
from teardown_app.workflows.label import label_number, not_void


def give_rights(
    act: ShopAct,
    code: str,
    *,
    rights: Sequence[str],
    until: str = "",
    qualifications: dict[str, str] | None = None,
    badge: str = "",
) -> Drafts:
    """Registers a person or changes what they may do. A new shop's first person gives himself everything."""
    _check_code(code)
    unknown = [right for right in rights if right not in RIGHTS]
    if unknown:
        refuse(f"There is no right {', '.join(unknown)}.", f"Rights are {', '.join(RIGHTS)}.")
    if badge:
        badge = _free_badge(act, code, badge)
    given = list(rights)
    if not act.shop.people():
        if code != act.by:
            refuse("A new shop's first person registers himself.", f"Let {code} record it.")
        given = list(RIGHTS)
    else:
        act.needs("office")
        if "office" not in given:
            _keeps_office(act, code)
    return [
        act.draft(
            "person.given",
            ("person:" + code,),
            code=code,
            rights=[right for right in RIGHTS if right in given],
            until=until or None,
            qualifications=qualifications or None,
            badge=badge or None,
        )
    ]


def revoke(act: ShopAct, code: str) -> Drafts:
    """Takes all rights from a person; what they recorded before stands."""
    act.needs("office")
    if code not in act.shop.people():
        refuse(f"Nobody is registered as {code}.", "List the people.", "shop people")
    _keeps_office(act, code)
    return [act.draft("person.given", ("person:" + code,), code=code, rights=[], revoked=True)]


def enrol(act: ShopAct, *, why: str) -> Drafts:
    """A person chose a PIN on this tablet; the office sees it. The PIN itself is nowhere in the records."""
    act.needs("record")
    return [pin_chosen(act, why)]


def pin_chosen(act: ShopAct, why: str) -> Draft:
    """What is recorded of a PIN; also of the first person's, who has no right yet."""
    return act.draft("pin.enrolled", ("person:" + act.by,), code=act.by, why=why)


def _free_badge(act: ShopAct, code: str, badge: str) -> str:
    """The number of a badge as printed: a label for people that nobody else has."""
    again, wanted = "Scan the badge again, or read it off.", "A badge is a label for people: it begins with W."
    number = not_void(act.shop, label_number(badge, "W", again=again, wanted=wanted))
    others = [one for one, person in act.shop.people().items() if one != code and not person.revoked]
    has = next((one for one in others if act.shop.people()[one].badge == number), "")
    if has:
        refuse(f"{number} is the badge of {has}.", "Take another one.")
    return number


def _keeps_office(act: ShopAct, code: str) -> None:
    """Refuses to leave the shop without anybody who can do office work."""
    dev, day = act.now.dev, act.now.wall[:10]
    if not any("office" in act.shop.rights_at(dev, one, day, act.now.clk) for one in act.shop.people() if one != code):
        refuse(f"{code} is the last one who may do office work.", "Give somebody else the right first.")


def _check_code(code: str) -> None:
    if not (2 <= len(code) <= 6 and code.isalnum() and code.isascii() and code == code.upper()):
        refuse(f"{code!r} is no code for a person.", "Take 2 to 6 letters or digits, such as the initials.")


def add_place(act: ShopAct, name: str, *, number: str = "") -> Drafts:
    """A bench, shelf or tray place by its name, and the number on its label."""
    act.needs("record")
    if not name.strip():
        refuse("A place needs a name.", "Write what people call it, such as RACK 3-2.")
    if number:
        number = _free_place_number(act, name, number)
    return [act.draft("place.given", ("place:" + name,), name=name, number=number or None)]


def _free_place_number(act: ShopAct, name: str, number: str) -> str:
    """The number of a place as printed, that no other place has."""
    again, wanted = "Scan it again, or read it off the label.", "A place's label begins with S."
    number = not_void(act.shop, label_number(number, "S", again=again, wanted=wanted))
    other = act.shop.place(number)
    if other and other.name != name:
        refuse(f"{number} is the number of {other.name}.", "Take the next label.")
    return number


def drop_place(act: ShopAct, name: str) -> Drafts:
    """A place is not used any more; what was put there before stays said."""
    act.needs("record")
    known = act.shop.place(name)
    if known is None:
        refuse(f"There is no place {name}.", "List the places.", "shop place")
    return [act.draft("place.given", ("place:" + name,), name=name, number=known.number or None, out=True)]


def add_carrier(act: ShopAct, number: str, *, name: str) -> Drafts:
    """A basket, tray, rack or tie-on tag by the number on its label."""
    act.needs("record")
    again, wanted = "Scan it again, or read it off the label.", "A carrier's label begins with C."
    number = not_void(act.shop, label_number(number, "C", again=again, wanted=wanted))
    return [act.draft("carrier.given", ("carrier:" + number,), number=number, name=name)]


def confirm_clock(act: ShopAct) -> Drafts:
    """A person has looked: the tablet's clock is right. Until then a clock that jumped satisfies no wait."""
    act.needs("release")
    if act.now.clk == "ok":
        refuse("The clock is right already.", "Nothing needs to be done.")
    if act.now.clk == "unset":
        refuse(f"The clock was never set: it says {act.now.wall[:16]}.", "Set the tablet's date and time first.")
    return [act.draft("clock.confirmed", ("tablet:" + act.now.dev,), was=act.now.clk)]


PERSON = by_hand("shop person", SHOP, "{code} may: {rights}", "person.given")
LEAVE = by_hand("shop leave", SHOP, "{code} may no longer record.", "person.given")
PIN = by_hand("shop pin", SHOP, "{code} chose a PIN.", "pin.enrolled", "person.given")
CLOCK = by_hand("shop clock", SHOP, "The clock is confirmed: {clock}.", "clock.confirmed")
PLACE = Deed(
    name="shop place", about=SHOP, do=add_place, writes=("place.given",),
    says="Register a bench, shelf or tray place.",
    example="'RACK 3-2' --by OF",
    done="Place {name}.",
    fields=(Field("name", "What is it called?", "what people call it, such as 'RACK 3-2'", first=True),
            Field("number", says="number on its label")),
)  # fmt: skip
CARRIER = Deed(
    name="shop carrier", about=SHOP, do=add_carrier, writes=("carrier.given",),
    says="Register a basket, tray, rack or tie-on tag.",
    example="C7K3M0001X --name 'basket 4' --by OF",
    done="Carrier {number}: {name}.",
    fields=(Field("number", "Scan its label", "number on its label (C…)", sort=NUMBER, first=True),
            Field("name", "What is it?", "what it is, such as 'basket 4'", needed=True)),
)  # fmt: skip
