"""A part is fitted: a released one, into a place that it fits, that is empty and can be reached."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.against.fitting import against_fit
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.claiming import claims
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import origin_of, own_place
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.called import place_meant
from teardown_app.workflows.deed import PARTS, PLACE, Deed, Field

ALL = "all"
"""In place of the places that came with a unit: all beneath it."""


def fit(act: Act, chosen: Sequence[str], *, key: str = "", came_with: Sequence[str] = (), note: str = "") -> Drafts:
    """Fits parts, one after the other, each into its own place or one part into the place named.

    `came_with` names what beneath a new or exchanged unit came with it, or `all`.
    """
    act.working()
    if not chosen or (len(chosen) > 1 and (key or came_with)):
        refuse("One place takes one part.", "Name one part, or several that each go into their own place.")
    inside: dict[str, str] = {}
    drafts = []
    for part in chosen:
        position = _place(act, part, key)
        brought = _came_with(act, part, position, came_with)
        refuse_for(against_fit(act.job, part, position, act.now, inside, brought))
        inside[position.key] = part
        ends = (part, position_thing(position.key))
        drafts.append(act.draft("part.fitted", ends, came_with=brought or None, note=note or None))
    return drafts


def _place(act: Act, part: str, key: str) -> Position:
    wanted = key or own_place(act.job, part)
    if not wanted:
        refuse(f"{act.name(part)} has no place of its own.", "Say where it goes.")
    return place_meant(act, wanted, "part", "assembly")


def _came_with(act: Act, part: str, position: Position, came_with: Sequence[str]) -> list[str]:
    """Places beneath a unit that it filled when it came; the unit must be one that was not in the tool."""
    if not came_with:
        return []
    if origin_of(act.job, part) == "as received":
        refuse(
            f"{act.name(part)} came out of this tool; what is beneath it has a record of its own.",
            "Fit the parts beneath it first, each by itself.",
        )
    beneath = [one.key for one in act.job.beneath(position.key)]
    keys = [one.key for one in act.job.children(position.key)] if list(came_with) == [ALL] else list(came_with)
    for key in keys:
        if key not in beneath:
            refuse(
                f"{key} is not beneath {named(act.job, position.key)}.",
                f"It has {', '.join(beneath) or 'none'}.",
            )
    for one in [*keys, *(each.key for key in keys for each in act.job.beneath(key))]:
        if claims(act.job, one):
            parts = ", ".join(act.name(each) for each in claims(act.job, one))
            refuse(f"{named(act.job, one)} is filled by {parts}.", "Take that out, or do not name the place.")
    return keys


FIT = Deed(
    name="part fit", about=PARTS, do=fit, writes=("part.fitted",),
    says="Fit released parts, each into its own place, or one into the place named.",
    example="PO-7781 10.20 10.30 --by AS",
    done="{name} is fitted in {place}.",
    fields=(Field("key", says="place it goes into; else the part's own", sort=PLACE),
            Field("came_with", says="what beneath a new or exchanged unit came with it, or all", sort=PLACE, many=True),
            Field("note")),
)  # fmt: skip
