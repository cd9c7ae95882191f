"""What lies in the scope of a signature: of the job every record, of a place or a part all that is about it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.ledger.kinds import KINDS, beside
from teardown_app.domain.ledger.kinds.kind import SIGNATURE
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.signed.release import about_part, says_only_where

NOT_SIGNED = beside(SIGNATURE)
"""Kinds that no signature need have seen."""

SAYS_WHERE = {"out_of", "meant_for", "fit"}
"""Facets of a part that name a place it is of, was or is to be in."""


def is_in_scope(record: Record) -> bool:
    """False for what can be recorded after signing: labels, where things lie, photographs, closing, a recall."""
    if record.typ in NOT_SIGNED or says_only_where(record):
        return False
    return record.typ != "point.conceded" or not str(record.body.get("key", "")).startswith("recall|")


def signature_scope(job: Job, thing: str) -> Iterator[Record]:
    """Records that a signature on the job, a place (`@10`) or a part has to have seen; each once."""
    return (record for record in _all_of(job, thing) if is_in_scope(record))


def _all_of(job: Job, thing: str) -> Iterable[Record]:
    if thing == JOB:
        return job.records.values()
    if not is_position(thing) or thing[1:] not in job.positions:
        return about_part(job, thing)
    keys = {thing[1:], *(place.key for place in job.beneath(thing[1:]))}
    named = [*map(position_thing, keys), *parts_at(job, keys)]
    return {record.h: record for one in named for record in about_part(job, one)}.values()


def parts_at(job: Job, keys: Iterable[str]) -> set[str]:
    """Parts of which a record ever said that they came out of these places, are meant for them or were fitted there."""
    said = job.keep(SaidAt)
    return {job.group(name)[0] for key in keys for name in said.names(key)}


class SaidAt:
    """For each place the parts of which a record, taken back or not, says that they are of it: so a part leaves the
    scope of a signature no more."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._names: dict[str, dict[str, None]] = {}
        for record in job.records.values():
            self.heed(set(), record)

    def heed(self, touched: set[str], record: Record) -> None:
        """Told of each record."""
        kind = KINDS.get(record.typ)
        if kind is None or not SAYS_WHERE.intersection(kind.facets) or not self._job.good(record):
            return
        for thing, facet, value in kind.writes(record):
            if facet in SAYS_WHERE and isinstance(value, str):
                self._names.setdefault(value.removeprefix("@"), {})[thing] = None

    def names(self, key: str) -> Iterable[str]:
        """Names of parts of one place."""
        return self._names.get(key, ())
