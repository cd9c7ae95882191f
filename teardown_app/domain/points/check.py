"""Points about readings at a place: when fitted, or for a gate."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import CLOSED_UP, GATES
from teardown_app.domain.nouns.checking import (
    AGAIN,
    PART_TIMES,
    Needed,
    Status,
    doubts_of,
    needed_for,
    place_status,
    times_of,
    why_open,
)
from teardown_app.domain.nouns.conceding import may_be_conceded, refs
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.points.point import Point, Where, at_place, point


def place_checks(job: Job, position: Position) -> list[Needed]:
    """Readings about the place rather than the part."""
    checks = [job.bill.checks[name] for name in position.line.checks if name in job.bill.checks]
    times = tuple({when for check in checks for when in times_of(check) if when not in PART_TIMES})
    return needed_for(job, position, times) if times else []


def place_check_points(job: Job, position: Position) -> Iterator[Point]:
    """One point for each reading at this place that is not accepted."""
    if not position.line.checks or job.scope(position.key).counts == "out":
        return
    for needed in place_checks(job, position):
        status = place_status(job, position, needed)
        if status.word == "accept":
            continue
        name = f"{named(job, position.key)} ({needed.when})"
        behind = refs([*status.heads, *doubts_of(job, needed.check, status.heads)])
        yield reading_point(job, at_place(position.key), name, status, behind)


def reading_point(job: Job, where: Where, name: str, status: Status, behind: Sequence[str]) -> Point:
    """The point of one reading that is not accepted, of a part or at a place."""
    needed = status.needed
    return point(
        job,
        "check due",
        where,
        which=needed.facet,
        wrong=" ".join([f"{name}: {needed.says}: {status.word}.", why_open(job, status)]).strip(),
        clears="Read the check.",
        behind=behind,
        gate=gate_of(needed.when),
        never=not may_be_conceded(needed.check),
    )


def gate_of(when: str) -> str:
    """The gate that a reading stops: the one it is read for, else *closed up*."""
    gate = when.removesuffix(AGAIN)
    return gate if gate in GATES else CLOSED_UP
