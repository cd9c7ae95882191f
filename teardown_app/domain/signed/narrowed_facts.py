"""Narrowings of what a part is: facts said otherwise, names that are one part, findings that are covered."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.accepting import BORROWED, FACTS, SAYS_FACTS, acceptors
from teardown_app.domain.job.ground import records_of
from teardown_app.domain.job.job import Job
from teardown_app.domain.job.measured import Measured, Narrowing
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.going_back import goes_back
from teardown_app.domain.parts.parts import AS_RECEIVED, findings_of, out_of


def writing(job: Job, thing: str, facet: str) -> tuple[Record, ...]:
    """Every record that writes a cell, taken back or not."""
    return records_of(job.ever(thing, facet))


def fact_narrowings(job: Job, part: str) -> Iterator[Narrowing]:
    """Notes, and what brought a part in, by which a fact of it is another one than was said, or than the bill says."""
    for fact in FACTS:
        cell = _facts_of(job, part, fact)
        for head in job.heads(part, fact):
            if head.record.typ in SAYS_FACTS and cell.against(head):
                right, cells = fact_right(job, head.record, part), writing(job, part, fact)
                yield Narrowing(head.record, part, right, cells, right != "office", cell.over(head))


def _facts_of(job: Job, part: str, fact: str) -> Measured:
    key = (_facts_of, part, fact)
    if key not in job.memory:
        entries = job.ever(part, fact)
        measured: Measured

        def narrows(entry: Entry, earlier: Entry | None) -> bool:
            if earlier is not None:
                return bool(entry.value != earlier.value)
            said = said_by_bill(job, part, fact, first=_is_first(measured, entry))
            return bool(said) and entry.value != said

        def accepted(entry: Entry) -> bool:
            right = fact_right(job, entry.record, part)
            return bool(acceptors(job, entry.record, part, right, by_release=right != "office"))

        measured = job.memory[key] = Measured(job, entries, narrows, accepted)
    return job.memory[key]  # type: ignore[no-any-return]


def narrowed_from(job: Job, part: str, record: Record, fact: str) -> list[str]:
    """What a record narrows one fact of a part against: values that were said, and what the bill says."""
    cell, found = _facts_of(job, part, fact), set[str]()
    for entry in (one for one in job.entries(part, fact) if one.record.h == record.h):
        bill = said_by_bill(job, part, fact, first=_is_first(cell, entry))
        found.update(bill if one is None else str(one.value) for one in cell.against(entry))
    return sorted(found)


def _is_first(measured: Measured, entry: Entry) -> bool:
    """Had nobody said the fact before, as the author of a note knew? What brings a part in says it itself."""
    return entry.record.typ == "part.noted" and not measured.known(entry)


def said_by_bill(job: Job, part: str, fact: str, *, first: bool = False) -> str:
    """What the bill says of a part before anybody does, empty where it says nothing. Its origin is *as received*
    where it was taken off, or where nobody gave one (`first`)."""
    if fact == "origin":
        off = any(entry.value == "part.taken_off" for entry in job.entries(part, "made"))
        return AS_RECEIVED if off or first else ""
    if fact != "part_number" or not goes_back(job, part):
        return ""
    line = job.bill.positions.get(out_of(job, part))
    return line.line.part_number if line else ""


def fact_right(job: Job, record: Record, part: str) -> str:
    """The graver of the rights that a record needs on one part: office for an owner, or an origin over *borrowed*."""
    for fact in ("owner", "origin"):
        for entry in job.entries(part, fact):
            if entry.record.h != record.h:
                continue
            found = _facts_of(job, part, fact).against(entry)
            if found and (fact == "owner" or any(one is not None and one.value == BORROWED for one in found)):
                return "office"
    return "release"


def same_as_narrowings(job: Job, part: str) -> Iterator[Narrowing]:
    """Records that say of two names that they are one part, but for one that two people took off."""
    for name in job.group(part):
        for entry in job.entries("same:" + name, "same_as"):
            one, other = entry.value
            if one != other and not _came_off_twice(job, one, other):
                yield Narrowing(entry.record, part, "release", (entry.record,))


def _came_off_twice(job: Job, one: str, other: str) -> bool:
    """Is it one part that two people, neither of whom had seen the other, recorded as taken off one place?"""
    first, second = _brought_in(job, one), _brought_in(job, other)
    if not first or not second or {first.typ, second.typ} != {"part.taken_off"}:
        return False
    place, knew = first.body.get("out_of"), job.knowing.knew
    return bool(place) and second.body.get("out_of") == place and not knew(first, second) and not knew(second, first)


def _brought_in(job: Job, name: str) -> Record | None:
    """The record that brought a part in by this very name."""
    made = [entry for entry in job.entries(name, "made") if entry.thing == name and entry.value != "temporary"]
    return min((entry.record for entry in made), key=lambda record: record.ref, default=None)


def covered_narrowings(job: Job, part: str) -> Iterator[Narrowing]:
    """Findings that were said to be covered when they were noted."""
    for finding in findings_of(job, part):
        for head in job.heads(finding.value, "approval"):
            if head.record.typ == "finding.noted":
                yield Narrowing(head.record, part, "office", writing(job, finding.value, "approval"), by_release=False)
