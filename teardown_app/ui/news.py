"""What others recorded in a job since a person was last there; remembered on this tablet only."""

from __future__ import annotations

from typing import Any

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import display_order
from teardown_app.domain.ledger.record import Record
from teardown_app.records.own_notes import OwnNotes


class News:
    """How far each person has seen each job: the last record of every tablet."""

    def __init__(self, notes: OwnNotes) -> None:
        self._notes = notes
        self._note = notes.read("seen")

    def of(self, job: Job, code: str) -> list[Record]:
        """Records by others that the person has not seen, oldest first."""
        seen: dict[str, Any] = self._note.get(code, {}).get(job.number, {})
        unseen = [one for one in job.records.values() if one.act != code and one.seq > int(seen.get(one.dev, 0))]
        return sorted(unseen, key=display_order)

    def seen(self, job: Job, code: str) -> None:
        """The person has seen all that is here."""
        heads: dict[str, int] = {}
        for one in job.records.values():
            heads[one.dev] = max(heads.get(one.dev, 0), one.seq)
        self._note.setdefault(code, {})[job.number] = heads
        self._notes.keep("seen", self._note)
