"""Grounds: a verdict counts only while its author had seen every record that it rests on."""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.ledger.acts import asks
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.nouns.accepting import is_accepted_off
from teardown_app.domain.nouns.job import Job


def stands_on(job: Job, verdict: Record, ground: Iterable[Record], thing: str = "") -> bool:
    """Had the author of a verdict seen everything on its ground, itself left out?

    Of a record that was taken back the taking back counts too: the record lies there until the taking back is
    accepted (for `thing`, where it is about several); the taking back lies there for an author who had seen the
    record, unless the record asked.
    """
    return all(one.h == verdict.h or _was_seen(job, verdict, one, thing) for one in ground)


def _was_seen(job: Job, verdict: Record, one: Record, thing: str) -> bool:
    knew = job.knowing.knew(verdict, one)
    backs = job.takings_back(one)
    if not backs:
        return knew
    if not knew:
        return is_accepted_off(job, one, thing)
    return asks(one) or all(job.knowing.knew(verdict, back) for back in backs)
