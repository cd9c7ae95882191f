"""A fitted part is taken out again, with the reason."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.against.leaving import against_out
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.claiming import places_of, sides
from teardown_app.domain.parts.naming import named
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
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
        refuse_for(against_out(act.job, part, place, gone))
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
        refuse(f"{act.name(part)} is recorded in {there}.", "Say out of which.")
    return places[0]


OUT = Deed(
    name="part out", about=PARTS, do=take_out, writes=("part.taken_out",),
    says="Take fitted parts out again.",
    example="PO-7781 10.30 --why 'seal was not in' --by AS",
    done="{name} is out of {place}.",
    fields=(Field("key", says="where a part is recorded in several places: out of which", sort=PLACE),
            Field("why", "Why does it come out again?", "the reason", needed=True)),
)  # fmt: skip
