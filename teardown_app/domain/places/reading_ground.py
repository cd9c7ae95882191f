"""What a reading rests on: work that spoils it, what was opened or exchanged beneath it."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Check, Operation
from teardown_app.domain.job.ground import lying, records_of, stands_on
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.work import check_facet
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.claiming import claimants
from teardown_app.domain.parts.operations import operation_of
from teardown_app.domain.parts.parts import AS_RECEIVED, came_from, origin_of, out_of
from teardown_app.domain.parts.seat import asking, seat_of
from teardown_app.domain.places.opening import before_reading, place_reading_stands

AGAIN = " again"
"""Ends the name of a second look, some hours after the first."""

Reading = tuple[str, str, str]
"""Check, spot and when."""


def reading_of(entry: Entry) -> Reading:
    """Which reading an entry is of."""
    return entry.value.check, entry.value.spot, entry.value.when


def reading_ground(job: Job, thing: str, reading: Reading) -> list[Record]:
    """Records that the author of a reading on a part or at a place has to have seen."""
    first = _first_looks(job, thing, reading)
    if is_position(thing):
        return [*first, *(before_reading(job, thing[1:]) if thing[1:] in job.positions else ())]
    spoiling = (one for one in work_near(job, thing) if spoils(job, one, reading[0]))
    return [*first, *spoiling, *exchanges(job, thing)]


def reading_stands(job: Job, thing: str, reading: Reading, record: Record) -> bool:
    """Had the author of a reading seen all that it rests on? At a place that is answered without listing it."""
    if not is_position(thing) or thing[1:] not in job.positions:
        return stands_on(job, record, reading_ground(job, thing, reading), thing)
    return stands_on(job, record, _first_looks(job, thing, reading)) and place_reading_stands(job, record, thing[1:])


def _first_looks(job: Job, thing: str, reading: Reading) -> tuple[Record, ...]:
    """Of a second look the first ones."""
    check, spot, when = reading
    facet = check_facet(check, spot, when.removesuffix(AGAIN))
    return records_of(job.heads(thing, facet)) if when.endswith(AGAIN) else ()


@remembered
def work_near(job: Job, part: str) -> list[Record]:
    """Operations done on a part and on those near it."""
    return [one for each in parts_near(job, part) for one in done_on(job, each)]


@remembered
def parts_near(job: Job, part: str) -> list[str]:
    """A part, and those that came out of or claim places beneath its seat or the other places of its matched set."""
    keys = [*places_beneath(job, part), *places_of_set(job, part)]
    return sorted({part, *(other for key in keys for other in (*came_from(job, key), *claimants(job, key)))})


def done_on(job: Job, part: str) -> list[Record]:
    """Operations done on a part."""
    return [one for one in job.about(part) if one.typ == "operation.done"]


@remembered
def places_beneath(job: Job, part: str) -> list[str]:
    """Places beneath the part's seat."""
    return list(dict.fromkeys(one.key for key in seat_of(job, part) for one in job.beneath(key)))


@remembered
def places_of_set(job: Job, part: str) -> list[str]:
    """The other places of the part's matched set."""
    keys = [key for key in asking(job, part) if key in job.bill.positions]
    return list(dict.fromkeys(one.key for key in keys for one in job.bill.matched(key) if one.key != key))


@remembered
def exchanges(job: Job, part: str) -> list[Record]:
    """Fittings beneath a part of parts that are not there as received, and what brought such parts into its set."""
    found = [one for key in places_beneath(job, part) for one in _others(job, key)]
    paired = {job.group(one.ent[0])[0] for key in places_of_set(job, part) for one in lying(job, _others(job, key))}
    makers = [entry for other in sorted(paired) for entry in job.ever(other, "made") if entry.value != "temporary"]
    return [*found, *records_of(makers)]


def _others(job: Job, key: str) -> Iterator[Record]:
    """Fittings at a place of parts that did not come out of it, or that are not as received."""
    for one in job.about(position_thing(key)):
        if one.typ == "part.fitted":
            part = job.group(one.ent[0])[0]
            if out_of(job, part) != key or origin_of(job, part) != AS_RECEIVED:
                yield one


def spoils(job: Job, done: Record, name: str) -> bool:
    """Does this operation, as the route says, spoil earlier readings of the check? What the bill does not know does."""
    return operation_spoils(operation_of(job, done), job.bill.checks.get(name, Check(name)))


def operation_spoils(operation: Operation, check: Check) -> bool:
    """What it names, or, where it names nothing, every check that does not outlast it."""
    return check.name in operation.spoils if operation.spoils else operation.id not in check.outlasts
