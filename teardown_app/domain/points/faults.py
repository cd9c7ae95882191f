"""Records that have no effect, or speak of what the job does not have: kept from record to record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.job.faulty import is_faulty
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import Record

MAKES_KNOWN = {"made", "of"}
"""Facets by which a thing is known in a job."""


class Faults:
    """The faulty records of one job; what cannot have become faulty is not looked at again."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._faulty: dict[str, Record] = {}
        self._look_at(job.records.values())

    def heed(self, record: Record, touched: Iterable[str]) -> None:
        """Told of each record, with the things it touched."""
        self._look_at([*self._faulty.values(), record, *self._maybe_stray(record, touched)])

    def records(self) -> Iterable[Record]:
        """All that are faulty."""
        return self._faulty.values()

    def _look_at(self, records: Iterable[Record]) -> None:
        for record in records:
            if is_faulty(self._job, record):
                self._faulty[record.h] = record
            else:
                self._faulty.pop(record.h, None)

    def _maybe_stray(self, record: Record, touched: Iterable[str]) -> Iterator[Record]:
        """What speaks of things that a taking back may have made unknown; places and names joined are not among them,
        then everything is looked at again."""
        if record.typ != "record.voided":
            return
        for target in self._job.of_ref(str(record.body.get("record", ""))):
            if target.typ in KINDS and MAKES_KNOWN.intersection(KINDS[target.typ].facets):
                yield from (one for thing in touched for one in self._job.about(thing))
