"""Replay: a job as its records tell it, from nothing. The order in which they are given says nothing."""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.job.job import Bills, Job
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.shop.shop import Shop


def replay(shop_records: Iterable[Record], job_number: str, job_records: Iterable[Record], bills: Bills) -> Job:
    """State of one job, and in `job.shop` of the shop, that these records lead to."""
    shop = Shop()
    shop.take_all(shop_records)
    job = Job(job_number, shop, bills)
    job.take_all(job_records)
    return job
