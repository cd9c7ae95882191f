"""Recorded again: what was taken back and then said anew by somebody who had seen that, at the same spot."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.acts import Row, rows
from teardown_app.domain.ledger.record import Record, is_position, position_thing

SPOT = ("check", "spot", "when", "route", "operation", "pass")
BRINGS_IN = ("part.taken_off", "part.brought_in")
SAID_ALIKE = ("part_number", "origin", "owner", "set_mark")
"""What a record that brings a part in anew says as the one that was taken back had said it."""
OPENS = ("part.taken_out", "joint.opened", "hardware.moved")


def is_recorded_again(job: Job, target: Record, subject: str, facts: Sequence[str]) -> bool:
    """Is there a record with effect of the same act as one that was taken back, by somebody who had seen that, and does
    it ask at the same spot? `facts` are those that the taking back lost: it has to say them too."""
    backs = job.takings_back(target)
    return any(
        not job.effect(again)
        and any(job.knowing.knew(again, back) for back in backs)
        and _same_act(again, target)
        and _same_spot(job, again, target, subject, facts)
        for again in _candidates(job, target, subject)
    )


def _candidates(job: Job, target: Record, subject: str) -> Iterable[Record]:
    """Records that may say it anew, found by what both have in common."""
    body = target.body
    if target.typ == "line.added":
        return [entry.record for thing in job.things("line") for entry in job.entries(thing, "line")]
    if target.typ not in BRINGS_IN:
        return job.about(subject)
    if body.get("out_of"):
        return [entry.record for entry in job.entries(position_thing(body["out_of"]), "came_out")]
    return [entry.record for entry in job.entries(f"number:{body.get('number', '')}", "bound")]


def _same_act(again: Record, target: Record) -> bool:
    wanted = [row for row in rows(target) if row.asks_by(target)]
    found: list[Row] = rows(again)
    return all(row in found for row in wanted) if wanted else again.typ == target.typ


def _same_spot(job: Job, again: Record, target: Record, subject: str, facts: Sequence[str]) -> bool:
    mine, theirs = target.body, again.body
    if target.typ in BRINGS_IN:
        same = "out_of" if mine.get("out_of") else "number"
        alike = all(theirs.get(fact) == mine[fact] for fact in SAID_ALIKE if fact in mine)
        return again.typ == target.typ and bool(mine.get(same)) and theirs.get(same) == mine[same] and alike
    if target.typ == "line.added":
        return all(theirs.get(name) == mine.get(name) for name in ("parent", "part_number"))
    if target.typ in OPENS:
        return _places(target) <= _places(again) and _added(target) <= _added(again)
    if not _is_about(job, again, target, subject):
        return False
    if target.typ == "finding.noted":
        return theirs.get("word") == mine.get("word")
    same_cell = all(theirs.get(name, "") == mine.get(name, "") for name in SPOT)
    return same_cell and all(fact in theirs for fact in facts)


def _is_about(job: Job, again: Record, target: Record, subject: str) -> bool:
    if target.typ == "hardware.counted":
        return _places(target) <= _places(again)
    return subject in {job.group(thing)[0] for thing in again.ent}


def _added(record: Record) -> int:
    """How many pieces of hardware a record says were taken new; none where it took some away."""
    return max(int(record.body.get("added", 0)), 0)


def _places(record: Record) -> set[str]:
    return {thing for thing in record.ent if is_position(thing)}
