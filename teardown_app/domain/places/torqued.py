"""One torque as it was recorded: by hand, how far off its target, whether its wrench served; which serve today."""

from __future__ import annotations

import re
from decimal import Decimal

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.registers import Instrument
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.measure.torque import newton_metres
from teardown_app.domain.parts.instrument import found_outs, in_use, in_use_now
from teardown_app.domain.parts.naming import day_named
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.shop.shop import Shop


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
    """Torque wrenches in use, as the register was for the author of a record: what they read has the word *torque*."""
    return _wrenches_of(in_use(job, author))


def wrenches_now(shop: Shop) -> dict[str, list[Instrument]]:
    """Torque wrenches in use, as the register is on this tablet."""
    return _wrenches_of(in_use_now(shop))


def _wrenches_of(known: dict[str, list[Instrument]]) -> dict[str, list[Instrument]]:
    return {number: told for number, told in known.items() if any(map(_is_wrench, told))}


def _is_wrench(known: Instrument) -> bool:
    return "torque" in re.findall(r"[^\W\d_]+", known.reads.casefold())


def unfit_wrench(job: Job, entry: Entry) -> str:
    """Why the wrench of a torque does not serve; empty when it does, or the register has no wrench in use."""
    known = wrenches(job, entry.record)
    if not known:
        return ""
    number = entry.value.instrument or ""
    if number not in known:
        return f"{number or 'no wrench'} is not one of the shop's wrenches in use"
    record = entry.record
    return _out_of(number, known[number], _value_of(entry), Moment(record.dev, record.wall, record.clk))


def unfit_today(shop: Shop, number: str, target: Decimal, now: Moment) -> str:
    """Why a torque taken now with this wrench of the register would not count; empty when it would. Target in N m."""
    said = _out_of(number, wrenches_now(shop)[number], target, now)
    found = {one.value.by for one in found_outs(shop, number, now.wall, now.clk)}
    return said or "; ".join(f"wrench {number} was found out by {by}" for by in sorted(found))


def _out_of(number: str, told: list[Instrument], value: Decimal | None, at: Moment) -> str:
    """Out of date at a moment, or out of its range; value in N m."""
    if at.clk != "ok":
        return f"the tablet's clock was not right, so nobody can say whether wrench {number} was in date"
    said = (_out_of_date_or_range(one, number, value, at.wall[:10]) for one in told)
    return next((wrong for wrong in said if wrong), "")


def _out_of_date_or_range(wrench: Instrument, number: str, value: Decimal | None, day: str) -> str:
    if wrench.due and wrench.due < day:
        return f"wrench {number} was due on {day_named(wrench.due)}"
    for said, sign in ((wrench.low, 1), (wrench.high, -1)):
        end = _end_of(said, wrench.unit) if said else value
        if end is None or value is None or sign * (value - end) < 0:
            return f"wrench {number} reads from {wrench.body.get('low', '0')} to {wrench.body.get('high', 'any')}"
    return ""


def _end_of(said: str, unit: str) -> Decimal | None:
    own = newton_metres(said)
    return own if own is not None else newton_metres(f"{said} {unit}")
