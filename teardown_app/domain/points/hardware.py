"""Points about counted hardware: what was found and added must be what was put in or accounted for."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill import Position
from teardown_app.domain.conceding import refs
from teardown_app.domain.entry import Entry
from teardown_app.domain.job import Job
from teardown_app.domain.kinds.reassembly import MOVES
from teardown_app.domain.points.point import Point, at_place, named, point
from teardown_app.domain.record import position_thing


def bag_of(job: Job, key: str) -> tuple[str, ...]:
    """Places whose hardware is counted together with this one's, itself included."""
    value = job.value(position_thing(key), "found")
    places = tuple(thing[1:] for thing in value["with"]) if value else (key,)
    return places if key in places else (key, *places)


def total(job: Job, keys: tuple[str, ...], move: str) -> int:
    """One kind of movement over several places."""
    return sum(job.total(position_thing(key), move) for key in keys)


def surplus(job: Job, key: str) -> int:
    """Found and added, less put in, scrapped, lost and left over: 0 when the bag balances."""
    bag = bag_of(job, key)
    value = job.value(position_thing(key), "found")
    found = value["found"] if value else 0
    gone = sum(total(job, bag, move) for move in ("put_in", "scrapped", "lost", "left_over"))
    return int(found + total(job, bag, "added") - gone)


def put_in(job: Job, key: str) -> int:
    """How many are in their place."""
    return job.total(position_thing(key), "put_in")


def hardware_entries(job: Job, keys: tuple[str, ...]) -> list[Entry]:
    """All that was counted or moved at these places."""
    entries: list[Entry] = []
    for key in keys:
        thing = position_thing(key)
        entries += job.heads(thing, "found")
        for move in MOVES:
            entries += job.entries(thing, move)
    return entries


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
