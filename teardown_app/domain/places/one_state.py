"""Whether two readings were taken in one state: whether something between them changed what was read.

What is recorded once more (the same fitting, no screw, a seal kept, work that the check outlasts or that does not
count, a reading) changes nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.job.ground import lying
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record, is_position
from teardown_app.domain.parts.claiming import claimants
from teardown_app.domain.parts.operations import is_done_by
from teardown_app.domain.places.opening import before_reading
from teardown_app.domain.places.reading_ground import Reading, done_on, parts_near, reading_ground, reading_of, spoils

CHANGES = ("part.taken_out", "part.taken_off", "part.brought_in", "goods.taken_over", "joint.opened")
"""Kinds that always change what they happen to; what is noted of a part, or read, does not."""


def in_one_state(job: Job, later: Entry, earlier: Entry) -> bool:
    """Did nothing that changed it lie between two readings of one cell, the earlier seen by the later's author?"""
    knew, parts = job.knowing.knew, _parts_near(job, later.thing)
    between = (
        one
        for one in _near(job, later.thing, reading_of(later), parts)
        if one.h not in (later.record.h, earlier.record.h) and knew(later.record, one) and knew(one, earlier.record)
    )
    return not any(not job.takings_back(one) and _changed(job, one, parts) for one in between)


def _parts_near(job: Job, thing: str) -> list[str]:
    """Parts whose work can spoil a reading: of a part it itself and those near it; of a place those that sit there and
    beneath."""
    if not is_position(thing):
        return parts_near(job, job.group(thing)[0])
    keys = [thing[1:], *(one.key for one in job.beneath(thing[1:]))] if thing[1:] in job.positions else []
    return sorted({part for key in keys for part in claimants(job, key)})


def _near(job: Job, thing: str, reading: Reading, parts: Iterable[str]) -> Iterator[Record]:
    """What the reading rests on; at a place also work that spoils it on parts that sit there and beneath."""
    if not is_position(thing):
        yield from reading_ground(job, job.group(thing)[0], reading)
    elif thing[1:] in job.positions:
        yield from before_reading(job, thing[1:])
        yield from (one for part in parts for one in done_on(job, part) if spoils(job, one, reading[0]))


def _changed(job: Job, record: Record, parts: Iterable[str]) -> bool:
    """Did a record change anything?"""
    if record.typ in CHANGES:
        return True
    if record.typ == "operation.done":
        about = {job.group(thing)[0] for thing in record.ent}
        return any(is_done_by(job, part, record) for part in parts if part in about)
    if record.typ == "hardware.moved":
        return bool(record.body["put_in"])
    if record.typ == "consumable.renewed":
        return bool(record.body["as"] == "renewed")
    return record.typ == "part.fitted" and not _sat_there(job, record)


def _sat_there(job: Job, fitted: Record) -> bool:
    """Had its author seen the part fitted at that place, and not taken out since?"""
    knew, (part, place) = job.knowing.knew, fitted.ent
    before = [
        one
        for one in job.about(place)
        if one.typ == "part.fitted" and job.group(one.ent[0]) == job.group(part) and knew(fitted, one)
    ]
    out = [one for one in job.about(part) if one.typ == "part.taken_out" and knew(fitted, one)]
    out = [one for one in out if not job.takings_back(one)]
    return any(not any(knew(gone, one) for gone in out) for one in lying(job, before))
