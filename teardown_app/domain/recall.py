"""Recall both ways: what an instrument found out later, or a qualification that had lapsed, touches in a job."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from teardown_app.domain.checking import is_qualified
from teardown_app.domain.doubt import could_change
from teardown_app.domain.entry import Entry
from teardown_app.domain.instrument import found_outs
from teardown_app.domain.job import Job
from teardown_app.domain.parts import number_of, own_place
from teardown_app.domain.record import is_position

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
    """Every reading of the job with this instrument after its last good day, by what was found out."""
    found = []
    for entry in _readings(job):
        if entry.value.get("instrument") != number:
            continue
        for one in found_outs(job.shop, number, entry.record.wall, entry.record.clk):
            check = job.bill.checks.get(entry.value["check"])
            doubtful = check is None or could_change(check, entry.value, one.value["by"])
            why = f"instrument {number} was found out by {one.value['by']}, last known good on {one.value['last_good']}"
            found.append(_touched(job, entry, doubtful, why))
    return found


def touched_by_person(job: Job, code: str, qualification: str) -> list[Touched]:
    """Every reading of a check that asks for the qualification, by somebody who by today's register lacked it."""
    found = []
    for entry in _readings(job):
        check = job.bill.checks.get(entry.value["check"])
        asks = check is not None and check.qualification == qualification and entry.record.act == code
        if asks and not is_qualified(job.shop, code, qualification, entry.record.wall[:10], entry.record.clk):
            why = f"{code} held no qualification for {qualification} on {entry.record.wall[:10]}"
            found.append(_touched(job, entry, bool(entry.value.get("unfit")), why))
    return found


def _readings(job: Job) -> Iterator[Entry]:
    """Every reading that has effect, replaced ones too, by facet and thing."""
    for facet in job.written_facets("check"):
        for thing in job.things(facet):
            entries = job.entries(thing, facet)
            yield from (one for one in entries if one.record.typ == "check.read" and one.thing == thing)


def instruments_used(job: Job) -> list[str]:
    """Numbers of the instruments that the job's readings were taken with, sorted."""
    return sorted({str(entry.value["instrument"]) for entry in _readings(job) if entry.value.get("instrument")})


def _touched(job: Job, entry: Entry, doubtful: bool, why: str) -> Touched:
    body, thing = entry.value, entry.thing
    at_place = is_position(thing)
    heads = job.heads(thing, f"check/{body['check']}/{body.get('spot', '')}/{body['when']}")
    stands = any(head.record.h == entry.record.h for head in heads)
    value = ", ".join(body.get("readings") or ()) or " ".join((body.get("value") or {}).values())
    return Touched(
        job.number,
        entry.record.ref,
        entry.record.wall[:10],
        thing[1:] if at_place else own_place(job, thing),
        "" if at_place else number_of(job, thing),
        body["check"],
        body.get("spot", ""),
        body["when"],
        value.strip(),
        body["verdict"],
        REPLACED if not stands else DOUBTFUL if doubtful else STANDS,
        why,
    )
