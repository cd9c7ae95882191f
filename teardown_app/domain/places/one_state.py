"""Whether two readings were taken in one state: whether something between them changed what was read.

What is recorded once more (the same fitting, no screw, a seal kept, work that the check outlasts) changes nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.ground import lying
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record, is_position
from teardown_app.domain.parts.claiming import claimants
from teardown_app.domain.places.opening import before_reading
from teardown_app.domain.places.reading_ground import Reading, done_on, reading_ground, reading_of, spoils

CHANGES = ("part.taken_out", "part.taken_off", "part.brought_in", "joint.opened")
"""Kinds that always change a place where they happen; what is noted of a part does not."""


def in_one_state(job: Job, later: Entry, earlier: Entry) -> bool:
    """Did nothing that changed it lie between two readings of one cell, the earlier seen by the later's author?"""
    knew = job.knowing.knew
    between = (
        one
        for one in _near(job, later.thing, reading_of(later))
        if one.h not in (later.record.h, earlier.record.h) and knew(later.record, one) and knew(one, earlier.record)
    )
    return not any(not job.takings_back(one) and _changed(job, later.thing, one) for one in between)


def _near(job: Job, thing: str, reading: Reading) -> Iterator[Record]:
    """What the reading rests on; at a place also work that spoils it on parts that sit there and beneath."""
    if not is_position(thing):
        yield from reading_ground(job, thing, reading)
        return
    key = thing[1:]
    if key not in job.positions:
        return
    yield from before_reading(job, key)
    for part in sorted({part for one in (key, *_beneath(job, key)) for part in claimants(job, one)}):
        yield from (one for one in done_on(job, part) if spoils(job, one, reading[0]))


def _beneath(job: Job, key: str) -> list[str]:
    return [position.key for position in job.beneath(key)]


def _changed(job: Job, thing: str, record: Record) -> bool:
    """Did a record change anything? Of a part all that its reading rests on does."""
    if not is_position(thing) or record.typ in (*CHANGES, "operation.done"):
        return True
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
