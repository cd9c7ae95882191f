"""Points about a part: on hold, waiting for an answer, unread checks, not released, unaccounted for."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.checking import part_status, release_checks
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.filling import GONE, is_accounted_for, place_of, places_of
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named, part_named
from teardown_app.domain.nouns.parts import (
    declined_findings,
    disposition_of,
    is_new,
    open_holds,
    own_place,
    waiting_findings,
)
from teardown_app.domain.nouns.release import (
    behind_check,
    behind_finding,
    covers,
    why_not_released,
    why_of,
    word_of,
)
from teardown_app.domain.points.check import reading_point
from teardown_app.domain.points.debt import debt_points
from teardown_app.domain.points.point import Point, Where, about_part, at_place, point


def part_points(job: Job, part: str) -> Iterator[Point]:
    """All points about one part that are not conflicts."""
    key = place_of(job, part) or own_place(job, part)
    where = about_part(part, key)
    name = part_named(job, part, key)
    yield from _holds(job, part, where, name)
    yield from _findings(job, part, where, name)
    yield from _checks(job, part, where, name)
    yield from _release(job, part, where, name)
    yield from _unaccounted(job, part, where, name)
    yield from debt_points(job, part, where, name)


def hold_points(job: Job, position: Position) -> Iterator[Point]:
    """Holds on a place."""
    where = at_place(position.key)
    yield from _holds(job, position_thing(position.key), where, named(job, position.key))


def _holds(job: Job, thing: str, where: Where, name: str) -> Iterator[Point]:
    for hold in open_holds(job, thing):
        yield point(
            job,
            "hold",
            where,
            which=hold.value,
            wrong=f"{name} is on hold: {why_of(job, hold)}",
            clears="Lift the hold when its reason is gone.",
            behind=refs([hold]),
        )


def _findings(job: Job, part: str, where: Where, name: str) -> Iterator[Point]:
    for finding in waiting_findings(job, part):
        yield point(
            job,
            "approval waiting",
            where,
            which=finding,
            wrong=f"{name}: the finding {word_of(job, finding)} waits for the customer's answer.",
            clears="Ask, and record the answer with its reference.",
            behind=behind_finding(job, part, finding),
        )
    for finding in declined_findings(job, part):
        yield point(
            job,
            "declined by the customer",
            where,
            which=finding,
            wrong=f"{name}: the customer declined what the finding {word_of(job, finding)} needs.",
            clears="Concede it by signature with the customer's reference, or replace the part.",
            behind=behind_finding(job, part, finding),
        )


def _checks(job: Job, part: str, where: Where, name: str) -> Iterator[Point]:
    """Readings are asked for from every part that goes back into the tool."""
    if disposition_of(job, part) in GONE and not places_of(job, part):
        return
    for needed in release_checks(job, part):
        status = part_status(job, part, needed)
        if status.word == "accept":
            continue
        yield reading_point(job, where, name, status, behind_check(job, part, status))


def _release(job: Job, part: str, where: Where, name: str) -> Iterator[Point]:
    if not places_of(job, part):
        return
    lacks = why_not_released(job, part)
    if lacks:
        yield point(
            job,
            "not released",
            where,
            wrong=f"{name} is fitted but not released: {'; '.join(one.wrong for one in lacks)}.",
            clears=lacks[0].clears,
            behind=covers(job, part),
        )


def _unaccounted(job: Job, part: str, where: Where, name: str) -> Iterator[Point]:
    if is_accounted_for(job, part):
        return
    foreign = not own_place(job, part) and not is_new(job, part)
    yield point(
        job,
        "foreign piece" if foreign else "tagged but unaccounted for",
        where,
        wrong=f"{name} is in no place of the tool." if not foreign else f"{name} belongs to no place of the tool.",
        clears="Fit it, or disposition it as spare, return unrepaired or scrap.",
        behind=refs([*job.heads(part, "fit"), *job.heads(part, "disposition")]),
        gate=SHIP,
    )
