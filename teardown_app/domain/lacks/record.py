"""Records themselves: no right, does not fit, from a newer app, not here, two versions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.lacks.lack import MISFIT, NEWER, NO_RIGHT, NOT_HERE, TWO_VERSIONS, Lack, Where, lack
from teardown_app.domain.ledger import effect
from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.nouns.faulty import stray
from teardown_app.domain.nouns.job import JOB, Job


def record_lacks(job: Job, records: Iterable[Record]) -> Iterator[Lack]:
    """What is wrong with these records of the job."""
    for record in records:
        kind, wrong = _fault(job, record)
        if kind:
            yield lack(kind, Where(JOB), wrong, ground=(record,), which=record.ref)


def _fault(job: Job, record: Record) -> tuple[str, str]:
    why = job.effect(record)
    said = f"{record.typ.replace('.', ' ')} by {record.act} on {record.wall[:10]}"
    if why == effect.NO_RIGHT:
        return NO_RIGHT, f"{said} has no effect."
    if why == effect.NEWER:
        return NEWER, f"{said} is not understood here."
    misfit = job.why_misfit(record) if why == effect.MISFIT else "" if why else stray(job, record)
    return (MISFIT, f"{said}: {misfit}.") if misfit else ("", "")


def absent_lacks(job: Job) -> Iterator[Lack]:
    """Records known of but not here, and numbers that stand for two different records."""
    for dev, seq in job.knowing.gaps():
        yield _absent(NOT_HERE, f"{dev}:{seq}", f"Record {seq} of tablet {dev} is not here yet.")
    for dev, seq in job.shop_gaps():
        wrong = f"Record {seq} of the shop by tablet {dev} is not here yet."
        yield _absent(NOT_HERE, f"{SHOP}/{dev}:{seq}", wrong)
    for dev, seq in job.knowing.forks():
        yield _absent(TWO_VERSIONS, f"{dev}:{seq}", f"Tablet {dev} has two different records {seq}.")
    for dev, seq in job.shop_forks():
        wrong = f"Tablet {dev} has two different records {seq} of the shop."
        yield _absent(TWO_VERSIONS, f"{SHOP}/{dev}:{seq}", wrong)


def _absent(kind: str, which: str, wrong: str) -> Lack:
    return lack(kind, Where(JOB), wrong, which=which)
