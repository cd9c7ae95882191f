"""Recall both ways: what an instrument found out later, or a qualification that had lapsed, touches in a job."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.reassembly import Torque
from teardown_app.domain.ledger.kinds.work import check_facet
from teardown_app.domain.ledger.record import Record, is_position
from teardown_app.domain.parts.doubt import doubting, is_after_closing, touching
from teardown_app.domain.parts.parts import number_of, own_place

DOUBTFUL, STANDS, REPLACED = "due again", "stands", "read again since"


class Touched(NamedTuple):
    """One reading that is touched."""

    job: str
    record: str
    """Name of the record."""
    day: str
    position: str
    part: str
    """Its number."""
    check: str
    spot: str
    when: str
    value: str
    verdict: str
    becomes: str
    """`due again` where the error could change the verdict, `stands`, or `read again since`."""
    why: str


def touched_by_instrument(job: Job, number: str) -> list[Touched]:
    """Every reading and torque of the job with this instrument after its last good day, by what was found out."""
    found = []
    for entry in readings_and_torques(job):
        for one in touching(job, entry) if entry.value.instrument == number else ():
            why = f"instrument {number} was found out by {one.value.by}, last known good on {one.value.last_good}"
            found.append(_touched(job, entry, one in doubting(job, entry), why))
    return found


def touched_by_person(job: Job, code: str, qualification: str) -> list[Touched]:
    """Every reading of a check that asks for the qualification, by somebody who by today's register lacked it."""
    found = []
    for entry in _readings(job):
        check = job.bill.checks.get(entry.value.check)
        asks = check is not None and check.qualification == qualification and entry.record.act == code
        day, clk = entry.record.wall[:10], entry.record.clk
        if asks and not job.shop.is_qualified(code, qualification, day, clk):
            why = f"{code} held no qualification for {qualification} on {day}"
            found.append(_touched(job, entry, bool(entry.value.unfit), why))
    return found


def readings_and_torques(job: Job) -> Iterator[Entry]:
    """Every reading and torque that has effect, replaced ones too."""
    yield from _readings(job)
    yield from _torques(job)


def recalled(job: Job) -> list[tuple[Record, int]]:
    """What was found out after the job was closed and puts readings or torques of it in doubt: how many."""
    if not any(entry.value == "closed" for entry in job.entries(JOB, "end")):
        return []
    doubtful: dict[str, list[Record]] = {}
    for entry in readings_and_torques(job):
        for one in doubting(job, entry):
            if is_after_closing(job, one.record, entry.record):
                doubtful.setdefault(one.record.h, []).append(one.record)
    return sorted(((records[0], len(records)) for records in doubtful.values()), key=lambda one: one[0].ref)


def _readings(job: Job) -> Iterator[Entry]:
    """Every reading that has effect, replaced ones too, by facet and thing."""
    for facet in job.written_facets("check"):
        for thing in job.things(facet):
            entries = job.entries(thing, facet)
            yield from (one for one in entries if one.record.typ == "check.read" and one.thing == thing)


def _torques(job: Job) -> Iterator[Entry]:
    """Every torque that has effect."""
    for thing in job.things("torque"):
        yield from (one for one in job.entries(thing, "torque") if one.thing == thing)


def instruments_used(job: Job) -> list[str]:
    """Numbers of the instruments that the job's readings and torques were taken with, sorted."""
    entries = readings_and_torques(job)
    return sorted({entry.value.instrument for entry in entries if entry.value.instrument})


def _touched(job: Job, entry: Entry, doubtful: bool, why: str) -> Touched:
    read, thing = entry.value, entry.thing
    at_place = is_position(thing)
    if isinstance(read, Torque):
        check, spot, when, verdict = "torque", "", f"pass {read.name}", ""
        heads = tuple(job.entries(thing, "torque"))
    else:
        check, spot, when, verdict = read.check, read.spot, read.when, read.verdict
        heads = job.heads(thing, check_facet(check, spot, when))
    stands = any(head.record.h == entry.record.h for head in heads)
    return Touched(
        job.number,
        entry.record.ref,
        entry.record.wall[:10],
        thing[1:] if at_place else own_place(job, thing),
        "" if at_place else number_of(job, thing),
        check,
        spot,
        when,
        read.shown.strip(),
        verdict,
        REPLACED if not stands else DOUBTFUL if doubtful else STANDS,
        why,
    )
