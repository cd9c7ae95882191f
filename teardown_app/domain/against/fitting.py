"""What stands against fitting a part into a place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from teardown_app.domain.against.another_unit import against_another_unit
from teardown_app.domain.against.leaving import on_top
from teardown_app.domain.against.release import against_going_on, against_release
from teardown_app.domain.against.scope import against_scope
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.consumable import consumable_lacks
from teardown_app.domain.lacks.hardware import hardware_lacks
from teardown_app.domain.lacks.hold import part_holds, place_holds
from teardown_app.domain.lacks.hole import hole_lacks
from teardown_app.domain.lacks.joint import joint_lacks
from teardown_app.domain.lacks.lack import (
    FITTED,
    FOREIGN,
    MISSING,
    NOT_OF_SET,
    NOT_RELEASED,
    OCCUPIED,
    OTHER_NUMBER,
    OVER,
    OVER_DUE,
    OVER_WRONG,
    Lack,
    ToDo,
    at_place,
    conceded,
    lack,
    of_part,
    standing,
    taking_out,
)
from teardown_app.domain.lacks.place import WRONG_PARTS, place_lacks
from teardown_app.domain.lacks.release import is_released, release_lacks, why_not_released
from teardown_app.domain.lacks.temporary import temporary_lacks
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.claiming import claims, places_of
from teardown_app.domain.parts.filling import gone_along, holder
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.parts import (
    is_new,
    origin_of,
    out_of,
    part_number_of,
)
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.places.closing_over import PARTS, held_places
from teardown_app.domain.places.place import (
    covered_places,
    empty_beneath,
    fits_place,
    in_the_way,
    left_in,
    unfilled_under,
)

DUE = {
    "hardware": (hardware_lacks, joint_lacks),
    "consumable": (consumable_lacks,),
    "temporary": (temporary_lacks,),
}
"""What can be due at a place by the kind of its line."""

NOBODY: Mapping[str, str] = {}


def against_fit(
    job: Job,
    part: str,
    position: Position,
    now: Moment,
    inside: Mapping[str, str] = NOBODY,
    brought: Sequence[str] = (),
) -> Iterator[Lack]:
    """What stands against fitting a part into a place now.

    `inside` are places that parts fill by the same act, `brought` places that came with the unit.
    """
    yield from _against_part(job, part, position, now)
    yield from _against_place(job, part, position, inside)
    yield from against_order(job, position, inside, brought)
    yield from against_another_unit(job, part, position, brought)


def _against_part(job: Job, part: str, position: Position, now: Moment) -> Iterator[Lack]:
    """The part itself: free, of this job, going back into the tool, not on hold, released."""
    where, name = of_part(job, part), part_named(job, part)
    places = places_of(job, part)
    if places and gone_along(job, position.key) != part:
        there = ", ".join(named(job, one) for one in places)
        wrong = f"{name} is fitted in {there} already."
        yield lack(FITTED, where, wrong, to_do=taking_out(part, places[0]))
    if origin_of(job, part) == "borrowed" or job.value(part, "owner") == "other job":
        to_do = ToDo("part hand-over", part)
        yield lack(FOREIGN, where, f"{name} belongs to another job or owner.", to_do=to_do)
    yield from against_going_on(job, part)
    yield from standing(job, [*part_holds(job, part), *place_holds(job, position)])
    yield from _against_unreleased(job, part, now)


def _against_unreleased(job: Job, part: str, now: Moment) -> Iterator[Lack]:
    if is_released(job, part) or any(conceded(job, one) for one in release_lacks(job, part, claims_none=True)):
        return
    found = against_release(job, part, now) or why_not_released(job, part)
    said = dict.fromkeys(one.wrong for one in found)
    clears = " ".join(dict.fromkeys(one.clears for one in found))
    yield lack(NOT_RELEASED, of_part(job, part), " ".join(said), to_do=found[0].to_do, clears=clears)


def _against_place(job: Job, part: str, position: Position, inside: Mapping[str, str]) -> Iterator[Lack]:
    """The place: asked for, of this part number, empty, and true to its matched set."""
    yield from against_scope(job, position)
    where, name = at_place(position.key, part), named(job, position.key)
    number = part_number_of(job, part)
    if not fits_place(job, position, number):
        said = f"{part_named(job, part)} has part number {number or 'unknown'}; {name} takes {takes(job, position)}."
        yield lack(OTHER_NUMBER, where, said)
    there = [inside[position.key]] if position.key in inside else claims(job, position.key)
    for one in (one for one in there if one != part or gone_along(job, position.key) != part):
        wrong = f"{name} is filled by {part_named(job, one)}."
        yield lack(OCCUPIED, where, wrong, to_do=taking_out(one, position.key))
    if position.line.matched_set and not _of_set(job, part, position, inside):
        yield lack(
            NOT_OF_SET,
            where,
            f"{name} belongs to the matched set {position.line.matched_set}: it takes the part that came out of it, "
            f"or a complete new set; {part_named(job, part)} is neither.",
        )


def takes(job: Job, position: Position) -> str:
    """The part numbers that go into a place, in words."""
    if position.key not in job.bill.positions:
        return position.line.part_number
    return " or ".join(sorted(job.bill.fitting(position.line.position)))


def _of_set(job: Job, part: str, position: Position, inside: Mapping[str, str]) -> bool:
    """Within a matched set only what came out of this very place, or a complete new set."""
    others = [one.key for one in job.bill.matched(position.key) if one.key != position.key]
    filled = {one: inside.get(one) or holder(job, one) for one in others}
    fresh = _new_mark(job, part)
    own = out_of(job, part) == position.key
    if own and not any(one and _new_mark(job, one) for one in filled.values()):
        return True
    stays = any(left_in(job, one) for one in others)
    return bool(fresh) and not stays and all(not one or _new_mark(job, one) == fresh for one in filled.values())


def _new_mark(job: Job, part: str) -> str:
    """The set mark of a new part, empty for others."""
    return str(job.value(part, "set_mark", "") or "") if is_new(job, part) else ""


def against_order(
    job: Job, position: Position, inside: Mapping[str, str] = NOBODY, brought: Sequence[str] = ()
) -> Iterator[Lack]:
    """What stands against filling a place whatever part it is: something on top of it, empty or due beneath it."""
    yield from on_top(job, position.key, named(job, position.key), in_the_way(job, position, inside))
    where = at_place(position.key)
    empty = empty_beneath(job, position, inside, brought)
    for key in dict.fromkeys([*empty, *_holes(job, unfilled_under(job, position.key, inside), brought)]):
        wrong = f"{named(job, position.key)} closes over {named(job, key)}, which is empty."
        yield lack(OVER, where, wrong, to_do=ToDo("part fit", position_thing(key)), which=key)
    yield from _over_wrong(job, position)
    yield from _over_due(job, position, brought)


def _holes(job: Job, keys: Sequence[str], brought: Sequence[str]) -> Iterator[str]:
    """Of these places those that are missing: also what is reached only through places that are empty themselves."""
    for key in keys:
        came = any(one in brought for one in (key, *job.ancestors(key)))
        if not came and any(one.kind == MISSING for one in standing(job, hole_lacks(job, job.positions[key]))):
            yield key


def _over_due(job: Job, position: Position, brought: Sequence[str]) -> Iterator[Lack]:
    """What is due beneath before the tool runs counts as empty: seals, screws, torques, what is in for a time. What was
    conceded does not, nor what came with the unit, nor screws that hold this place or what is above it: they go in
    afterwards."""
    above = {position.key, *job.ancestors(position.key)}
    for each in (job.positions[key] for key in covered_places(job, position)):
        if any(one in brought for one in (each.key, *job.ancestors(each.key))) or above & {*held_places(job, each.key)}:
            continue
        for one in standing(job, (due for lacks in DUE.get(each.line.kind, ()) for due in lacks(job, each))):
            if one.gate != SHIP:
                wrong = f"{named(job, position.key)} closes over what is due: {one.wrong}"
                yield lack(OVER_DUE, at_place(position.key), wrong, to_do=one.to_do, which=one.where.position)


def _over_wrong(job: Job, position: Position) -> Iterator[Lack]:
    """What is wrong with parts beneath is put right before they are closed over; what was conceded may stay."""
    for one in standing(job, _wrong_beneath(job, position)):
        wrong = f"{named(job, position.key)} closes over what is wrong: {one.wrong}"
        yield lack(OVER_WRONG, at_place(position.key), wrong, to_do=one.to_do, which=one.where.position)


def _wrong_beneath(job: Job, position: Position) -> Iterator[Lack]:
    """Of parts beneath: wrong ones, those not released, those that lie over an empty place themselves."""
    for each in (job.positions[key] for key in covered_places(job, position) if key in job.positions):
        if each.line.kind not in PARTS:
            continue
        yield from (one for one in place_lacks(job, each) if one.kind in WRONG_PARTS)
        if holder(job, each.key):
            yield from release_lacks(job, holder(job, each.key))
            holes = (job.positions[key] for key in unfilled_under(job, each.key))
            yield from (one for hole in holes for one in hole_lacks(job, hole) if one.where.position == each.key)
