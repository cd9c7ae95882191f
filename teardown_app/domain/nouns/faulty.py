"""Records that count for nothing, or speak of what this job does not have."""

from __future__ import annotations

from teardown_app.domain.ledger.effect import VOIDED
from teardown_app.domain.ledger.record import SHOP, Record, is_position
from teardown_app.domain.nouns.job import JOB, Job, opens


def is_faulty(job: Job, record: Record) -> bool:
    """True for a record that has a point."""
    effect = job.effect(record)
    if effect:
        return effect != VOIDED
    return bool(stray(job, record))


def stray(job: Job, record: Record) -> str:
    """What the record speaks of that this job does not have, empty when all is known.

    A correction speaks of its target alone; that what the target brought in is gone, is its purpose.
    """
    if record.typ == "record.voided":
        return ""
    if record.typ == "job.opened":
        own = any(entry.record.h == record.h and opens(entry, job.number) for entry in job.entries(JOB, "opened"))
        first = job.opening is None or job.opening.record.h == record.h
        return "" if own and first else "the job was opened already, or by another tablet"
    if record.typ == "line.added" and record.ent[0][1:] in job.bill.positions:
        return "the bill has this place already"
    for thing in record.ent:
        if not knows_thing(job, thing):
            return f"nothing is known of {thing.removeprefix('@')}"
    return ""


def knows_thing(job: Job, thing: str) -> bool:
    """True for the job, its places, and what a record that has effect brought in."""
    if thing == JOB or thing.startswith((SHOP, "carrier:")):
        return True
    if is_position(thing):
        return thing[1:] in job.positions
    return bool(job.entries(thing, "made") or job.entries(thing, "of"))
