"""Numbers that stand for different records: which there are, and of which the point can change by a record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.job.accepting import subjects_of
from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.lacks.lack import TWO_VERSIONS
from teardown_app.domain.lacks.record import records_of_number, two_versions, two_versions_in_shop
from teardown_app.domain.ledger.absent import is_of_shop
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.conceding import concessions


class Versions:
    """Such numbers of one job and of the shop, kept from record to record: a fork may be long, and it stays."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._known = set(two_versions(job))
        self._resting: dict[str, set[str]] = {}
        for name in self._known:
            self._rest(name)

    def heed(self, record: Record, touched: Iterable[str], accepting: Iterable[str]) -> set[str]:
        """Told of each record, with the things it touched, and those of which what is to be accepted can change by it.
        Gives the numbers whose points can change."""
        came = {*self._came_with(record)} - self._known
        self._known |= came
        resting = (name for thing in accepting for name in self._resting.get(thing, ()))
        found = came | self._known.intersection([_number(record), *self._named(record, touched), *resting])
        for name in found:
            self._rest(name)
        return found

    def _came_with(self, record: Record) -> Iterator[str]:
        """Numbers that may stand for different records since: the record's own, and those of the shop of which somebody
        here had not heard before."""
        if len(self._job.knowing.chains[record.dev][record.seq]) > 1:
            yield _number(record)
        if any(map(is_of_shop, record.seen)):
            yield from two_versions_in_shop(self._job)

    def _named(self, record: Record, touched: Iterable[str]) -> Iterator[str]:
        """Numbers of what is taken back, and those whose points are conceded or no longer are."""
        if record.typ == "record.voided":
            yield from map(_number, self._job.of_ref(str(record.body.get("record", ""))))
        for which in (thing.rpartition("|")[2] for thing in touched if thing.startswith("point:")):
            yield from self._job.group(which)

    def _rest(self, name: str) -> None:
        """Where records of a conceded number were taken back, the concession may stand once that is accepted: keeps,
        once for all, what they were about."""
        if is_of_shop(name) or not concessions(self._job, TWO_VERSIONS, JOB, name):
            return
        for record in filter(self._job.takings_back, records_of_number(self._job, name)):
            for thing in subjects_of(self._job, record):
                self._resting.setdefault(thing, set()).add(name)


def _number(record: Record) -> str:
    return f"{record.dev}:{record.seq}"
