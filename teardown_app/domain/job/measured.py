"""What a narrowing is measured against: what its author had seen of the cell, nothing older than the last accepted."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

from teardown_app.domain.job.accepting import acceptors, had_seen_all, subjects_of, taken
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record

Narrows = Callable[[Entry, Entry | None], bool]
"""Does an entry narrow against an earlier one, or against the bill (None)?"""

Accepted = Callable[[Entry], bool]
"""Did anybody accept an entry, whatever came since?"""


class Narrowing(NamedTuple):
    """One narrowing of one record on one thing: the second right it needs, and the records of its cells."""

    record: Record
    subject: str
    """Thing name of a place, or a part."""
    right: str
    cells: tuple[Record, ...]
    by_release: bool = True
    """False where a release does not accept it: owner, borrowed, covered."""
    over: tuple[Entry, ...] = ()
    """Earlier entries that it narrows against."""


class Measured:
    """One cell, with what narrows there and who accepted it."""

    def __init__(self, job: Job, cell: Iterable[Entry], narrows: Narrows, accepted: Accepted) -> None:
        self._job, self._narrows, self._accepted = job, narrows, accepted
        self._cell = [entry for entry in cell if is_measured(job, entry)]
        self._was: dict[str, bool] = {}

    def against(self, entry: Entry) -> list[Entry | None]:
        """What the entry narrows against: once a narrowing was accepted, it stands in the place of the bill and of all
        that its own author had seen."""
        seen = self.seen(entry)
        bill: list[Entry | None] = [] if self.last_of(entry) else [None]
        return [one for one in (*seen, *bill) if self._narrows(entry, one)]

    def seen(self, entry: Entry) -> list[Entry]:
        """Entries that its author had seen, and nothing older than the last accepted narrowing of these."""
        knew, last = self._job.knowing.knew, self.last_of(entry)
        return [one for one in self.known(entry) if not any(knew(other.record, one.record) for other in last)]

    def last_of(self, entry: Entry) -> list[Entry]:
        """Accepted narrowings of the cell that the author had seen."""
        return [one for one in self.known(entry) if not self._job.takings_back(one.record) and self._was_accepted(one)]

    def known(self, entry: Entry) -> list[Entry]:
        """Entries of the cell that the author had seen."""
        knew = self._job.knowing.knew
        return [e for e in self._cell if e.record.h != entry.record.h and knew(entry.record, e.record)]

    def over(self, entry: Entry) -> tuple[Entry, ...]:
        """The same without the bill."""
        return tuple(one for one in self.against(entry) if one is not None)

    def _was_accepted(self, entry: Entry) -> bool:
        known = self._was.get(entry.record.h)
        if known is None:
            known = self._was[entry.record.h] = self._accepted(entry) and self.narrowed(entry)
        return known

    def narrowed(self, entry: Entry) -> bool:
        """Does the entry narrow by what it says alone?"""
        return bool(self.against(entry))


def is_measured(job: Job, entry: Entry) -> bool:
    """An entry that was taken back counts too, while its taking back is neither accepted nor a point."""
    if not job.takings_back(entry.record):
        return True
    subjects, one = subjects_of(job, entry.record), job.group(entry.thing)[0]
    found = (taken(job, entry.record, each) for each in ([one] if one in subjects else subjects))
    return not any(each.accepted or each.is_point for each in found)


def is_accepted(job: Job, one: Narrowing) -> bool:
    """Is a narrowing accepted by somebody who had seen every record of its cells?"""
    those = acceptors(job, one.record, one.subject, one.right, by_release=one.by_release)
    return any(had_seen_all(job, each, one.cells) for each in those)
