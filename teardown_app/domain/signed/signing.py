"""Signatures: what lies in their scope, whether one stands, and whether the job is closed."""

from __future__ import annotations

from collections.abc import Iterable
from hashlib import blake2b

from teardown_app.domain.job.ground import had_seen
from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.doubt import doubts
from teardown_app.domain.parts.recall import readings_and_torques
from teardown_app.domain.signed.signature_scope import signature_scope
from teardown_app.domain.signed.standing import Standing

MOST_NAMED = 200
"""Above this many records a signature names their digest instead of each."""


def signed(job: Job) -> list[str]:
    """What was signed; a part by its smallest name."""
    return sorted({job.group(thing)[0] for thing in job.things("signature") if job.entries(thing, "signature")})


def standing_signatures(job: Job, thing: str) -> list[Record]:
    """Signatures on a thing (the job, a place, a part) that stand."""
    maybe = job.keep(Standing).not_overtaken(thing, job.entries(thing, "signature"))
    return [entry.record for entry in maybe if stands(job, thing, entry.record)]


def stands(job: Job, thing: str, signature: Record) -> bool:
    """Had its author seen all in the scope, and what puts a reading or torque there in doubt?"""
    if job.keep(Standing).unseen(thing, signature) is not None:
        return False
    return all(had_seen(job, signature, one) for one in found_out_in(job, signature_scope(job, thing)))


def found_out_in(job: Job, scope: Iterable[Record]) -> list[Record]:
    """What was found out, not after closing, and puts a reading or torque in a scope in doubt."""
    names = {record.h for record in scope}
    found = (one for entry in readings_and_torques(job) if entry.record.h in names for one in doubts(job, entry))
    return list({entry.record.h: entry.record for entry in found}.values())


def is_stale(job: Job, thing: str) -> bool:
    """True for something signed of which no signature stands."""
    return bool(job.entries(thing, "signature")) and not standing_signatures(job, thing)


def is_closed(job: Job, *, complete: bool) -> bool:
    """Is the job closed: does its closing stand, with a signature on the job that its author had seen, and is no point
    open (`complete`)?"""
    ends = job.heads(JOB, "end")
    return complete and bool(ends) and all(end.value == "closed" for end in ends) and _is_signed(job, ends)


def closing_stands(job: Job) -> bool:
    """True while nothing was recorded since the job was signed and closed: what is recorded then wants a reopening."""
    return is_closed(job, complete=True)


def _is_signed(job: Job, ends: Iterable[Entry]) -> bool:
    signatures = standing_signatures(job, JOB)
    return any(job.knowing.knew(end.record, one) for end in ends for one in signatures)


def overtaking(job: Job) -> list[Record]:
    """Records that came since the job was signed last: what its closing does not know of."""
    entries = job.entries(JOB, "signature")
    scope = list(signature_scope(job, JOB)) if entries else []
    missed = [[one for one in scope if not job.knowing.knew(entry.record, one)] for entry in entries]
    return min(missed, key=len, default=[])


def signature_covers(job: Job, thing: str) -> list[str]:
    """What a signature on a thing covers today, for people: names, or their number and digest where they are many."""
    scope = list(signature_scope(job, thing))
    found = sorted({record.ref for record in (*scope, *found_out_in(job, scope))})
    if len(found) <= MOST_NAMED:
        return found
    return [f"{len(found)} records {blake2b(' '.join(found).encode(), digest_size=16).hexdigest()}"]
