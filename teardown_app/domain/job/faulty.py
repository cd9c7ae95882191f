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
    if record.typ == "line.added" and (why := _why_no_place(job, record.ent[0][1:])):
        return why
    for thing in record.ent:
        if not knows_thing(job, thing):
            return f"nothing is known of {thing.removeprefix('@') or 'a place without a name'}"
    return next(filter(None, (_other_sort(job, record, thing) for thing in record.ent)), "") or _elsewhere(job, record)


def _why_no_place(job: Job, key: str) -> str:
    """Why no place is added under this name."""
    if not key.strip():
        return "a place without a name"
    return "the bill has this place already" if key in job.bill.positions else ""


PLACES_FOR = {
    **dict.fromkeys(("hardware.", "joint."), (("hardware",), "hardware")),
    "consumable.": (("consumable",), "a consumable"),
    "temporary.": (("temporary",), "what is in only for a time"),
    "part.": (("part", "assembly"), "a part"),
}
"""How the name of a kind begins -> the kinds of line of which it names a place, and in words. Others: any."""

MARKS = ("hold.placed", "finding.noted")


def _other_sort(job: Job, record: Record, thing: str) -> str:
    """Why the record does not fit a thing that is known."""
    if not is_position(thing):
        unmarked = record.typ in MARKS and not _is_part(job, thing)
        return f"{thing} is neither part nor place" if unmarked else ""
    sorts, words = PLACES_FOR.get(record.typ.partition(".")[0] + ".", ((), ""))
    kind = job.positions[thing[1:]].line.kind
    return f"{thing[1:]} is no place for {words}" if sorts and kind not in sorts else ""


def _is_part(job: Job, thing: str) -> bool:
    return any(entry.value != "temporary" for entry in job.entries(thing, "made"))


def _elsewhere(job: Job, record: Record) -> str:
    """What else than in its `ent` a record names that is not there: an operation, what came with a unit."""
    body = record.body
    if record.typ.startswith(("operation.", "wait.")):
        route = job.bill.routes.get(body["route"])
        known = (one.id for one in route.operations) if route else ()
        return "" if body["operation"] in known else f"no route {body['route']} of the bill has {body['operation']}"
    if record.typ != "part.fitted" or not body.get("came_with"):
        return ""
    place = record.ent[1][1:]
    beneath = {one.key for one in job.beneath(place)}
    return next((f"{key} is not beneath {place}" for key in body["came_with"] if key not in beneath), "")


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
