"""Where a thing is: parts and carriers are put in a known place, a tray place or a bag."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.against.leaving import against_putting
from teardown_app.domain.tags.tag import TagFault, parse
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.deed import PARTS_OR_CARRIERS, Deed, Field


def put(act: Act, things: Sequence[str], place: str, *, note: str = "") -> Drafts:
    """Puts parts or carriers in a place, each once however often it is named."""
    act.working()
    check_place(act, place)
    each = tuple(dict.fromkeys(act.job.group(thing)[0] for thing in things))
    for thing in each:
        refuse_for(against_putting(act.job, thing))
    return [act.draft("thing.put", each, place=place, note=note or None)]


def check_place(act: Act, place: str) -> None:
    """Refuses a place nobody knows: registered places and carriers, with what stands behind a `/` left free."""
    name = place.split("/")[0].strip()
    if act.shop.place(name) or carrier_thing(act, name):
        return
    known = [one.name for one in act.shop.places()][:8]
    listed = f" Known are {', '.join(known)}." if known else ""
    refuse(f"There is no place {name}.{listed}", f"Register it. A spot in it is written {name}/B3.", "shop place")


def carrier_thing(act: Act, name: str) -> str:
    """The carrier of a number on a label, empty when it is none that the shop knows."""
    try:
        number = parse(name).number
    except TagFault:
        return ""
    return f"carrier:{number}" if any(one.number == number for one in act.shop.carriers()) else ""


PUT = Deed(
    name="part put", about=PARTS_OR_CARRIERS, do=put, writes=("thing.put",),
    says="Put parts in a place or carrier.",
    example="PO-7781 'RACK 3-2' P7K3M0000Y --by MK",
    done="{name} is in {place}.",
    fields=(Field("place", "Where is it put?", "a known place or carrier; a spot in it as 'TRAY 4/B3'", first=True,
                  offers=lambda act: [one.name for one in act.shop.places()]),
            Field("note")),
)  # fmt: skip
