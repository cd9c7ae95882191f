"""A fitted part is taken out again, with the reason."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.next.next_in import in_the_way
from teardown_app.domain.nouns.filling import holder, places_of, sides
from teardown_app.domain.nouns.naming import named
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import PARTS, PLACE, Deed, Field


def take_out(act: Act, chosen: Sequence[str], *, why: str, key: str = "") -> Drafts:
    """Takes parts out, one after the other; `key` where a part is recorded in several places."""
    act.working()
    if not why.strip():
        refuse("Taking a part out again needs its reason.", "Say why.")
    if not chosen or (len(chosen) > 1 and key):
        refuse("One place holds one part.", "Name one part, or several without a place.")
    gone: set[str] = set()
    drafts = []
    for part in chosen:
        place = _place(act, part, key)
        _check_reach(act, part, place, gone)
        gone.add(place)
        drafts.append(act.draft("part.taken_out", (part, position_thing(place)), why=why.strip()))
    return drafts


def _place(act: Act, part: str, key: str) -> str:
    places = places_of(act.job, part)
    if key and (key in places or part in sides(act.job, key)):
        return key
    if key:
        refuse(
            f"{act.name(part)} is not fitted in {named(act.job, key)}.",
            "Leave the place away, or scan again.",
        )
    if not places:
        refuse(f"{act.name(part)} is fitted nowhere.", "Nothing needs to be taken out.")
    if len(places) > 1:
        there = ", ".join(named(act.job, one) for one in places)
        refuse(f"{act.name(part)} is recorded in {there}.", "Say out of which: --position KEY.")
    return places[0]


def _check_reach(act: Act, part: str, place: str, gone: set[str]) -> None:
    """What closes over a part comes out before it; a part recorded twice may be put right at any time."""
    if holder(act.job, place) != part:
        return
    on_top = [one for one in in_the_way(act.job, act.job.positions[place]) if one not in gone]
    if on_top:
        refuse(
            f"{act.name(part)} is closed over by {', '.join(named(act.job, one) for one in on_top)}.",
            "Take that out first, and name it before this part.",
        )


OUT = Deed(
    name="part out", about=PARTS, do=take_out, writes=("part.taken_out",),
    says="Take fitted parts out again.",
    example="PO-7781 10.30 --why 'seal was not in' --by AS",
    done="{name} is out of {place}.",
    fields=(Field("key", says="where a part is recorded in several places: out of which", sort=PLACE),
            Field("why", "Why does it come out again?", "the reason", needed=True)),
)  # fmt: skip
