"""Readings that are due: of a part that goes back into the tool, or at a place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from teardown_app.domain.bill.bill import Check, Position
from teardown_app.domain.lacks.lack import (
    CHECK_DUE,
    NOT_FINISHED,
    NOT_READ,
    RESTS,
    Lack,
    ToDo,
    Where,
    at_place,
    lack,
    of_part,
)
from teardown_app.domain.ledger.kinds.work import check_facet
from teardown_app.domain.ledger.record import is_position, position_thing
from teardown_app.domain.nouns.checking import (
    AGAIN,
    AS_FOUND,
    FINISHED,
    NEW,
    Status,
    behind_check,
    doubts_of,
    gate_of,
    needed_for,
    operation_spoils,
    part_status,
    place_checks,
    place_status,
    release_checks,
    why_open,
)
from teardown_app.domain.nouns.conceding import may_be_conceded, refs
from teardown_app.domain.nouns.filling import GONE, places_of
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named, part_named
from teardown_app.domain.nouns.parts import disposition_of, is_new, own_place
from teardown_app.domain.nouns.routing import Moment, hours_left, operation_facets, waits_open
from teardown_app.domain.nouns.scope import scope_of


def part_readings(job: Job, part: str) -> Iterator[Lack]:
    """Readings that a part still needs: asked of every part that goes back into the tool."""
    if disposition_of(job, part) not in GONE or places_of(job, part):
        yield from release_readings(job, part)


def release_readings(job: Job, part: str) -> Iterator[Lack]:
    """Readings that a part needs for its release and that do not count as accepted."""
    where = of_part(job, part)
    name = part_named(job, part, where.position)
    for needed in release_checks(job, part):
        status = part_status(job, part, needed)
        if status.word != "accept":
            yield _due(job, part, where, name, status, behind_check(job, part, status))


def place_readings(job: Job, position: Position) -> Iterator[Lack]:
    """Readings at a place, when fitted or for a gate, that do not count as accepted."""
    if not position.line.checks or scope_of(job, position.key).counts == "out":
        return
    for needed in place_checks(job, position):
        status = place_status(job, position, needed)
        if status.word == "accept":
            continue
        name = f"{named(job, position.key)} ({needed.when})"
        ground = refs([*status.heads, *doubts_of(job, needed.check, status.heads)])
        yield _due(job, position_thing(position.key), at_place(position.key), name, status, ground)


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


def against_reading(job: Job, thing: str, check: Check, when: str, spot: str, now: Moment) -> Iterator[Lack]:
    """A binding reading waits while what was done to the part rests, and a second look for its hours."""
    if when not in (FINISHED, NEW, FINISHED + AGAIN, NEW + AGAIN):
        return
    where = at_place(thing[1:]) if is_position(thing) else of_part(job, thing)
    name = f"{named(job, thing[1:]) if is_position(thing) else part_named(job, thing)}: {check.name}"
    for operation, left in waits_open(job, thing, now):
        if operation_spoils(operation, check):
            says = operation.says or operation.id
            wrong = f"{name}: {says} has to rest for another {left:.1f} h; a reading taken now counts for nothing."
            clears = "Read it then. To keep today's number all the same record it as plain."
            yield lack(RESTS, where, wrong, clears=clears)
    if when.endswith(AGAIN):
        yield from _second_look(job, thing, check, when, spot, now, where, name)


def _second_look(
    job: Job, thing: str, check: Check, when: str, spot: str, now: Moment, where: Where, name: str
) -> Iterator[Lack]:
    before = when.removesuffix(AGAIN)
    first = job.heads(thing, check_facet(check.name, spot, before))
    if not first:
        asked = (("check", check.name), ("when", before), ("spot", spot))
        to_do, clears = ToDo("check read", thing, asked), f"Read it as {before} first."
        yield lack(NOT_FINISHED, where, f"{name} was not read a first time.", clears=clears, to_do=to_do)
        return
    left = max(hours_left(head, float(check.again_h or 0), now) for head in first)
    if left > 0:
        wrong, clears = (
            f"{name} is looked at again after another {left:.1f} h.",
            "Look then; until it is over it stays open.",
        )
        yield lack(RESTS, where, wrong, clears=clears)


def _due(job: Job, thing: str, where: Where, name: str, status: Status, ground: Sequence[str]) -> Lack:
    needed = status.needed
    asked = (("check", needed.check.name), ("when", needed.when), ("spot", needed.spot))
    return lack(
        CHECK_DUE,
        where,
        " ".join([f"{name}: {needed.says}: {status.word}.", why_open(job, status)]).strip(),
        to_do=ToDo("check read", thing, asked),
        ground=ground,
        which=needed.facet,
        gate=gate_of(needed.when),
        never=not may_be_conceded(needed.check),
    )
