"""What was taken back, found by what it was about: kept from record to record, so that nobody looks through all."""

from __future__ import annotations

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Record


class TakenBack:
    """For each thing the records about it that a taking back names. A target that comes after its taking back has
    everything concluded anew, this too."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._named: dict[str, dict[str, Record]] = {}
        for record in job.of_kind("record.voided"):
            self._add(record)

    def heed(self, touched: set[str], record: Record) -> None:
        """Told of each record."""
        if record.typ == "record.voided":
            self._add(record)

    def _add(self, back: Record) -> None:
        for target in self._job.of_ref(str(back.body.get("record", ""))):
            for thing in target.ent:
                self._named.setdefault(thing, {})[target.h] = target

    def about(self, thing: str) -> dict[str, Record]:
        """By their hashes, those about a thing by this very name."""
        return self._named.get(thing, {})


def taken_back_about(job: Job, thing: str) -> list[Record]:
    """Records about a thing, by any of its names, that were taken back and would else have effect; each once."""
    if not job.speaks("voided"):
        return []
    kept = job.keep(TakenBack)
    found = {h: record for name in job.group(thing) for h, record in kept.about(name).items()}
    return [record for record in found.values() if job.takings_back(record) and job.good(record)]
