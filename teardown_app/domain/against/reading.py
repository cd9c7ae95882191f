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
from teardown_app.domain.ledger.kinds.work import check_facet
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.parts.instrument import instruments, reads_this, unfit_on
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.routing import Moment, hours_left, waits_open
from teardown_app.domain.places.checking import (
    FINISHED,
    NEW,
)
from teardown_app.domain.places.reading_ground import AGAIN, operation_spoils


def against_reading(job: Job, thing: str, check: Check, when: str, spot: str, now: Moment) -> Iterator[Lack]:
    """A binding reading waits while what was done to the part rests, and a second look for its hours."""
    if when not in (FINISHED, NEW) and not when.endswith(AGAIN):
        return
    where = at_place(thing[1:]) if is_position(thing) else of_part(job, thing)
    name = f"{named(job, thing[1:]) if is_position(thing) else part_named(job, thing)}: {check.name}"
    for operation, left in waits_open(job, thing, now) if when.removesuffix(AGAIN) in (FINISHED, NEW) else ():
        if operation_spoils(operation, check):
            says = operation.says or operation.id
            wrong = f"{name}: {says} has to rest for another {left:.1f} h; a reading taken now counts for nothing."
            clears = "Read it then. To keep today's number all the same record it as plain."
            yield lack(RESTS, where, wrong, clears=clears)
    if when.endswith(AGAIN):
        yield from _second_look(job, thing, check, when, spot, now, where, name)


def against_instrument(job: Job, thing: str, check: Check, now: Moment) -> Iterator[Lack]:
    """The register has an instrument for a check, and none of these is fit today: a reading would release nothing."""
    known = [one for one in instruments(job.shop) if reads_this(one, check.instrument)] if check.instrument else []
    unfit = [unfit_on(job.shop, one, now) for one in known]
    if unfit and all(unfit):
        where = at_place(thing[1:]) if is_position(thing) else of_part(job, thing)
        yield lack(NO_INSTRUMENT, where, f"{check.name} needs a {check.instrument}; {unfit[0]}.")


def _second_look(
    job: Job, thing: str, check: Check, when: str, spot: str, now: Moment, where: Where, name: str
) -> Iterator[Lack]:
    before = when.removesuffix(AGAIN)
    looks = job.heads(thing, check_facet(check.name, spot, before))
    first = [one for one in looks if one.record.clk == "ok"]
    if not first:
        asked = (("check", check.name), ("when", before), ("spot", spot))
        to_do, clears = ToDo("check read", thing, asked), f"Read it as {before} first."
        wrong = f"{name} was not read a first time{', by a clock that is right' if looks else ''}."
        yield lack(NOT_FINISHED, where, wrong, clears=clears, to_do=to_do)
        return
    left = max(hours_left(head, float(check.again_h or 0), now) for head in first)
    if left > 0:
        wrong, clears = (
            f"{name} is looked at again after another {left:.1f} h.",
            "Look then; until it is over it stays open.",
        )
        yield lack(RESTS, where, wrong, clears=clears)
