"""Readings that an instrument found out later makes doubtful: those whose verdict its error could change."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from teardown_app.domain.bill.check import Check
from teardown_app.domain.job.ground import had_seen
from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.reassembly import Torque
from teardown_app.domain.ledger.kinds.work import Reading as Taken
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.measure.came_out import Error, sorts_read, verdict_without
from teardown_app.domain.measure.judging import Reading, judge
from teardown_app.domain.measure.propagation import AS_STATED
from teardown_app.domain.measure.units import factor
from teardown_app.domain.parts.instrument import Doubt, found_outs, instrument, read_doubt, unit_shown
from teardown_app.metrology.kind import Kind
from teardown_app.metrology.kinds import all_kinds


def touching(job: Job, entry: Entry) -> list[Entry]:
    """What was found out about the instrument that this reading was taken with, and touches it."""
    number = entry.value.instrument
    return found_outs(job.shop, number, entry.record.wall, entry.record.clk) if number else []


def doubting(job: Job, entry: Entry) -> list[Entry]:
    """Of these, what could make another verdict of a reading; of a torque all."""
    found = touching(job, entry)
    if isinstance(entry.value, Torque):
        return found
    check = job.bill.checks.get(entry.value.check)
    known = instrument(job.shop, entry.value.instrument)
    unit = unit_shown(known) if known else ""
    return [one for one in found if could_change(check, entry.value, one.value.by, unit)]


def doubts(job: Job, entry: Entry) -> list[Entry]:
    """Of these again, what makes the reading or torque due: not what was found out after the job was closed."""
    return [one for one in doubting(job, entry) if not is_after_closing(job, one.record, entry.record)]


def found_out_about(job: Job, entries: Iterable[Entry]) -> list[Record]:
    """All that was ever found out about the instruments that these readings or torques name."""
    numbers = sorted({entry.value.instrument or "" for entry in entries} - {""})
    things = (f"instrument:{number}" for number in numbers)
    return [entry.record for thing in things for entry in job.shop.entries(thing, "found_out")]


def is_after_closing(job: Job, found: Record, read: Record) -> bool:
    """Was it found out after the job was closed with this reading or torque: by a closing whose author had seen that
    and not what was found out, and nobody reopened the job who had seen the closing?"""
    knew, ends = job.knowing.knew, job.entries(JOB, "end")
    opened = [entry.record for entry in ends if entry.value == "open"]
    closings = [entry.record for entry in ends if entry.value == "closed" and knew(entry.record, read)]
    return any(not had_seen(job, one, found) and not any(knew(again, one) for again in opened) for one in closings)


def could_change(check: Check | None, reading: Taken, by: str, unit: str = "") -> bool:
    """True where a reading corrected by the error would not be accepted, or nobody can compute that.

    An error without a sign is tried both ways. The raw readings of a kind of measurement are corrected, and the result
    computed anew; else every reading as typed. `unit` is what the instrument shows, for an error that is a share.
    """
    error = read_doubt(by)
    if check is None or error is None or "raw" in reading.body:
        return True
    kind = _computed_by(reading)
    if kind is not None:
        return any(_of_raw(check, kind, reading, error, sign, unit) != reading.verdict for sign in _signs(error))
    read = Reading.of(check, reading.body)
    return read is None or any(_verdict(check, read, error, sign) != reading.verdict for sign in _signs(error))


def _computed_by(reading: Taken) -> Kind | None:
    """The kind whose formula a reading came from; none where its instrument is known by errors of the result itself."""
    name = str(reading.body.get("kind")) if "measured" in reading.body else ""
    return None if name in AS_STATED else all_kinds().get(name)


def _of_raw(check: Check, kind: Kind, reading: Taken, error: Doubt, sign: int, unit: str) -> str:
    """The verdict with the error taken off the raw readings; of a share, where nobody knows which of them it touches,
    another one as soon as one sort of them makes it so."""
    given = reading.body["measured"]
    off = Error(error.size * sign, Decimal(0)) if error.unit else Error(Decimal(0), error.size * sign)
    sorts = [error.unit or unit] if error.unit or unit else list(sorts_read(kind, given))
    found = [verdict_without(check, kind, reading.body, sort, off) for sort in sorts]
    return next((one for one in found if one != reading.verdict), reading.verdict) if found else ""


def _signs(error: Doubt) -> tuple[int, ...]:
    return (error.sign,) if error.sign else (1, -1)


def _verdict(check: Check, read: Reading, error: Doubt, sign: int) -> str:
    """With the error taken off: an instrument that showed too much read less in truth."""
    times = factor(error.unit, read.limit.unit) if error.unit else Decimal(0)
    if times is None:
        return "unknown"
    fixed = error.size * times
    share = Decimal(0) if error.unit else error.size
    if 1 + sign * share == 0:
        return "unknown"
    values = tuple((value - sign * fixed) / (1 + sign * share) for value in read.values)
    return judge(check, read._replace(values=values)).verdict
