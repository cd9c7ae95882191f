"""Readings of one place of a model over the jobs there were: how a dimension moves from overhaul to overhaul."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.measure.judging import Reading, judge
from teardown_app.domain.parts.parts import own_place
from teardown_app.domain.places.checking import BINDS_NOTHING, PLAIN


class Past(NamedTuple):
    """One reading of an earlier job or this one."""

    job: str
    serial: str
    day: str
    when: str
    value: float
    """In the unit of the check's limit."""
    verdict: str


def readings_at(job: Job, line: str, check: str, spot: str) -> list[Past]:
    """Readings with a number that stand in a job, of parts out of a line's places and at these, by day."""
    known = job.bill.checks.get(check)
    if known is None or known.limit is None:
        return []
    found = []
    for facet in job.written_facets("check"):
        _, name, where, when = facet.split("/", 3)
        if (name, where) != (check, spot) or when == PLAIN:
            continue
        for thing in job.things(facet):
            key = thing[1:] if is_position(thing) else own_place(job, thing)
            if key not in job.positions or job.positions[key].line.position != line:
                continue
            for head in job.heads(thing, facet):
                read = Reading.of(known, head.value.body) if head.record.typ == "check.read" else None
                if read is not None:
                    worst, day = float(judge(known, read).worst), head.record.wall[:10]
                    found.append(Past(job.number, job.said("serial"), day, when, worst, head.value.verdict))
    return sorted(set(found), key=lambda one: (one.day, one.when not in BINDS_NOTHING, one.when))
