"""A place for a part: missing, wrong, closed over too early, outside the scope."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.lack import (
    FOREIGN_OWNER,
    MISSING,
    OUTSIDE,
    OVER_EMPTY,
    SWAPPED,
    TWICE,
    WRONG_COMPONENT,
    Lack,
    ToDo,
    at_place,
    lack,
    taking_out,
)
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.filling import GONE, fitted_twice, goes_in_as_one, holder, is_filled, sides
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named, part_named
from teardown_app.domain.nouns.parts import came_from, disposition_of, is_part, origin_of, part_number_of
from teardown_app.domain.nouns.place import covered_places, filled_heads, fits_place, keeps_set

WRONG_PARTS = (TWICE, FOREIGN_OWNER, WRONG_COMPONENT, SWAPPED)
"""What can be wrong with the part in a place."""


def place_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """All that is wrong with who fills a place that holds one part."""
    counts = job.scope(position.key).counts
    if counts == "out":
        yield from _outside(job, position)
        return
    yield from _twice(job, position)
    part = holder(job, position.key)
    if part:
        yield from _wrong(job, position, part)
        yield from _closed_over(job, position, part)
    elif counts == "in" and goes_in_as_one(job, position):
        yield _missing(job, position)


def _missing(job: Job, position: Position) -> Lack:
    key = position.key
    to_do, ground = ToDo("part fit", position_thing(key)), refs(filled_heads(job, key))
    return lack(MISSING, at_place(key), f"{named(job, key)} is not fitted.", to_do=to_do, ground=ground)


def _twice(job: Job, position: Position) -> Iterator[Lack]:
    key = position.key
    claims = fitted_twice(job, key)
    wrong = f"{len(claims)} parts are recorded in {named(job, key)}."
    for part in claims:
        yield lack(TWICE, at_place(key, part), wrong, ground=refs(filled_heads(job, key)), which=part)


def _wrong(job: Job, position: Position, part: str) -> Iterator[Lack]:
    """Of another job or owner, else of the wrong number, else from outside its matched set."""
    where, name, out = (
        at_place(position.key, part),
        named(job, position.key),
        taking_out(part, position.key),
    )
    claims = filled_heads(job, position.key)
    number = part_number_of(job, part)
    if not is_part(job, part) or origin_of(job, part) == "borrowed" or job.value(part, "owner") == "other job":
        wrong = f"The part in {name} belongs to another job or owner."
        ground = refs([*claims, *job.heads(part, "origin"), *job.heads(part, "owner")])
        yield lack(FOREIGN_OWNER, where, wrong, to_do=out, ground=ground)
    elif not fits_place(job, position, number):
        wrong = f"{name} holds part number {number}; it takes {position.line.part_number}."
        ground = refs([*claims, *job.heads(part, "part_number")])
        yield lack(WRONG_COMPONENT, where, wrong, to_do=out, ground=ground)
    elif position.line.matched_set and not keeps_set(job, position, part):
        wrong = f"{name} belongs to a matched set and holds a part from elsewhere."
        yield lack(SWAPPED, where, wrong, to_do=out, ground=_ground_of_set(job, position, part))


def _ground_of_set(job: Job, position: Position, part: str) -> tuple[str, ...]:
    claims = [head for one in job.bill.matched(position.key) for head in filled_heads(job, one.key)]
    return refs([*claims, *job.heads(part, "out_of")])


def _closed_over(job: Job, position: Position, part: str) -> Iterator[Lack]:
    name = named(job, position.key)
    for key in covered_places(job, position):
        beneath = job.positions.get(key)
        if beneath is None or is_filled(job, beneath):
            continue
        yield lack(
            OVER_EMPTY,
            at_place(position.key, part),
            f"{name} is fitted, but {named(job, key)} beneath it is empty.",
            to_do=taking_out(part, position.key),
            ground=refs([*filled_heads(job, position.key), *filled_heads(job, key)]),
            which=key,
            clears=f"Take {name} out and fill {key} first.",
        )


def _outside(job: Job, position: Position) -> Iterator[Lack]:
    key = position.key
    parts = [part for part in came_from(job, key) if disposition_of(job, part) not in GONE]
    for part in sorted({*parts, *sides(job, key)}):
        wrong = f"{part_named(job, part, key)}: the place is said to be {job.scope(key).word}."
        ground = refs([*job.scope(key).entries, *job.heads(part, "out_of"), *filled_heads(job, key)])
        yield lack(OUTSIDE, at_place(key, part), wrong, ground=ground, which=part)
