"""How a place and a part are called in sentences."""

from __future__ import annotations

from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import number_of, own_place


def named(job: Job, key: str) -> str:
    """`Seal plate 10.20` for sentences."""
    position = job.positions.get(key)
    name = position.line.description.strip(" .") if position else ""
    return f"{name} {key}".strip()


def part_named(job: Job, part: str, key: str = "") -> str:
    """`P1234… Seal plate 10.20` for sentences: its number where it has one, and a place, else its own."""
    place = key or own_place(job, part)
    words = (number_of(job, part), named(job, place) if place else "")
    return " ".join(word for word in words if word) or "a part without number"
