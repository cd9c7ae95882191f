"""Two different entries that neither author had seen of the other."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.lack import TWO_ENTRIES, Lack, Where, at_place, lack, of_part
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.merge import merge_of
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import AMENDABLE, JOB, Job
from teardown_app.domain.nouns.naming import named, part_named
from teardown_app.domain.nouns.parts import came_from, findings_of
from teardown_app.domain.nouns.routing import done_twice
from teardown_app.domain.nouns.scope import words_of

PART_FACETS = (
    "out_of",
    "meant_for",
    "part_number",
    "owner",
    "origin",
    "condition",
    "place",
    "set_mark",
    "disposition",
    "written",
    "check",
    "operation",
)
PLACE_FACETS = ("renewal", "found", "check")
WORDS = {"out_of": "where it came out of", "meant_for": "where it goes", "renewal": "its renewal"}


def part_conflicts(job: Job, part: str) -> Iterator[Lack]:
    """Facts of a part, and answers to its findings, on which two entries differ."""
    where = of_part(job, part)
    name = part_named(job, part, where.position)
    for facet in job.contested(part):
        if facet.partition("/")[0] in PART_FACETS and job.differs(part, facet):
            yield _two(job, where, f"{name}: {_words(facet)}", facet, job.heads(part, facet))
    for finding in findings_of(job, part):
        if job.differs(finding.value, "approval"):
            heads = job.heads(finding.value, "approval")
            yield _two(job, where, f"{name}: the customer's answer", f"approval/{finding.value}", heads)
    for facet in done_twice(job, part):
        said = f"{name}: {_words(facet)} was done twice"
        yield _two(job, where, said, facet + "/twice", job.heads(part, facet))


def place_conflicts(job: Job, position: Position) -> Iterator[Lack]:
    """Facts of a place on which two entries differ, and two parts that came out of it."""
    key = position.key
    thing = position_thing(key)
    where = at_place(key)
    for facet in job.contested(thing):
        if facet.partition("/")[0] in PLACE_FACETS and job.differs(thing, facet):
            yield _two(job, where, f"{named(job, key)}: {_words(facet)}", facet, job.heads(thing, facet))
    scope = words_of(job, key)
    own = [entry for entry in scope if entry.thing == thing]
    if own and len({merge_of("scope").decisive(entry.value) for entry in scope}) > 1:
        yield _two(job, where, f"{named(job, key)}: what was received", "scope", scope)
    parts = came_from(job, key)
    if len(parts) > 1:
        heads = [head for part in parts for head in job.heads(part, "out_of")]
        yield _two(job, where, f"{named(job, key)}: two parts came out of it", "came_out", heads)


def job_conflicts(job: Job) -> Iterator[Lack]:
    """Facts of the job on which two entries differ."""
    for facet in (*AMENDABLE, "end"):
        if job.differs(JOB, facet):
            yield _two(job, Where(JOB), f"The job: {_words(facet)}", facet, job.heads(JOB, facet))


def _words(facet: str) -> str:
    name, _, rest = facet.partition("/")
    return WORDS.get(name, " ".join(word for word in (name.replace("_", " "), rest.replace("/", " ")) if word))


def _two(job: Job, where: Where, said: str, which: str, heads: tuple[Entry, ...] | list[Entry]) -> Lack:
    authors = ", ".join(sorted({head.record.act for head in heads}))
    return lack(TWO_ENTRIES, where, f"{said}: entries differ ({authors}).", ground=refs(heads), which=which)
