"""Points about records themselves: no right, does not fit, from a newer app, not here, two versions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.ledger.effect import MISFIT, NEWER, NO_RIGHT, VOIDED
from teardown_app.domain.ledger.record import SHOP, Record, is_position
from teardown_app.domain.nouns.job import JOB, Job, opens
from teardown_app.domain.points.point import Point, Where, point


def record_points(job: Job, records: Iterable[Record]) -> Iterator[Point]:
    """Points about these records of the job."""
    for record in records:
        kind, wrong, clears = _fault(job, record)
        if kind:
            yield point(
                job,
                kind,
                Where(JOB),
                which=record.ref,
                wrong=wrong,
                clears=clears,
                behind=(record.ref,),
                gate=SHIP,
            )


def _fault(job: Job, record: Record) -> tuple[str, str, str]:
    effect = job.effect(record)
    said = f"{record.typ.replace('.', ' ')} by {record.act} on {record.wall[:10]}"
    if effect == NO_RIGHT:
        again = "Let somebody with the right record it again."
        return "record by someone without the right", f"{said} has no effect.", again
    if effect == NEWER:
        return (
            "record from a newer app",
            f"{said} is not understood here.",
            "Bring this tablet's app up to date.",
        )
    why = job.why_misfit(record) if effect == MISFIT else "" if effect else stray(job, record)
    if why:
        return "record kept that does not fit", f"{said}: {why}.", "Look what was meant and record that."
    return "", "", ""


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


def absent_points(job: Job) -> Iterator[Point]:
    """Records known of but not here, and numbers that stand for two different records."""
    for dev, seq in job.knowing.gaps():
        yield _absent(job, "record not here", f"{dev}:{seq}", f"Record {seq} of tablet {dev} is not here yet.")
    for dev, seq in job.shop_gaps():
        which = f"{SHOP}/{dev}:{seq}"
        yield _absent(job, "record not here", which, f"Record {seq} of the shop by tablet {dev} is not here yet.")
    for dev, seq in job.knowing.forks():
        wrong = f"Tablet {dev} has two different records {seq}."
        yield _absent(job, "two versions of a record", f"{dev}:{seq}", wrong)
    for dev, seq in job.shop_forks():
        wrong = f"Tablet {dev} has two different records {seq} of the shop."
        yield _absent(job, "two versions of a record", f"{SHOP}/{dev}:{seq}", wrong)


def _absent(job: Job, kind: str, which: str, wrong: str) -> Point:
    clears = "Carry the records over from that tablet."
    return point(job, kind, Where(JOB), which=which, wrong=wrong, clears=clears, gate=SHIP)
