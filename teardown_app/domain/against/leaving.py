"""What stands against taking a part out of its place, off the tool or away, and against bringing in another."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from teardown_app.domain.against.scope import against_scope
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.finding import waiting_lacks
from teardown_app.domain.lacks.lack import (
    CAME_OFF,
    CLOSED_OVER,
    FITTED,
    GONE_PART,
    OCCUPIED,
    Lack,
    ToDo,
    at_place,
    lack,
    of_part,
    standing,
    taking_out,
)
from teardown_app.domain.parts.claiming import places_of
from teardown_app.domain.parts.filling import holder, place_of
from teardown_app.domain.parts.going_back import GONE, handed_over
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.parts import (
    came_from,
    disposition_of,
    own_place,
    parts,
)
from teardown_app.domain.places.place import in_the_way
from teardown_app.domain.places.scope import scope_of


def against_out(job: Job, part: str, key: str, gone: Collection[str] = ()) -> Iterator[Lack]:
    """What closes over a part comes out before it; one recorded twice may be put right at any time."""
    if holder(job, key) == part:
        over = [one for one in in_the_way(job, job.positions[key]) if one not in gone]
        yield from on_top(job, key, part_named(job, part), over)


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
    yield from on_top(job, key, name, [one for one in in_the_way(job, position) if holder(job, one)])


def against_bring_in(job: Job, position: Position) -> Iterator[Lack]:
    """A further part for a place waits while one that it replaces waits for an answer or is to go back in. One that
    sits in another place by now is not replaced, and does not come back."""
    yield from against_scope(job, position)
    key = position.key
    came, meant = came_from(job, key), [part for part in parts(job) if own_place(job, part) == key]
    for part in (one for one in dict.fromkeys([*came, *meant]) if not _sits_elsewhere(job, one, key)):
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


def _sits_elsewhere(job: Job, part: str, key: str) -> bool:
    places = places_of(job, part)
    return bool(places) and key not in places


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


def on_top(job: Job, key: str, name: str, over: Sequence[str]) -> Iterator[Lack]:
    """Parts that lie over a place: each comes out first."""
    for one in over:
        part = holder(job, one)
        to_do = taking_out(part, one) if part else None
        yield lack(CLOSED_OVER, at_place(key), f"{name} is closed over by {named(job, one)}.", to_do=to_do, which=one)
