"""Records themselves: no right, does not fit, from a newer app, not here, two versions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.job.faulty import is_made_again, stray
from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.lacks.lack import MISFIT, NEWER, NO_RIGHT, NOT_HERE, TWO_VERSIONS, Lack, Where, lack
from teardown_app.domain.ledger import effect
from teardown_app.domain.ledger.absent import Gap, is_of_shop, plain
from teardown_app.domain.ledger.record import SHOP, Record

JOIN = "The office joins it, or they are recorded again."


def record_lacks(job: Job, records: Iterable[Record]) -> Iterator[Lack]:
    """What is wrong with these records of the job."""
    for record in records:
        kind, wrong = _fault(job, record)
        if kind:
            yield lack(kind, Where(JOB), wrong, ground=(record,), which=record.ref)


def uncounted_lacks(job: Job) -> Iterator[Lack]:
    """Tablets whose records do not count here: one for all records of each, until all of these are recorded again."""
    for dev, records in job.uncounted.items():
        if not all(is_made_again(job, record) for record in records):
            said = "1 record" if len(records) == 1 else f"{len(records)} records"
            wrong = f"{said} of tablet {dev} are of a shop that nobody joined."
            yield lack(NO_RIGHT, Where(JOB), wrong, clears=JOIN, ground=records, which=dev)


def _fault(job: Job, record: Record) -> tuple[str, str]:
    why = job.effect(record)
    said = f"{record.typ.replace('.', ' ')} by {record.act} on {record.wall[:10]}"
    if why == effect.UNCOUNTED or (why == effect.NO_RIGHT and is_made_again(job, record)):
        return "", ""
    if why == effect.NO_RIGHT:
        return NO_RIGHT, f"{said} has no effect."
    if why == effect.NEWER:
        return NEWER, f"{said} is not understood here."
    misfit = job.why_misfit(record) if why == effect.MISFIT else "" if why else stray(job, record)
    return (MISFIT, f"{said}: {misfit}.") if misfit else ("", "")


def absent_lacks(job: Job) -> Iterator[Lack]:
    """Records known of but not here."""
    for gap in job.gaps():
        yield _absent(NOT_HERE, f"{gap.dev}:{gap.first}", _not_here(gap, f"of tablet {gap.dev}"))
    for gap in job.shop_gaps():
        wrong = _not_here(gap, f"of the shop by tablet {gap.dev}")
        yield _absent(NOT_HERE, f"{SHOP}/{gap.dev}:{gap.first}", wrong)


def two_versions(job: Job) -> list[str]:
    """Numbers that stand for different records, each as tablet and number: the job's own, and those of the shop as far
    as somebody here had seen them."""
    return [*(f"{dev}:{seq}" for dev, seq in job.knowing.forks()), *two_versions_in_shop(job)]


def two_versions_in_shop(job: Job) -> list[str]:
    """Of these numbers the shop's."""
    return [f"{SHOP}/{dev}:{seq}" for dev, seq in job.shop_forks()]


def records_of_number(job: Job, name: str) -> list[Record]:
    """Records of a number, by its name in `two_versions`."""
    dev, _, seq = name.rpartition(":")
    knowing = job.shop.knowing if is_of_shop(dev) else job.knowing
    return knowing.chains[plain(dev)][int(seq)]


def version_lacks(job: Job, name: str) -> Iterator[Lack]:
    """That a number of `two_versions` stands for different records."""
    dev, _, seq = name.rpartition(":")
    of_shop = " of the shop" if is_of_shop(dev) else ""
    wrong = f"Tablet {plain(dev)} has two different records {seq}{of_shop}."
    yield _absent(TWO_VERSIONS, name, wrong, records_of_number(job, name))


def _not_here(gap: Gap, whose: str) -> str:
    if gap.first == gap.last:
        return f"Record {gap.first} {whose} is not here yet."
    return f"Records {gap.first} to {gap.last} {whose} are not here yet."


def _absent(kind: str, which: str, wrong: str, ground: Iterable[Record] = ()) -> Lack:
    """A record that is not here is on no ground, and never conceded: nobody can have looked at it."""
    return lack(kind, Where(JOB), wrong, which=which, ground=ground, never=kind == NOT_HERE)
