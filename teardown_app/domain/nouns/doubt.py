"""Readings that an instrument found out later makes doubtful: those whose verdict its error could change."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from teardown_app.domain.bill.check import Check
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.measure.judging import Reading, judge
from teardown_app.domain.measure.reading import factor
from teardown_app.domain.nouns.instrument import Doubt, found_outs, read_doubt
from teardown_app.domain.nouns.job import Job


def touching(job: Job, entry: Entry) -> list[Entry]:
    """What was found out about the instrument that this reading was taken with, and touches it."""
    number = entry.value.get("instrument")
    return found_outs(job.shop, number, entry.record.wall, entry.record.clk) if number else []


def doubts(job: Job, check: Check | None, entry: Entry) -> list[Entry]:
    """Of these, what could make another verdict of the reading; `check` None where the bill has none of its name."""
    return [one for one in touching(job, entry) if could_change(check, entry.value, one.value["by"])]


def could_change(check: Check | None, body: Mapping[str, Any], by: str) -> bool:
    """True where a reading corrected by the error would not be accepted, or nobody can compute that.

    An error without a sign is tried both ways. Of several readings all are corrected.
    """
    error, read = read_doubt(by), Reading.of(check, body) if check else None
    if check is None or error is None or read is None:
        return True
    return any(_verdict(check, read, error, sign) != body["verdict"] for sign in _signs(error))


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
