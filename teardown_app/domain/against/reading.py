"""What stands against a reading: what has to rest before it, and that no instrument is fit for it."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import (
    NO_INSTRUMENT,
    NOT_FINISHED,
    RESTS,
    Lack,
    ToDo,
    Where,
    at_place,
    lack,
    of_part,
)
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.parts.instrument import instruments, reads_this, unfit_on
from teardown_app.domain.parts.naming import thing_named
from teardown_app.domain.parts.routing import Moment, hours_left, waits_open
from teardown_app.domain.places.checking import FINISHED, NEW
from teardown_app.domain.places.read_with import first_looks
from teardown_app.domain.places.reading_ground import AGAIN, operation_spoils


def against_reading(job: Job, thing: str, check: Check, when: str, spot: str, now: Moment) -> Iterator[Lack]:
    """A binding reading waits while what was done to the part rests, and a second look for its hours."""
    first = when.removesuffix(AGAIN)
    if first in (FINISHED, NEW):
        yield from _at_rest(job, thing, check, now)
    if when.endswith(AGAIN):
        yield from _second_look(job, thing, check, first, spot, now)


def against_instrument(job: Job, thing: str, check: Check, now: Moment) -> Iterator[Lack]:
    """The register has an instrument for a check, and none of these is fit today: a reading would release nothing."""
    known = [one for one in instruments(job.shop) if reads_this(one, check.instrument)] if check.instrument else []
    unfit = [unfit_on(job.shop, one, now) for one in known]
    if unfit and all(unfit):
        yield lack(NO_INSTRUMENT, _where(job, thing), f"{check.name} needs a {check.instrument}; {unfit[0]}.")


def _at_rest(job: Job, thing: str, check: Check, now: Moment) -> Iterator[Lack]:
    """Operations on the part that spoil the reading until their wait is over."""
    for operation, left in waits_open(job, thing, now):
        if operation_spoils(operation, check):
            says = operation.says or operation.id
            wrong = f"{says} has to rest for another {left:.1f} h; a reading taken now counts for nothing."
            clears = "Read it then. To keep today's number all the same record it as plain."
            yield lack(RESTS, _where(job, thing), f"{_name(job, thing, check)}: {wrong}", clears=clears)


def _second_look(job: Job, thing: str, check: Check, first: str, spot: str, now: Moment) -> Iterator[Lack]:
    """It waits for a first look by a clock that is right, and from then on for the hours that the check asks for: after
    every one that nobody replaced."""
    looks = first_looks(job, thing, check.name, spot, first)
    if not looks or any(one.record.clk != "ok" for one in looks):
        yield _no_first_look(job, thing, check, first, spot, looked=bool(looks))
        return
    left = max(hours_left(one, float(check.again_h or 0), now) for one in looks)
    if left > 0:
        wrong = f"{_name(job, thing, check)} is looked at again after another {left:.1f} h."
        yield lack(RESTS, _where(job, thing), wrong, clears="Look then; until it is over it stays open.")


def _no_first_look(job: Job, thing: str, check: Check, first: str, spot: str, *, looked: bool) -> Lack:
    """Nobody looked a first time, or no clock that is right says when."""
    by = ", by a clock that is right" if looked else ""
    wrong = f"{_name(job, thing, check)} was not read a first time{by}."
    to_do = ToDo("check read", thing, (("check", check.name), ("when", first), ("spot", spot)))
    return lack(NOT_FINISHED, _where(job, thing), wrong, clears=f"Read it as {first} first.", to_do=to_do)


def _where(job: Job, thing: str) -> Where:
    return at_place(thing[1:]) if is_position(thing) else of_part(job, thing)


def _name(job: Job, thing: str, check: Check) -> str:
    """The part or place and what is read on it, for a sentence."""
    return f"{thing_named(job, thing)}: {check.name}"
