"""Grounds: a verdict counts only while its author had seen every record that it rests on."""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.job.accepting import is_accepted_off
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.acts import asks
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import SHOP, Record


def stands_on(job: Job, verdict: Record, ground: Iterable[Record], thing: str = "") -> bool:
    """Had the author of a verdict seen everything on its ground, itself left out?

    Of a record that was taken back the taking back counts too: the record lies there until the taking back is
    accepted (for `thing`, where it is about several); the taking back lies there for an author who had seen the
    record, unless the record asked.
    """
    return all(one.h == verdict.h or _was_seen(job, verdict, one, thing) for one in ground)


def _was_seen(job: Job, verdict: Record, one: Record, thing: str) -> bool:
    knew = had_seen(job, verdict, one)
    backs = job.takings_back(one) if one.job != SHOP else []
    if not backs:
        return knew
    if not knew:
        return is_accepted_off(job, one, thing)
    return asks(one) or all(back.h == verdict.h or had_seen(job, verdict, back) for back in backs)


def had_seen(job: Job, later: Record, earlier: Record) -> bool:
    """Had the author of one of the job's records seen another one, of the job or of the shop?"""
    if earlier.job != SHOP:
        return job.knowing.knew(later, earlier)
    return job.shop.was_seen(job.knowing.vector(later), earlier)


def lying(job: Job, records: Iterable[Record], thing: str = "") -> list[Record]:
    """Of these records those that lie on a ground: with effect, or taken back and that not accepted."""
    return [one for one in records if not job.takings_back(one) or not is_accepted_off(job, one, thing)]


def is_gone(job: Job, record: Record) -> bool:
    """Was the record taken back?"""
    return bool(job.takings_back(record))


def records_of(entries: Iterable[Entry]) -> tuple[Record, ...]:
    """The records that wrote these entries, each once."""
    return tuple({entry.record.h: entry.record for entry in entries}.values())
