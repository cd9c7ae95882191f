"""A concession that does not stand any more: the sentence before the sentence."""

from __future__ import annotations

from teardown_app.domain.job.ground import stands_on
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import TO_ACCEPT, Lack
from teardown_app.domain.ledger.entry import Entry, display_order
from teardown_app.domain.parts.conceding import concessions, ground_of
from teardown_app.domain.parts.filling import lost_with
from teardown_app.domain.parts.life import deed_of
from teardown_app.domain.parts.naming import day_named, part_named


def why_lapsed(job: Job, one: Lack) -> str:
    """`Conceded on 12 March; TB fitted it since: open again. `, empty where nobody conceded the lack, which is open."""
    found = [] if one.never or one.kind == TO_ACCEPT else concessions(job, one.kind, one.where.subject, one.which)
    if not found:
        return ""
    return f"Conceded on {day_named(found[-1].record.wall)}; {_since(job, one, found[-1])}: open again. "


def _since(job: Job, one: Lack, concession: Entry) -> str:
    ground = ground_of(job, one.where.subject, one.ground())
    missed = [each for each in ground if not stands_on(job, concession.record, [each], one.where.thing)]
    first = min(missed, key=display_order, default=None)
    if unit := lost_with(job, concession.record, one.where.subject) if one.where.subject in job.positions else "":
        return f"{part_named(job, unit)} is gone since"
    return f"{first.act} {deed_of(first)} since" if first else "for another place"
