"""Records that count for nothing, or speak of what this job does not have."""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.job.job import JOB, Job, opens
from teardown_app.domain.ledger.effect import UNCOUNTED, VOIDED
from teardown_app.domain.ledger.record import Record, is_position, position_thing

MAKERS = ("part.taken_off", "part.brought_in", "goods.taken_over")
"""Kinds that bring in a part: recorded again it has another name, and the same label or place."""


def is_faulty(job: Job, record: Record) -> bool:
    """True for a record that has a point of its own, unless somebody recorded it again; all of a tablet that does not
    count have one together."""
    effect = job.effect(record)
    if effect:
        return effect not in (VOIDED, UNCOUNTED)
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
    if thing == JOB or thing.startswith("carrier:"):
        return True
    if is_position(thing):
        return thing[1:] in job.positions
    return bool(job.entries(thing, "made") or job.entries(thing, "of"))


def is_made_again(job: Job, record: Record) -> bool:
    """Did others record what this one without effect says, with effect and knowing of it: the same kind about all the
    same things, or of a new part the same label or place?"""
    if record.typ in MAKERS and record.ent and not is_position(record.ent[0]):
        return any(_is_again(job, one, record) for one in _of_one_piece(job, record))
    return all(any(_is_again(job, one, record) for one in _about(job, record, thing)) for thing in record.ent)


def _is_again(job: Job, again: Record, record: Record) -> bool:
    return again.typ == record.typ and not job.effect(again) and job.knowing.knew(again, record)


def _about(job: Job, record: Record, thing: str) -> Iterable[Record]:
    if thing != JOB:
        return job.about(thing)
    return (one for one in job.of_kind(record.typ) if JOB in one.ent)


def _of_one_piece(job: Job, record: Record) -> Iterable[Record]:
    """Records that give a part the label of this one, or the place that it came out of."""
    number, place = record.body.get("number"), record.body.get("out_of")
    if number:
        yield from (entry.record for entry in job.ever(f"number:{number}", "bound"))
    if not place:
        return
    if record.typ == "goods.taken_over":
        yield from (one for one in job.of_kind(record.typ) if one.body.get("out_of") == place)
    else:
        yield from (entry.record for entry in job.ever(position_thing(str(place)), "came_out"))
