"""What a release of a part rests on, and which of its releases had seen all that."""

from __future__ import annotations

from teardown_app.domain.job.ground import stands_on
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds import beside
from teardown_app.domain.ledger.kinds.kind import RELEASE
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.seat import line_names

BESIDE = beside(RELEASE)
"""Kinds about a part that a release need not have seen. A taking back lies with its target."""

ONLY_WHERE = {"number", "place", "note"}


def about_part(job: Job, part: str) -> list[Record]:
    """Records about a part, a finding or a hold on it; taken back or not."""
    marks = [entry.value for facet in ("finding", "hold") for entry in job.ever(part, facet)]
    found = {record.h: record for thing in (part, *marks) for record in job.about(thing)}
    return list(found.values())


def says_only_where(record: Record) -> bool:
    """True for a note that says only which label a part has, where it lies, or something in words."""
    return record.typ == "part.noted" and record.body.keys() <= ONLY_WHERE


@remembered
def release_ground(job: Job, part: str) -> list[Record]:
    """Records that the author of a release has to have seen."""
    return [one for one in about_part(job, part) if one.typ not in BESIDE and not _is_beside(one)]


def _is_beside(record: Record) -> bool:
    return says_only_where(record) or (record.typ == "check.read" and record.body["verdict"] == "accept")


def covers(job: Job, part: str) -> tuple[str, ...]:
    """Names of the records that a release of the part rests on, sorted: written down for people."""
    return tuple(sorted(record.ref for record in release_ground(job, part)))


@remembered
def releases(job: Job, part: str) -> list[Entry]:
    """Releases of the part for the lines of its seat whose authors had seen all that they rest on."""
    names = tuple(line_names(job, part))
    return [
        entry
        for entry in job.entries(part, "released")
        if tuple(entry.value) == names and stands_on(job, entry.record, release_ground(job, part), part)
    ]


def why_lapsed(job: Job, part: str) -> str:
    """Why releases of a part do not stand any more, as the end of a sentence; empty where it has none."""
    entries = job.entries(part, "released")
    if not entries:
        return ""
    seen = [one for one in entries if stands_on(job, one.record, release_ground(job, part), part)]
    if seen:
        was, now = (" and ".join(lines) or "no place" for lines in (seen[-1].value, line_names(job, part)))
        return f"is released for {was} and sits in {now}: release it for there"
    ground = (one for one in release_ground(job, part) if not stands_on(job, entries[-1].record, [one], part))
    changed = sorted({one.typ.partition(".")[0] for one in ground})
    return f"has changed since its release ({', '.join(changed)})"
