"""Points about numbers: one number that stands for two parts."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import own_place, parts_of_number
from teardown_app.domain.points.point import Point, Where, point


def label_points(job: Job, number: str) -> Iterator[Point]:
    """One point while the number stands for more than one part."""
    parts = parts_of_number(job, number)
    if len(parts) < 2:
        return
    yield point(
        job,
        "label of two parts",
        Where(number, own_place(job, parts[0]), parts[0]),
        wrong=f"{number} is on {len(parts)} parts.",
        clears="Put a new label on one of them, or say that they are the same part.",
        behind=refs(job.entries("number:" + number, "bound")),
        gate=SHIP,
    )
