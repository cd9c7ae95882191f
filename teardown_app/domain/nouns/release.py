"""What a release of a part rests on."""

from __future__ import annotations

from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.nouns.checking import (
    release_checks,
)
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import (
    findings_of,
    lifts,
)
from teardown_app.domain.nouns.routing import operation_facets


def covers(job: Job, part: str) -> tuple[str, ...]:
    """Names of the records that a release of the part rests on, sorted."""
    facets = ["disposition", "origin", *operation_facets(job, part)]
    entries: list[Entry] = [head for facet in facets for head in job.heads(part, facet)]
    for finding in findings_of(job, part):
        entries += [finding, *job.heads(finding.value, "approval")]
    for needed in release_checks(job, part):
        entries += job.heads(part, needed.facet)
    for hold in job.entries(part, "hold"):
        entries += [hold, *lifts(job, hold)]
    return refs(entries)
