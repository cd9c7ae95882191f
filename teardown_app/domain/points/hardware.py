"""Points about counted hardware: what was found and added must be what was put in or accounted for."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.hardware import bag_of, hardware_entries, put_in, surplus
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.points.point import Point, at_place, point


def hardware_points(job: Job, position: Position) -> Iterator[Point]:
    """One point while a place's hardware does not balance."""
    if position.line.kind != "hardware" or job.scope(position.key).counts != "in":
        return
    short = (position.count or 0) - put_in(job, position.key)
    over = surplus(job, position.key)
    if not short and not over:
        return
    yield point(
        job,
        "hardware does not balance",
        at_place(position.key),
        wrong=f"{named(job, position.key)}: {_words(short, over)}.",
        clears="Count again, put in what is missing, and say what became of the rest.",
        behind=refs(hardware_entries(job, bag_of(job, position.key))),
    )


def _words(short: int, over: int) -> str:
    said = []
    if short > 0:
        said.append(f"{short} still to put in")
    if short < 0:
        said.append(f"{-short} more put in than belong there")
    if over > 0:
        said.append(f"{over} over")
    if over < 0:
        said.append(f"{-over} more used than were found")
    return ", ".join(said)
