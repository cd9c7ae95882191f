"""Checks that a part or place needs, and whether their readings still count."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.bill import Check, Operation, Position
from teardown_app.domain.entry import Entry, settled
from teardown_app.domain.filling import holder
from teardown_app.domain.job import Job
from teardown_app.domain.kinds.work import check_facet
from teardown_app.domain.parts import AS_RECEIVED, came_from, is_new, origin_of, own_place
from teardown_app.domain.record import position_thing
from teardown_app.domain.remembered import remembered
from teardown_app.domain.routing import operation_facets, remaining

FINISHED, NEW = "finished", "new"
PART_TIMES = ("arrival", "as found", FINISHED, NEW)
"""Times at which a check is about the part; at the others it is about the place."""


class Needed(NamedTuple):
    """One reading that is asked for."""

    check: Check
    spot: str
    when: str

    @property
    def facet(self) -> str:
        """Facet that holds the reading."""
        return check_facet(self.check.name, self.spot, self.when)

    @property
    def says(self) -> str:
        """What is looked at, and where."""
        spot = f" at {self.spot}" if self.spot else ""
        return (self.check.says or self.check.name) + spot


class Status(NamedTuple):
    """Where a needed reading stands: its verdict, `not possible`, `due` or `due again`."""

    needed: Needed
    word: str
    heads: tuple[Entry, ...]


def needed_for(job: Job, position: Position, times: tuple[str, ...]) -> list[Needed]:
    """Readings that the line of a place asks for at any of these times."""
    checks = [job.bill.checks[name] for name in position.line.checks if name in job.bill.checks]
    return [
        Needed(check, spot, when)
        for check in checks
        for when in (check.when or (FINISHED,))
        if when in times
        for spot in (check.spots or ("",))
    ]


@remembered
def release_checks(job: Job, part: str) -> list[Needed]:
    """Readings without which the part is not released."""
    position = job.positions.get(own_place(job, part))
    if position is None:
        return []
    return needed_for(job, position, (NEW if is_new(job, part) else FINISHED,))


def status(job: Job, thing: str, needed: Needed, spoilers: list[Entry]) -> Status:
    """Where a reading stands; one taken before something that spoils it counts as due again."""
    heads = job.heads(thing, needed.facet)
    if not heads:
        return Status(needed, "due", ())
    if any(not knows_all(job, head, spoilers) for head in heads):
        return Status(needed, "due again", heads)
    return Status(needed, settled([head.value for head in heads], needed.facet)["verdict"], heads)


def knows_all(job: Job, entry: Entry, others: list[Entry]) -> bool:
    """True when the entry's author had seen all of these."""
    return all(job.knowing.knew(entry.record, other.record) for other in others)


def part_status(job: Job, part: str, needed: Needed) -> Status:
    """Where a reading on a part stands."""
    return status(job, part, needed, spoilers_of(job, part, needed.check))


def spoilers_of(job: Job, part: str, check: Check) -> list[Entry]:
    """Work after which the check has to be read again: on the part, beneath it, on its matched set."""
    own = [
        entry
        for one in [part, *relatives(job, part)]
        for entry in done_entries(job, one)
        if spoils(job, entry, check)
    ]
    return own + exchanges(job, part)


def done_entries(job: Job, part: str) -> list[Entry]:
    """All *done* heads of operations on a part."""
    heads = [head for facet in operation_facets(job, part) for head in job.heads(part, facet)]
    return [head for head in heads if head.value == "done"]


def spoils(job: Job, done: Entry, check: Check) -> bool:
    """Does this operation, as the route says, spoil earlier readings of the check?"""
    body = done.record.body
    route = job.bill.routes.get(body["route"])
    operations = route.operations if route else ()
    operation = next((one for one in operations if one.id == body["operation"]), Operation(body["operation"]))
    return operation_spoils(operation, check)


def operation_spoils(operation: Operation, check: Check) -> bool:
    """What it names, or, where it names nothing, every check that does not outlast it."""
    return check.name in operation.spoils if operation.spoils else operation.id not in check.outlasts


def spoils_ahead(job: Job, part: str, check: Check) -> list[str]:
    """Operations still to come on the part that will spoil a reading taken now."""
    return [one.says or one.id for one in remaining(job, part) if operation_spoils(one, check)]


@remembered
def relatives(job: Job, part: str) -> list[str]:
    """Parts that belong, or are fitted, beneath the part's place and in the other places of its matched set."""
    keys = [*places_beneath(job, part), *places_of_set(job, part)]
    found = {other for one in keys for other in (*came_from(job, one), holder(job, one)) if other}
    return sorted(found - {part})


@remembered
def places_beneath(job: Job, part: str) -> list[str]:
    """Places beneath the part's own."""
    key = own_place(job, part)
    return [one.key for one in job.beneath(key)] if key in job.positions else []


@remembered
def places_of_set(job: Job, part: str) -> list[str]:
    """The other places of the part's matched set."""
    key = own_place(job, part)
    position = job.bill.positions.get(key)
    if position is None or not position.line.matched_set:
        return []
    return [one.key for one in job.bill.matched(key) if one.key != key]


def exchanges(job: Job, part: str) -> list[Entry]:
    """Parts that were not there as received: fitted beneath the part, or taken into its matched set."""
    fitted = [head for key in places_beneath(job, part) for head in _others(job, key)]
    paired = {job.group(head.value)[0] for key in places_of_set(job, part) for head in _others(job, key)}
    return fitted + [entry for other in sorted(paired) for entry in job.entries(other, "made")]


def _others(job: Job, key: str) -> list[Entry]:
    """Fittings at a place of parts that did not come out of it, or that are not as received."""
    there = came_from(job, key)
    claims = [head for head in _filled(job, key) if head.value]
    parts = [(head, job.group(head.value)[0]) for head in claims]
    return [head for head, one in parts if one not in there or origin_of(job, one) != AS_RECEIVED]


def place_status(job: Job, position: Position, needed: Needed) -> Status:
    """Where a reading at a place (fitted, or for a gate) stands: taken after the present fittings."""
    thing = position_thing(position.key)
    heads = [head for one in [position, *job.beneath(position.key)] for head in _filled(job, one.key)]
    return status(job, thing, needed, heads)


def _filled(job: Job, key: str) -> tuple[Entry, ...]:
    return job.heads(position_thing(key), "filled")
