"""Recorded again: what was taken back and then said anew by somebody who had seen that, at the same spot."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.job.answered_once import answered_at, says_anew, spots_of
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Record, is_position

SPOT = ("check", "spot", "when", "route", "operation", "pass")
OF_PLACES = ("joint.opened", "hardware.moved", "hardware.counted")


def is_recorded_again(job: Job, target: Record, subject: str, facts: Sequence[str]) -> bool:
    """Is there a record with effect of the same act as one that was taken back, by somebody who had seen that, and does
    it ask at the same spot? `facts` are those that the taking back lost: it has to say them too. What adds up answers
    for one only."""
    if spots := spots_of(target, subject):
        return all(target.h in answered_at(job, spot) for spot in spots)
    return any(
        says_anew(job, again, target) and _is_at_same_spot(job, again, target, subject, facts)
        for again in job.about(subject)
    )


def _is_at_same_spot(job: Job, again: Record, target: Record, subject: str, facts: Sequence[str]) -> bool:
    if target.typ == "part.taken_out":
        return again.typ == target.typ and _names(job, again) == _names(job, target)
    if target.typ in OF_PLACES:
        return _places(target) <= _places(again)
    same_cell = all(again.body.get(name, "") == target.body.get(name, "") for name in SPOT)
    is_about = subject in {job.group(thing)[0] for thing in again.ent}
    return is_about and same_cell and all(fact in again.body for fact in facts)


def _names(job: Job, record: Record) -> list[str]:
    """What a record is about, each by its first name."""
    return [job.group(thing)[0] for thing in record.ent]


def _places(record: Record) -> set[str]:
    return {thing for thing in record.ent if is_position(thing)}
