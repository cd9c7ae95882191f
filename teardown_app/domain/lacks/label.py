"""Labels: one number that stands for two parts."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.lacks.lack import TWO_PARTS, Lack, Where, lack
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import own_place, parts_of_number


def label_lacks(job: Job, number: str) -> Iterator[Lack]:
    """One lack while the number stands for more than one part."""
    parts = parts_of_number(job, number)
    if len(parts) < 2:
        return
    where = Where(number, own_place(job, parts[0]), parts[0])
    ground = refs(job.entries("number:" + number, "bound"))
    yield lack(TWO_PARTS, where, f"{number} is on {len(parts)} parts.", ground=ground)
