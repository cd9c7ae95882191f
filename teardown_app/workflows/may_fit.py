"""May this part go into this place now? The part, the place, and what closes over what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.consumable import consumable_lacks
from teardown_app.domain.lacks.lack import standing
from teardown_app.domain.lacks.release import against_release, is_released, why_not_released
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.next.next_in import claims, empty_beneath, in_the_way
from teardown_app.domain.nouns.conceding import is_conceded
from teardown_app.domain.nouns.filling import holder, left_in, places_of
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.nouns.parts import is_new, origin_of, out_of, part_number_of
from teardown_app.domain.nouns.place import fits_place
from teardown_app.domain.nouns.release import covers
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.called import in_scope
from teardown_app.workflows.may_work import check_goes_on, check_no_hold


def check_part(act: Act, part: str, position: Position) -> None:
    """The part itself: free, of this job, going back into the tool, released."""
    places = places_of(act.job, part)
    if places:
        there = ", ".join(named(act.job, one) for one in places)
        refuse(f"{act.name(part)} is fitted in {there} already.", "Take it out there first: part out.")
    if origin_of(act.job, part) == "borrowed" or act.job.value(part, "owner") == "other job":
        refuse(
            f"{act.name(part)} belongs to another job or owner.",
            "Have it handed over with the owner's consent, or fit another part.",
        )
    check_goes_on(act, part)
    check_no_hold(act, part)
    check_no_hold(act, position_thing(position.key))
    _check_released(act, part)


def _check_released(act: Act, part: str) -> None:
    if is_released(act.job, part):
        return
    if is_conceded(act.job, "not released", part, "", covers(act.job, part)):
        return
    found = against_release(act.job, part, act.now) or why_not_released(act.job, part)
    refuse(" ".join(one.wrong for one in found), " ".join(dict.fromkeys(one.clears for one in found)))


def check_place(act: Act, part: str, position: Position, inside: Mapping[str, str]) -> None:
    """The place: asked for, of this part number, empty, and true to its matched set."""
    in_scope(act, position)
    name = named(act.job, position.key)
    number = part_number_of(act.job, part)
    if not fits_place(act.job, position, number):
        takes = _takes(act.job, position)
        refuse(
            f"{act.name(part)} has part number {number or 'unknown'}; {name} takes {takes}.",
            "Look at the part and its label again, or fit the right one.",
        )
    there = [inside[position.key]] if position.key in inside else claims(act.job, position.key)
    if there:
        refuse(
            f"{name} is filled by {', '.join(act.name(one) for one in there)}.",
            "Take that out first, with the reason: part out.",
        )
    _check_set(act, part, position, inside)


def _takes(job: Job, position: Position) -> str:
    if position.key not in job.bill.positions:
        return position.line.part_number
    return " or ".join(sorted(job.bill.fitting(position.line.position)))


def _check_set(act: Act, part: str, position: Position, inside: Mapping[str, str]) -> None:
    """Within a matched set only what came out of this very place, or a complete new set."""
    if not position.line.matched_set:
        return
    job = act.job
    others = [one.key for one in job.bill.matched(position.key) if one.key != position.key]
    filled = {one: inside.get(one) or holder(job, one) for one in others}
    fresh = _new_mark(job, part)
    own = out_of(job, part) == position.key
    if own and not any(one and _new_mark(job, one) for one in filled.values()):
        return
    stays = any(left_in(job, one) for one in others)
    if fresh and not stays and all(not one or _new_mark(job, one) == fresh for one in filled.values()):
        return
    refuse(
        f"{named(job, position.key)} belongs to the matched set {position.line.matched_set}: it takes "
        f"the part that came out of it, or a complete new set; {act.name(part)} is neither.",
        "Fit the part that came out of this place, or new parts with one set mark in all places of the set.",
    )


def _new_mark(job: Job, part: str) -> str:
    """The set mark of a new part, empty for others."""
    return str(job.value(part, "set_mark", "") or "") if is_new(job, part) else ""


def check_order(act: Act, position: Position, inside: Mapping[str, str], brought: Sequence[str]) -> None:
    """Nothing on top of it yet, and nothing empty beneath it."""
    name = named(act.job, position.key)
    on_top = in_the_way(act.job, position, inside)
    if on_top:
        refuse(
            f"{name} is closed over by {_list(act.job, on_top)}.",
            "Take that out first, with the reason: part out.",
        )
    empty = empty_beneath(act.job, position, inside, brought)
    if empty:
        refuse(
            f"{name} closes over empty places; these must come first: {_list(act.job, empty)}.",
            "Fit them first, or say why a place stays empty: job received.",
        )
    old = seals_due(act.job, position)
    if old:
        refuse(
            f"{name} closes over what has to be new: {'; '.join(old)}.",
            "Renew it first: consumable renew; afterwards it is reached only by taking this out again.",
        )


def seals_due(job: Job, position: Position) -> list[str]:
    """Consumables that this part closes over by the bill's order, and that are due and not conceded."""
    keys = job.bill.closes_over(position.key) if position.key in job.bill.positions else ()
    found = [one for key in keys for one in consumable_lacks(job, job.positions[key])]
    return [one.wrong.rstrip(".") for one in standing(job, found)]


def _list(job: Job, keys: Sequence[str]) -> str:
    return ", ".join(named(job, key) for key in keys)
