"""What the authors of signatures had not seen: kept from record to record, so that one more record costs no more."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import islice

from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record, is_position
from teardown_app.domain.signed.signature_scope import is_in_scope, signature_scope


class Standing:
    """For each signature a record of its scope that its author had not seen. On the job, and on a place, such a record
    stays in the scope for good."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._unseen: dict[str, dict[str, Record]] = {}
        self._looked_at: dict[str, int] = {}

    def heed(self, touched: set[str], record: Record) -> None:
        """Nothing that is kept here ever changes."""

    def unseen(self, thing: str, signature: Record) -> Record | None:
        """A record in the scope of a signature on a thing that its author had not seen; None where there is none."""
        known = self._unseen.get(thing, {}).get(signature.h)
        if known is not None:
            return known
        found = self._in_the_job(signature) if thing == JOB else self._elsewhere(thing, signature)
        if found is not None and (thing == JOB or is_position(thing)):
            self._unseen.setdefault(thing, {})[signature.h] = found
        return found

    def not_overtaken(self, thing: str, signatures: Iterable[Entry]) -> list[Entry]:
        """Of these signatures on a thing those that are not known to be overtaken for good."""
        gone = self._unseen.get(thing, {})
        return [one for one in signatures if one.record.h not in gone]

    def _in_the_job(self, signature: Record) -> Record | None:
        """Only records that came since the signature was last looked at."""
        records, before = self._job.records, self._looked_at.get(signature.h, 0)
        self._looked_at[signature.h] = len(records)
        new = islice(reversed(records.values()), len(records) - before)
        return next((one for one in new if is_in_scope(one) and self._missed(signature, one)), None)

    def _elsewhere(self, thing: str, signature: Record) -> Record | None:
        return next((one for one in signature_scope(self._job, thing) if self._missed(signature, one)), None)

    def _missed(self, signature: Record, one: Record) -> bool:
        return one.h != signature.h and not self._job.knowing.knew(signature, one)
