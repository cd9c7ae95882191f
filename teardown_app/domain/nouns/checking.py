"""Checks that a part or place needs, and whether their readings still count."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.bill.bill import Check, Operation, Position
from teardown_app.domain.bill.gate import CLOSED_UP, GATES
from teardown_app.domain.ledger.entry import Entry, settled
from teardown_app.domain.ledger.kinds.work import check_facet
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.doubt import doubts
from teardown_app.domain.nouns.filling import holder
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import (
    AS_RECEIVED,
    came_from,
    is_new,
    origin_of,
    own_place,
)
from teardown_app.domain.nouns.routing import operation_facets, remaining

FINISHED, NEW, PLAIN = "finished", "new", "plain"
AGAIN = " again"
"""Ends the name of a second look, some hours after the first."""

PART_TIMES = ("arrival", "as found", FINISHED, NEW, FINISHED + AGAIN, NEW + AGAIN)
"""Times at which a check is about the part; at the others it is about the place."""

AS_FOUND = ("arrival", "as found")
"""Readings of the part as it came, before anything is done to it."""

BINDS_NOTHING = ("arrival", "as found", PLAIN)
"""Readings that show their verdict and are no condition of anything."""


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


UNFIT, IN_DOUBT = "not fit to release", "in doubt"
"""An accepted reading that counts for nothing as it was taken, and one whose instrument was found out later."""


class Status(NamedTuple):
    """Where a needed reading stands: its verdict, `not possible`, `due`, `due again`, `UNFIT` or `IN_DOUBT`."""

    needed: Needed
    word: str
    heads: tuple[Entry, ...]


def needed_for(job: Job, position: Position, times: tuple[str, ...]) -> list[Needed]:
    """Readings that the line of a place asks for at any of these times."""
    checks = [job.bill.checks[name] for name in position.line.checks if name in job.bill.checks]
    return [
        Needed(check, spot, when)
        for check in checks
        for when in times_of(check)
        if when in times
        for spot in (check.spots or ("",))
    ]


def times_of(check: Check) -> tuple[str, ...]:
    """When a check is read: as the bill says, else finished; and again where it is to be looked at twice."""
    listed = check.when or (FINISHED,)
    if check.again_h is None:
        return listed
    return tuple(one for when in listed for one in ((when, when + AGAIN) if when not in BINDS_NOTHING else (when,)))


@remembered
def release_checks(job: Job, part: str) -> list[Needed]:
    """Readings without which the part is not released."""
    position = job.positions.get(own_place(job, part))
    if position is None:
        return []
    when = NEW if is_new(job, part) else FINISHED
    return needed_for(job, position, (when, when + AGAIN))


def status(job: Job, thing: str, needed: Needed, spoilers: list[Entry]) -> Status:
    """Where a reading stands; one taken before something that spoils it counts as due again."""
    heads = job.heads(thing, needed.facet)
    if not heads:
        return Status(needed, "due", ())
    if any(not knows_all(job, head, spoilers) for head in heads):
        return Status(needed, "due again", heads)
    word = settled([head.value for head in heads], needed.facet)["verdict"]
    if word == "accept" and any(head.value.get("unfit") for head in heads):
        return Status(needed, UNFIT, heads)
    if word == "accept" and doubts_of(job, needed.check, heads):
        return Status(needed, IN_DOUBT, heads)
    return Status(needed, word, heads)


def doubts_of(job: Job, check: Check | None, heads: tuple[Entry, ...]) -> list[Entry]:
    """What was found out about instruments and makes these readings doubtful."""
    return [one for head in heads for one in doubts(job, check, head)]


def part_doubts(job: Job, part: str) -> list[Entry]:
    """What makes readings doubtful that the part's release rests on."""
    return [
        one
        for needed in release_checks(job, part)
        for one in doubts_of(job, needed.check, job.heads(part, needed.facet))
    ]


def place_doubts(job: Job, position: Position) -> list[Entry]:
    """What makes readings doubtful that were taken at a place, also those that its line does not ask for."""
    thing = position_thing(position.key)
    return [
        one
        for facet in job.facets(thing, "check")
        for one in doubts_of(job, job.bill.checks.get(facet.split("/")[1]), job.heads(thing, facet))
    ]


def why_open(job: Job, status: Status) -> str:
    """Why a reading that is there does not count, as a sentence; empty where the word says it all."""
    expected = sorted({str(head.value["expected"]) for head in status.heads if head.value.get("expected")})
    if expected:
        return f"Its result is expected on {expected[0]}."
    if status.word == UNFIT:
        return "; ".join(sorted({str(head.value["unfit"]) for head in status.heads if head.value.get("unfit")})) + "."
    if status.word == IN_DOUBT:
        found = doubts_of(job, status.needed.check, status.heads)
        said = sorted({(e.value["number"], e.value["by"], e.value["last_good"]) for e in found})
        return " ".join(f"Instrument {name} was found out by {by}; last known good on {day}." for name, by, day in said)
    return ""


def knows_all(job: Job, entry: Entry, others: list[Entry]) -> bool:
    """True when the entry's author had seen all of these."""
    return all(job.knowing.knew(entry.record, other.record) for other in others)


def part_status(job: Job, part: str, needed: Needed) -> Status:
    """Where a reading on a part stands."""
    return status(job, part, needed, [*spoilers_of(job, part, needed.check), *first_looks(job, part, needed)])


def first_looks(job: Job, thing: str, needed: Needed) -> tuple[Entry, ...]:
    """What a second look has to come after: the first."""
    if not needed.when.endswith(AGAIN):
        return ()
    return job.heads(thing, needed._replace(when=needed.when.removesuffix(AGAIN)).facet)


def spoilers_of(job: Job, part: str, check: Check) -> list[Entry]:
    """Work after which the check has to be read again: on the part, beneath it, on its matched set."""
    own = [
        entry for one in [part, *relatives(job, part)] for entry in done_entries(job, one) if spoils(job, entry, check)
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
    brought = [entry for other in sorted(paired) for entry in job.entries(other, "made") if entry.value != "temporary"]
    return fitted + brought


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
    return status(job, thing, needed, [*heads, *first_looks(job, thing, needed)])


def _filled(job: Job, key: str) -> tuple[Entry, ...]:
    return job.heads(position_thing(key), "filled")


def behind_check(job: Job, part: str, one: Status) -> tuple[str, ...]:
    """What a point about a reading rests on: the reading and the work that spoils it."""
    check = one.needed.check
    return refs([*one.heads, *spoilers_of(job, part, check), *doubts_of(job, check, one.heads)])


def place_checks(job: Job, position: Position) -> list[Needed]:
    """Readings about the place rather than the part."""
    checks = [job.bill.checks[name] for name in position.line.checks if name in job.bill.checks]
    times = tuple({when for check in checks for when in times_of(check) if when not in PART_TIMES})
    return needed_for(job, position, times) if times else []


def gate_of(when: str) -> str:
    """The gate that a reading stops: the one it is read for, else *closed up*."""
    gate = when.removesuffix(AGAIN)
    return gate if gate in GATES else CLOSED_UP
