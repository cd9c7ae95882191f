"""Readings that are due: of a part that goes back into the tool, or at a place."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.ground import records_of
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.hole import stays_empty
from teardown_app.domain.lacks.lack import (
    CHECK_DUE,
    NOT_READ,
    Lack,
    ToDo,
    Where,
    at_place,
    lack,
    of_part,
)
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.conceding import Ground, may_be_conceded
from teardown_app.domain.parts.doubt import found_out_about
from teardown_app.domain.parts.going_back import goes_back
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.parts import is_new, own_place
from teardown_app.domain.parts.routing import operation_facets
from teardown_app.domain.places.checking import (
    AS_FOUND,
    GRAVER,
    OVER_GRAVER,
    Needed,
    Status,
    gate_of,
    needed_for,
    part_status,
    place_checks,
    place_status,
    release_checks,
    why_open,
)
from teardown_app.domain.places.reading_ground import reading_ground
from teardown_app.domain.places.scope import said_of, scope_of
from teardown_app.domain.signed.scope_words import reaches_protective


def part_readings(job: Job, part: str) -> Iterator[Lack]:
    """Readings that a part still needs: asked of every part that goes back into the tool."""
    if goes_back(job, part):
        yield from release_readings(job, part)


@remembered
def release_readings(job: Job, part: str) -> list[Lack]:
    """Readings that a part needs for its release and that do not count as accepted."""
    return list(_not_accepted(job, part))


def _not_accepted(job: Job, part: str) -> Iterator[Lack]:
    where = of_part(job, part)
    name = part_named(job, part, where.position)
    for needed in release_checks(job, part):
        found = part_status(job, part, needed)
        if found.word != "accept":
            yield _due(job, part, where, name, found, partial(_ground_of_part, job, part, needed))


def place_readings(job: Job, position: Position) -> Iterator[Lack]:
    """Readings at a place that do not count as accepted. Where it is out, or stays empty, protective ones are asked
    all the same until that is accepted."""
    if not position.line.checks:
        return
    out = scope_of(job, position.key).counts == "out"
    for needed in place_checks(job, position):
        may = may_be_conceded(needed.check)
        if (out and (may or reaches_protective(job, position.key))) or stays_empty(job, position, by_office=not may):
            continue
        found = place_status(job, position, needed)
        if found.word != "accept":
            thing, name = position_thing(position.key), f"{named(job, position.key)} ({needed.when})"
            yield _due(job, thing, at_place(position.key), name, found, partial(_ground_at_place, job, thing, needed))


def _ground_of_part(job: Job, part: str, needed: Needed) -> list[Record]:
    return [*_ground(job, part, needed), *records_of(job.ever(part, "disposition"))]


def _ground_at_place(job: Job, thing: str, needed: Needed) -> list[Record]:
    return [*_ground(job, thing, needed), *said_of(job, thing[1:])]


def _ground(job: Job, thing: str, needed: Needed) -> tuple[Record, ...]:
    """All readings of the cell, what they rest on, and what was found out about their instruments."""
    entries = job.ever(thing, needed.facet)
    ground = reading_ground(job, thing, needed.reading)
    return (*records_of(entries), *ground, *found_out_about(job, entries))


def as_found_readings(job: Job, part: str) -> Iterator[Lack]:
    """Readings on arrival and as found that nobody took, while no work has begun on the part: they bind nothing."""
    position = job.positions.get(own_place(job, part))
    if position is None or operation_facets(job, part) or is_new(job, part):
        return
    where = of_part(job, part)
    for needed in needed_for(job, position, AS_FOUND):
        if not job.heads(part, needed.facet):
            asked = (("check", needed.check.name), ("when", needed.when), ("spot", needed.spot))
            wrong = f"{part_named(job, part, where.position)}: {needed.says}: not read as found."
            yield lack(NOT_READ, where, wrong, to_do=ToDo("check read", part, asked), which=needed.facet)


def _due(job: Job, thing: str, where: Where, name: str, status: Status, ground: Ground) -> Lack:
    needed = status.needed
    asked = (("check", needed.check.name), ("when", needed.when), ("spot", needed.spot))
    return lack(
        CHECK_DUE,
        where,
        " ".join([f"{name}: {needed.says}: {status.word}.", why_open(job, status)]).strip(),
        to_do=None if _is_looked_at(status) else ToDo("check read", thing, asked),
        ground=ground,
        which=needed.facet,
        gate=gate_of(needed.when),
        never=not may_be_conceded(needed.check),
    )


def _is_looked_at(status: Status) -> bool:
    """A protective check that failed: reading it once more changes nothing, so a person looks what is wrong."""
    return not may_be_conceded(status.needed.check) and status.word in (*GRAVER, OVER_GRAVER)
