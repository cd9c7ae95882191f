"""One torque as it was recorded: by hand, how far off its target, and whether its wrench served."""

from __future__ import annotations

import re
from decimal import Decimal

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.registers import Instrument
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.measure.torque import newton_metres
from teardown_app.domain.parts.instrument import in_use
from teardown_app.domain.parts.naming import day_named


def is_by_hand(entry: Entry) -> bool:
    """True where neither value nor wrench is recorded."""
    return entry.value.value is None and entry.value.instrument is None


def _value_of(entry: Entry) -> Decimal | None:
    """What was read, in N m; None where nothing was, or no torque."""
    said = entry.value.value or {}
    return newton_metres(f"{said.get('text', '')} {said.get('unit', '')}")


def off_target(entry: Entry, target: Decimal, tolerance: Decimal) -> str:
    """Why a torque is not near its target; empty when it is. Target in N m, tolerance in percent, ends included."""
    value, off = _value_of(entry), target * tolerance / 100
    if value is not None and target - off <= value <= target + off:
        return ""
    said = entry.value.value or {}
    read = f"{said.get('text', '')} {said.get('unit', '')}".strip() or "no value"
    return f"{read}; {target.normalize():f} N m ± {tolerance.normalize():f} % is asked"


def wrenches(job: Job, author: Record) -> dict[str, list[Instrument]]:
    """Torque wrenches that were in use as the author of a record had seen: what they read has the word *torque*."""
    return {number: told for number, told in in_use(job, author).items() if any(map(_is_wrench, told))}


def _is_wrench(known: Instrument) -> bool:
    return "torque" in re.findall(r"[^\W\d_]+", known.reads.casefold())


def unfit_wrench(job: Job, entry: Entry) -> str:
    """Why the wrench of a torque does not serve; empty when it does, or the register as seen has no wrench in use."""
    known = wrenches(job, entry.record)
    if not known:
        return ""
    number = entry.value.instrument or ""
    if number not in known:
        return f"{number or 'no wrench'} is not one of the shop's wrenches in use"
    if entry.record.clk != "ok":
        return f"the tablet's clock was not right, so nobody can say whether wrench {number} was in date"
    said = (_out_of(one, number, entry) for one in known[number])
    return next((wrong for wrong in said if wrong), "")


def _out_of(wrench: Instrument, number: str, entry: Entry) -> str:
    """Out of date on the record's day, or of its range."""
    if wrench.due and wrench.due < entry.record.wall[:10]:
        return f"wrench {number} was due on {day_named(wrench.due)}"
    value = _value_of(entry)
    for said, sign in ((wrench.low, 1), (wrench.high, -1)):
        end = _end_of(said, wrench.unit) if said else value
        if end is None or value is None or sign * (value - end) < 0:
            return f"wrench {number} reads from {wrench.body.get('low', '0')} to {wrench.body.get('high', 'any')}"
    return ""


def _end_of(said: str, unit: str) -> Decimal | None:
    own = newton_metres(said)
    return own if own is not None else newton_metres(f"{said} {unit}")
