"""What lies in the scope of a signature: of the job every record, of a place or a part all that is about it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.ledger.kinds import beside
from teardown_app.domain.ledger.kinds.kind import SIGNATURE
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.parts.parts import came_from
from teardown_app.domain.parts.seat import seat_of
from teardown_app.domain.signed.release import about_part, says_only_where

NOT_SIGNED = beside(SIGNATURE)
"""Kinds that no signature need have seen."""


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


def parts_at(job: Job, keys: set[str]) -> set[str]:
    """Parts that came out of, are seated at, or by any fitting were at these places."""
    found: set[str] = set()
    for key in keys:
        found.update(came_from(job, key))
        fitted = (one for one in job.about(position_thing(key)) if one.typ == "part.fitted")
        found.update(job.group(one.ent[0])[0] for one in fitted)
    meant = {job.group(one)[0] for one in job.things("meant_for")}
    return found | {part for part in meant if keys.intersection(seat_of(job, part))}
