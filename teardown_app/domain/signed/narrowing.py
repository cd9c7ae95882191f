"""Narrowings of one thing: what was said of it that takes a demand away, and holds today. Words: `scope_words`."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.gate import GATES
from teardown_app.domain.job.accepting import acceptors
from teardown_app.domain.job.ground import records_of
from teardown_app.domain.job.job import Job
from teardown_app.domain.job.measured import Measured, Narrowing
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.places.checking import FINISHED, FITTED, NEW, is_protective, over_graver
from teardown_app.domain.places.hardware import bag_of, counts_of, found_in
from teardown_app.domain.places.reading_ground import AGAIN
from teardown_app.domain.signed.narrowed_facts import (
    covered_narrowings,
    fact_narrowings,
    same_as_narrowings,
    writing,
)
from teardown_app.domain.signed.scope_words import scope_narrowings

MISSED = ("lost", "found_short")


def narrowings(job: Job, thing: str) -> list[Narrowing]:
    """All narrowings on a place (`@10.20`) or a part, one for each record: of several on one thing the graver right."""
    found: dict[str, Narrowing] = {}
    for one in _rows(job, thing):
        before = found.get(one.record.h)
        found[one.record.h] = _put_together(before, one) if before else one
    return list(found.values())


def _rows(job: Job, thing: str) -> Iterator[Narrowing]:
    yield from _accepts(job, thing)
    if is_position(thing):
        yield from scope_narrowings(job, thing)
        yield from _counts(job, thing)
        yield from _missed(job, thing)
        return
    yield from fact_narrowings(job, thing)
    yield from same_as_narrowings(job, thing)
    yield from covered_narrowings(job, thing)
    yield from _done(job, thing)


def _put_together(one: Narrowing, other: Narrowing) -> Narrowing:
    right = "office" if "office" in (one.right, other.right) else "release"
    cells, by_release = (*one.cells, *other.cells), one.by_release and other.by_release
    return one._replace(right=right, cells=cells, by_release=by_release)


def _is_accepted(job: Job, entry: Entry) -> bool:
    """Did anybody accept what is said of a thing, by release?"""
    return bool(acceptors(job, entry.record, job.group(entry.thing)[0], "release", by_release=True))


# readings, operations


def _accepts(job: Job, thing: str) -> Iterator[Narrowing]:
    for facet in job.facets(thing, "check"):
        _, check, _, when = facet.split("/", 3)
        heads = job.heads(thing, facet)
        if not _is_binding(when) or all(head.value.verdict != "accept" for head in heads) or is_protective(job, check):
            continue
        cell = Measured(
            job,
            job.ever(thing, facet),
            lambda entry, earlier: earlier is not None and over_graver(job, entry, earlier),
            lambda entry: _is_accepted(job, entry),
        )
        for head in heads:
            if over := cell.over(head):
                yield Narrowing(head.record, thing, "release", writing(job, thing, facet), over=over)


def _is_binding(when: str) -> bool:
    return when in (FINISHED, NEW, FITTED, *GATES) or when.endswith(AGAIN)


class _Twice(Measured):
    """The cell of a pass: a *done* narrows that replaces two others that had not seen each other."""

    def __init__(self, job: Job, part: str, facet: str) -> None:
        self._facet, self._of = facet, job
        done = (entry for entry in job.ever(part, facet) if entry.value == "done")
        super().__init__(job, done, lambda entry, earlier: True, lambda entry: _is_accepted(job, entry))

    def known(self, entry: Entry) -> list[Entry]:
        return [one for one in super().known(entry) if one not in self._of.unreplaced([one, entry], self._facet)]

    def narrowed(self, entry: Entry) -> bool:
        knew, seen = self._of.knowing.knew, [one.record for one in self.seen(entry)]
        return any(one.h != other.h and not knew(one, other) and not knew(other, one) for one in seen for other in seen)


def _done(job: Job, part: str) -> Iterator[Narrowing]:
    for facet in job.facets(part, "operation"):
        if sum(entry.value == "done" for entry in job.ever(part, facet)) < 3:
            continue
        cell = _Twice(job, part, facet)
        for head in job.heads(part, facet):
            if head.value == "done" and cell.narrowed(head):
                yield Narrowing(head.record, part, "release", writing(job, part, facet))


# hardware


def _counts(job: Job, thing: str) -> Iterator[Narrowing]:
    """Counts of a bag that hold, by records that name this place first."""
    if not job.speaks_of(thing, "found"):
        return
    own = [entry for entry in counts_of(job, thing[1:]) if entry.record.ent[0] == thing]
    if not own:
        return
    least = found_in(job, thing[1:])
    entries = [entry for key in bag_of(job, thing[1:]) for entry in job.ever(position_thing(key), "found")]
    cell = Measured(job, entries, _counts_less, lambda entry: _is_count_accepted(job, entry.record))
    for entry in own:
        if entry.value.found == least and (over := cell.over(entry)):
            yield Narrowing(entry.record, thing, "release", records_of(entries), over=over)


def _counts_less(entry: Entry, earlier: Entry | None) -> bool:
    if earlier is None:
        return False
    return bool(entry.value.places != earlier.value.places or entry.value.found < earlier.value.found)


def _is_count_accepted(job: Job, count: Record) -> bool:
    return bool(acceptors(job, count, count.ent[0], "release", by_release=False))


def _missed(job: Job, thing: str) -> Iterator[Narrowing]:
    """What was lost or found short waits for as long as it is said."""
    for facet in MISSED:
        for entry in job.entries(thing, facet):
            if entry.value > 0:
                yield Narrowing(entry.record, thing, "release", (entry.record,))
