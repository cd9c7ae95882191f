"""Points about what is in the tool only for a time: brackets, caps, bypasses, masks, adapters."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import POWER_ON, SHIP
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.nouns.temporary import ships, state_of, was_out
from teardown_app.domain.points.point import Point, Where, at_place, point

KIND = "temporary in or out wrongly"


def temporary_points(job: Job, position: Position) -> Iterator[Point]:
    """Points of a temporary position of the bill: out for running, as the bill says for shipping."""
    if position.line.kind != "temporary" or job.scope(position.key).counts != "in":
        return
    thing = position_thing(position.key)
    state, wanted = state_of(job, thing), ships(position)
    where = at_place(position.key)
    name = named(job, position.key)
    if state != "out" and not (wanted == "in" and state == "in" and was_out(job, thing)):
        yield _wrong(job, where, thing, f"{name} has to be out before power.", "running", POWER_ON)
    if state != wanted:
        yield _wrong(job, where, thing, f"{name} has to be {wanted} for shipping.", "shipping", SHIP)


def added_temporary_points(job: Job, thing: str) -> Iterator[Point]:
    """Points of something brought in on this job: it has to be out for running and for shipping."""
    if state_of(job, thing) == "out":
        return
    what = job.value(thing, "what", "something temporary")
    where = Where(thing)
    yield _wrong(job, where, thing, f"{what} has to be out before power.", "running", POWER_ON)
    yield _wrong(job, where, thing, f"{what} has to be out for shipping.", "shipping", SHIP)


def _wrong(job: Job, where: Where, thing: str, wrong: str, which: str, gate: str) -> Point:
    return point(
        job,
        KIND,
        where,
        which=which,
        wrong=wrong,
        clears="Put it where it belongs and record it.",
        behind=refs(job.heads(thing, "temporary")),
        gate=gate,
        never=gate == POWER_ON,
    )
