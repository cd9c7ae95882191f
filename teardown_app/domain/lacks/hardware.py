"""Counted hardware: what was found and added must be what was put in or accounted for."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.lack import HARDWARE, Lack, ToDo, at_place, lack
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.hardware import bag_of, hardware_entries, put_in, surplus
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named


def hardware_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """One lack while a place's hardware does not balance."""
    if position.line.kind != "hardware" or job.scope(position.key).counts != "in":
        return
    short = (position.count or 0) - put_in(job, position.key)
    over = surplus(job, position.key)
    if not short and not over:
        return
    yield lack(
        HARDWARE,
        at_place(position.key),
        f"{named(job, position.key)}: {_words(short, over)}.",
        to_do=_to_do(position, short, over),
        ground=refs(hardware_entries(job, bag_of(job, position.key))),
    )


def _to_do(position: Position, short: int, over: int) -> ToDo | None:
    """Put in what the bag holds; count where it holds too few; what is over a person looks at."""
    thing = position_thing(position.key)
    if short > 0:
        return (
            ToDo("hardware move", thing, (("put_in", str(short)),)) if over >= short else ToDo("hardware count", thing)
        )
    return None


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
