"""What stands against fitting a part, taking it out again, taking one off, and bringing one in."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.asked import against_scope
from teardown_app.domain.lacks.consumable import consumable_lacks
from teardown_app.domain.lacks.finding import waiting_lacks
from teardown_app.domain.lacks.hardware import hardware_lacks
from teardown_app.domain.lacks.hold import part_holds, place_holds
from teardown_app.domain.lacks.joint import joint_lacks
from teardown_app.domain.lacks.lack import (
    CAME_OFF,
    CLOSED_OVER,
    FITTED,
    FOREIGN,
    GONE_PART,
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
from teardown_app.domain.lacks.release import (
    against_going_on,
    against_release,
    is_released,
    release_lacks,
    why_not_released,
)
from teardown_app.domain.lacks.temporary import temporary_lacks
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.filling import GONE, claims, handed_over, holder, place_of, places_of
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.parts import (
    came_from,
    disposition_of,
    is_new,
    origin_of,
    out_of,
    own_place,
    part_number_of,
    parts,
)
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.places.closing_over import held_places
from teardown_app.domain.places.place import covered_places, empty_beneath, fits_place, in_the_way, left_in
from teardown_app.domain.places.scope import scope_of

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


def _against_part(job: Job, part: str, position: Position, now: Moment) -> Iterator[Lack]:
    """The part itself: free, of this job, going back into the tool, not on hold, released."""
    where, name = of_part(job, part), part_named(job, part)
    places = places_of(job, part)
    if places:
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
    for one in there:
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
    yield from _on_top(job, position.key, named(job, position.key), in_the_way(job, position, inside))
    where = at_place(position.key)
    for key in empty_beneath(job, position, inside, brought):
        wrong = f"{named(job, position.key)} closes over {named(job, key)}, which is empty."
        yield lack(OVER, where, wrong, to_do=ToDo("part fit", position_thing(key)), which=key)
    yield from _over_wrong(job, position)
    yield from _over_due(job, position, brought)


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
    """A wrong part beneath comes out before it is closed over; one that was conceded may stay."""
    beneath = [job.positions[key] for key in covered_places(job, position) if key in job.positions]
    found = [one for each in beneath if each.line.kind in ("part", "assembly") for one in place_lacks(job, each)]
    for one in standing(job, (each for each in found if each.kind in WRONG_PARTS)):
        wrong = f"{named(job, position.key)} closes over what is wrong: {one.wrong}"
        yield lack(OVER_WRONG, at_place(position.key), wrong, to_do=one.to_do, which=one.where.position)


def _on_top(job: Job, key: str, name: str, over: Sequence[str]) -> Iterator[Lack]:
    for one in over:
        part = holder(job, one)
        to_do = taking_out(part, one) if part else None
        yield lack(CLOSED_OVER, at_place(key), f"{name} is closed over by {named(job, one)}.", to_do=to_do, which=one)


def against_out(job: Job, part: str, key: str, gone: Collection[str] = ()) -> Iterator[Lack]:
    """What closes over a part comes out before it; one recorded twice may be put right at any time."""
    if holder(job, key) == part:
        over = [one for one in in_the_way(job, job.positions[key]) if one not in gone]
        yield from _on_top(job, key, part_named(job, part), over)


def against_off(job: Job, position: Position) -> Iterator[Lack]:
    """What stands against taking a part off its place for the first time."""
    key, where, name = position.key, at_place(position.key), named(job, position.key)
    if scope_of(job, key).counts == "out":
        yield from against_scope(job, position)
    inside, there = holder(job, key), came_from(job, key)
    if inside:
        wrong = f"{part_named(job, inside)} is fitted there."
        yield lack(OCCUPIED, where, wrong, to_do=taking_out(inside, key))
    if there:
        numbers = ", ".join(part_named(job, part) for part in there)
        wrong, to_do = f"A part came out of {name} already: {numbers}.", ToDo("part same", there[0])
        yield lack(CAME_OFF, where, wrong, to_do=to_do)
    yield from _on_top(job, key, name, [one for one in in_the_way(job, position) if holder(job, one)])


def against_bring_in(job: Job, position: Position) -> Iterator[Lack]:
    """A further part for a place waits while one that it replaces waits for an answer or is to go back in."""
    yield from against_scope(job, position)
    key = position.key
    came, meant = came_from(job, key), [part for part in parts(job) if own_place(job, part) == key]
    for part in dict.fromkeys([*came, *meant]):
        yield from standing(job, waiting_lacks(job, part))
        yield from against_leaving(job, part)
        if part in meant and disposition_of(job, part) not in GONE and not handed_over(job, part):
            yield lack(
                GONE_PART,
                of_part(job, part),
                f"{part_named(job, part)} is still meant to go back into {named(job, key)}.",
                to_do=ToDo("part judge", part),
                clears="Disposition it as spare, return unrepaired or scrap first.",
            )


def against_leaving(job: Job, part: str) -> Iterator[Lack]:
    """A part that fills a place of the tool comes out before it is worked on, put away or given up."""
    places = places_of(job, part)
    if places:
        there = ", ".join(named(job, key) for key in places)
        wrong = f"{part_named(job, part)} is fitted in {there}."
        clears = "Take it out first, with the reason."
        yield lack(FITTED, of_part(job, part), wrong, to_do=taking_out(part, places[0]), clears=clears)


def against_putting(job: Job, part: str) -> Iterator[Lack]:
    """The same, asked of a part that fills its place on both sides."""
    if place_of(job, part):
        yield from against_leaving(job, part)
