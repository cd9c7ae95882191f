"""Points about a place for a part: missing, wrong, closed over too early, outside the scope."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.filling import GONE, fitted_twice, goes_in_as_one, holder, is_filled, sides
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named, part_named
from teardown_app.domain.nouns.parts import (
    came_from,
    disposition_of,
    is_part,
    origin_of,
    part_number_of,
)
from teardown_app.domain.nouns.place import covered_places, filled_heads, fits_place, keeps_set
from teardown_app.domain.points.point import Point, at_place, point


def place_points(job: Job, position: Position) -> Iterator[Point]:
    """All points about who fills a place that holds one part."""
    counts = job.scope(position.key).counts
    if counts == "out":
        yield from _outside(job, position)
        return
    yield from _twice(job, position)
    part = holder(job, position.key)
    if not part:
        if counts == "in" and goes_in_as_one(job, position):
            yield from _missing(job, position)
        return
    yield from _wrong(job, position, part)
    yield from _closed_over(job, position, part)


def _missing(job: Job, position: Position) -> Iterator[Point]:
    key = position.key
    yield point(
        job,
        "missing",
        at_place(key),
        wrong=f"{named(job, key)} is not fitted.",
        clears="Fit a released part, or say why the place stays empty.",
        behind=refs(filled_heads(job, key)),
    )


def _twice(job: Job, position: Position) -> Iterator[Point]:
    claims = fitted_twice(job, position.key)
    for part in claims:
        yield point(
            job,
            "fitted twice",
            at_place(position.key, part),
            which=part,
            wrong=f"{len(claims)} parts are recorded in {named(job, position.key)}.",
            clears="Look which one is there and take the other out.",
            behind=refs(filled_heads(job, position.key)),
            gate=SHIP,
        )


def _wrong(job: Job, position: Position, part: str) -> Iterator[Point]:
    claims = filled_heads(job, position.key)
    behind = refs([*claims, *job.heads(part, "part_number")])
    where = at_place(position.key, part)
    name = named(job, position.key)
    if not is_part(job, part) or origin_of(job, part) == "borrowed" or job.value(part, "owner") == "other job":
        yield point(
            job,
            "belongs to another job or owner",
            where,
            wrong=f"The part in {name} belongs to another job or owner.",
            clears="Take it out, or record that it was handed over.",
            behind=refs([*claims, *job.heads(part, "origin"), *job.heads(part, "owner")]),
        )
        return
    number = part_number_of(job, part)
    if not fits_place(job, position, number):
        yield point(
            job,
            "wrong component",
            where,
            wrong=f"{name} holds part number {number}; it takes {position.line.part_number}.",
            clears="Take it out and fit the right part.",
            behind=behind,
        )
    elif position.line.matched_set and not keeps_set(job, position, part):
        yield point(
            job,
            "swapped within a matched set",
            where,
            wrong=f"{name} belongs to a matched set and holds a part from elsewhere.",
            clears="Fit the part that came out of this place, or a complete new set.",
            behind=_behind_set(job, position, part),
        )


def _behind_set(job: Job, position: Position, part: str) -> tuple[str, ...]:
    claims = [head for one in job.bill.matched(position.key) for head in filled_heads(job, one.key)]
    return refs([*claims, *job.heads(part, "out_of")])


def _closed_over(job: Job, position: Position, part: str) -> Iterator[Point]:
    for key in covered_places(job, position):
        beneath = job.positions.get(key)
        if beneath is None or is_filled(job, beneath):
            continue
        yield point(
            job,
            "fitted over an empty position",
            at_place(position.key, part),
            which=key,
            wrong=f"{named(job, position.key)} is fitted, but {named(job, key)} beneath it is empty.",
            clears=f"Take {named(job, position.key)} out and fill {key} first.",
            behind=refs([*filled_heads(job, position.key), *filled_heads(job, key)]),
        )


def _outside(job: Job, position: Position) -> Iterator[Point]:
    key = position.key
    parts = [part for part in came_from(job, key) if disposition_of(job, part) not in GONE]
    for part in sorted({*parts, *sides(job, key)}):
        yield point(
            job,
            "outside the scope",
            at_place(key, part),
            which=part,
            wrong=f"{part_named(job, part, key)}: the place is said to be {job.scope(key).word}.",
            clears="Correct what was received, or the part's place.",
            behind=refs([*job.scope(key).entries, *job.heads(part, "out_of"), *filled_heads(job, key)]),
            gate=SHIP,
        )
