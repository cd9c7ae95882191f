"""Counted hardware: what was found and added must be what was put in or accounted for."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.lacks.fitting import against_scope
from teardown_app.domain.lacks.lack import HARDWARE, SHORT_IN_BAG, Lack, ToDo, at_place, lack
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
        to_do=_to_do(job, position, short, over),
        ground=refs(hardware_entries(job, bag_of(job, position.key))),
    )


def _to_do(job: Job, position: Position, short: int, over: int) -> ToDo | None:
    """What is short is put in where the bag holds it; what is over a person looks at."""
    if short <= 0:
        return None
    if over >= short:
        return ToDo("hardware move", position_thing(position.key), (("put_in", str(short)),))
    return _more(job, position, short - over)


def _more(job: Job, position: Position, number: int) -> ToDo | None:
    """So many more for the bag: counted first, then taken new; where fewer than none are in a person looks."""
    thing = position_thing(position.key)
    if put_in(job, position.key) < 0:
        return None
    if not job.heads(thing, "found"):
        return ToDo("hardware count", thing)
    return ToDo("hardware move", thing, (("added", str(number)),))


def against_put_in(job: Job, position: Position, number: int) -> Iterator[Lack]:
    """What stands against taking so many out of the bag and putting them in."""
    yield from against_scope(job, position)
    there = max(surplus(job, position.key), 0)
    if number > there:
        wrong = f"{named(job, position.key)}: {there} are in the bag, {number} cannot come out of it."
        to_do = _more(job, position, number - surplus(job, position.key))
        yield lack(SHORT_IN_BAG, at_place(position.key), wrong, to_do=to_do)


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
