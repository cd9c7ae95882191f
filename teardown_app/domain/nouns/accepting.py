"""Which narrowings were accepted, and by whom."""

from __future__ import annotations

from teardown_app.domain.ledger.record import Record
from teardown_app.domain.nouns.job import Job


def is_accepted_off(job: Job, record: Record, thing: str = "") -> bool:
    """Is the taking back of a record accepted, so that the record lies on no ground of `thing` any more?"""
    return False
