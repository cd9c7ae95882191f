"""How a place and a part are called in sentences."""

from __future__ import annotations

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.parts.parts import number_of, own_place

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip


def day_named(wall: str) -> str:
    """A day for sentences; what is none stays as it was written.

    >>> day_named("2026-03-12T09:30:00+01:00"), day_named("2026-01-03"), day_named("soon")
    ('12 March', '3 January', 'soon')
    """
    _, month, day = [*wall[:10].split("-"), "", ""][:3]
    known = month.isdecimal() and day.isdecimal() and 1 <= int(month) <= 12
    return f"{int(day)} {MONTHS[int(month) - 1]}" if known else wall


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


def thing_named(job: Job, thing: str) -> str:
    """A place or a part for sentences."""
    return named(job, thing[1:]) if is_position(thing) else part_named(job, thing)
