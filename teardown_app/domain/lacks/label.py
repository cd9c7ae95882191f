"""Labels: one number that stands for two parts, of this job or of two jobs."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.ground import records_of
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import TWO_PARTS, Lack, Where, lack
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.bound import Bound, Register, bound, no_others, present_numbers, went
from teardown_app.domain.parts.parts import is_part, own_place


def label_lacks(job: Job, number: str, register: Register = no_others) -> Iterator[Lack]:
    """While the number is present on more than one part of the job; and, for each other job, on a part of that one."""
    parts = parts_with_number(job, number)
    if not parts:
        return
    where = Where(number, own_place(job, parts[0]), parts[0])
    if len(parts) > 1:
        yield lack(TWO_PARTS, where, f"{number} is on {len(parts)} parts.", ground=_ground(job, number))
    mine = [bound(job, part) for part in parts]
    for other in sorted({one.job for one in register(number) if any(_in_two_jobs(each, one) for each in mine)}):
        wrong, clears = f"{number} is in use in job {other} too.", "Put a new label on one."
        yield lack(TWO_PARTS, where, wrong, clears=clears, which=other, never=True)


def parts_with_number(job: Job, number: str) -> list[str]:
    """Parts of the job on which a number is present."""
    ever = {job.group(entry.value)[0] for entry in job.entries("number:" + number, "bound")}
    return sorted(part for part in ever if is_part(job, part) and number in present_numbers(job, part))


def _ground(job: Job, number: str) -> tuple[Record, ...]:
    """What was said of this number, and which names are one part."""
    same = [entry for thing in job.things("same_as") for entry in job.ever(thing, "same_as")]
    return records_of([*job.ever("number:" + number, "bound"), *same])


def _in_two_jobs(mine: Bound, other: Bound) -> bool:
    """Is it another part of another job? Trial jobs are compared with trial jobs only."""
    apart = mine.job != other.job and mine.trial == other.trial
    return apart and not went(mine, other) and not went(other, mine)
