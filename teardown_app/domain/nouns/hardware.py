"""Questions about counted hardware: what is counted together, what was put in, what is over."""

from __future__ import annotations

from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.reassembly import MOVES
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.job import Job


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
