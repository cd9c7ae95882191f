"""Two different entries that neither author had seen of the other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.ground import records_of
from teardown_app.domain.job.job import AMENDABLE, JOB, Job
from teardown_app.domain.lacks.lack import TWO_ENTRIES, Lack, Where, at_place, lack, of_part
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.facets import facet_of
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.parts import came_from, findings_of
from teardown_app.domain.parts.routing import done_twice
from teardown_app.domain.places.hardware import counts_that_differ
from teardown_app.domain.places.scope import words_of
from teardown_app.domain.signed.scope_words import scope_cell

OF_SEVERAL_CELLS = ("approval", "scope", "found")
"""Facets that settle by a rule of their own: of a finding, of a place and what is above it, of a bag."""


def part_conflicts(job: Job, part: str) -> Iterator[Lack]:
    """Facts of a part, and answers to its findings, on which two entries differ."""
    where = of_part(job, part)
    name = part_named(job, part, where.position)
    for facet in job.contested(part):
        if _settles(facet) and job.differs(part, facet):
            yield _two(job, where, f"{name}: {_words(facet)}", part, facet)
    for finding in findings_of(job, part):
        if job.differs(finding.value, "approval"):
            which = f"approval/{finding.value}"
            yield _two(job, where, f"{name}: {_words('approval')}", finding.value, "approval", which)
    for facet in done_twice(job, part):
        yield _two(job, where, f"{name}: {_words(facet)} was done twice", part, facet, facet + "/twice")


def place_conflicts(job: Job, position: Position) -> Iterator[Lack]:
    """Facts of a place on which two entries differ."""
    key = position.key
    thing = position_thing(key)
    where = at_place(key)
    for facet in job.contested(thing):
        if _settles(facet) and job.differs(thing, facet):
            yield _two(job, where, f"{named(job, key)}: {_words(facet)}", thing, facet)
    words = words_of(job, key)
    if any(entry.thing == thing for entry in words) and _differ(words, "scope"):
        said = f"{named(job, key)}: {_words('scope')}"
        yield _lack(where, said, "scope", words, records_of(scope_cell(job, key)))
    if job.speaks_of(thing, "found") and (counts := counts_that_differ(job, key)):
        said, ground = f"{named(job, key)}: {_words('found')}", records_of(job.ever(thing, "found"))
        yield _lack(where, said, "found", counts, ground)


def origin_conflicts(job: Job, position: Position) -> Iterator[Lack]:
    """Two parts that came out of one place."""
    key = position.key
    parts = came_from(job, key)
    if len(parts) > 1:
        heads = [head for part in parts for head in job.heads(part, "out_of")]
        ground = records_of(entry for part in parts for entry in job.ever(part, "out_of"))
        yield _lack(at_place(key), f"{named(job, key)}: two parts came out of it", "came_out", heads, ground)


def job_conflicts(job: Job) -> Iterator[Lack]:
    """Facts of the job on which two entries differ; two ends that differ only mean that it is open."""
    for facet in AMENDABLE:
        if job.differs(JOB, facet):
            yield _two(job, Where(JOB), f"The job: {_words(facet)}", JOB, facet)


def _differ(entries: Iterable[Entry], facet: str) -> bool:
    return len({repr(facet_of(facet).decisive(entry.value)) for entry in entries}) > 1


def _settles(facet: str) -> bool:
    return facet_of(facet).settles and facet not in OF_SEVERAL_CELLS


def _words(facet: str) -> str:
    name, _, rest = facet.partition("/")
    words = (name.replace("_", " "), rest.replace("/", " "))
    return facet_of(facet).says or " ".join(word for word in words if word)


def _two(job: Job, where: Where, said: str, thing: str, facet: str, which: str = "") -> Lack:
    return _lack(where, said, which or facet, job.heads(thing, facet), records_of(job.ever(thing, facet)))


def _lack(where: Where, said: str, which: str, heads: Iterable[Entry], ground: Iterable[Record]) -> Lack:
    authors = ", ".join(sorted({head.record.act for head in heads}))
    return lack(TWO_ENTRIES, where, f"{said}: entries differ ({authors}).", ground=ground, which=which)
