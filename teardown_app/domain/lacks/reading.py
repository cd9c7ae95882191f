"""Readings that are due: of a part that goes back into the tool, or at a place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.lack import CHECK_DUE, Lack, ToDo, Where, at_place, lack, of_part
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.checking import (
    Status,
    behind_check,
    doubts_of,
    gate_of,
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
from teardown_app.domain.nouns.parts import disposition_of


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
    if not position.line.checks or job.scope(position.key).counts == "out":
        return
    for needed in place_checks(job, position):
        status = place_status(job, position, needed)
        if status.word == "accept":
            continue
        name = f"{named(job, position.key)} ({needed.when})"
        ground = refs([*status.heads, *doubts_of(job, needed.check, status.heads)])
        yield _due(job, position_thing(position.key), at_place(position.key), name, status, ground)


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
