"""What is in the tool only for a time: brackets, caps, bypasses, masks, adapters."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import POWER_ON, SHIP
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import RUNNING, Lack, ToDo, Where, at_place, lack
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.temporary import ships, state_of, was_out
from teardown_app.domain.places.touching import is_touched


def temporary_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """Of a temporary position of the bill: out for running, as the bill says for shipping. No word takes that away; of
    an option that the tool lacks nothing is asked while nothing was there, for running only where the opening lacked it
    already."""
    if position.line.kind != "temporary":
        return
    key, thing, wanted = position.key, position_thing(position.key), ships(position)
    state, lacks = state_of(job, thing), job.lacks_option(key) and not is_touched(job, key)
    where, name = at_place(key), named(job, key)
    as_shipped = wanted == "in" and state == "in" and was_out(job, thing)
    if state != "out" and not as_shipped and not (lacks and job.opening_lacked_option(key)):
        yield _running(job, where, thing, name)
    if state != wanted and not lacks:
        yield _shipping(job, where, thing, name, wanted)


def added_temporary_lacks(job: Job, thing: str) -> Iterator[Lack]:
    """Of something brought in on this job: it has to be out for running and for shipping."""
    if state_of(job, thing) == "out":
        return
    what = job.value(thing, "what", "something temporary")
    yield _running(job, Where(thing), thing, what)
    yield _shipping(job, Where(thing), thing, what, "out")


def _running(job: Job, where: Where, thing: str, name: str) -> Lack:
    return _wrong(job, where, thing, f"{name} has to be out before power.", "running", POWER_ON, "out")


def _shipping(job: Job, where: Where, thing: str, name: str, wanted: str) -> Lack:
    return _wrong(job, where, thing, f"{name} has to be {wanted} for shipping.", "shipping", SHIP, wanted)


def _wrong(job: Job, where: Where, thing: str, wrong: str, which: str, gate: str, wanted: str) -> Lack:
    to_do = ToDo(f"temporary {wanted}", thing)

    def ground() -> list[Record]:
        return [one for one in job.about(thing) if one.typ in ("temporary.in", "temporary.out")]

    return lack(RUNNING, where, wrong, to_do=to_do, ground=ground, which=which, gate=gate, never=gate == POWER_ON)
