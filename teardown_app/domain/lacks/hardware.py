"""Counted hardware: what the bill asks or was found, and what was added, must be put in or accounted for."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.again import lies_over, why_again
from teardown_app.domain.lacks.lack import HARDWARE, Lack, ToDo, at_place, lack
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.hardware import Bag, balance, found_in, hardware_records, put_in, surplus
from teardown_app.domain.places.scope import said_of, scope_of


def hardware_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """One lack while a place's own screws are not in; at the first place of a bag also while the bag is not counted or
    does not balance."""
    key = position.key
    if position.line.kind != "hardware" or scope_of(job, key).counts != "in":
        return
    bag, short = balance(job, key), (position.count or 0) - put_in(job, key)
    wrong_bag = bag.first == key and not bag.balances
    opened = put_in(job, key) < job.total(position_thing(key), "put_in")
    if not short and not wrong_bag:
        return
    yield lack(
        HARDWARE,
        at_place(key),
        f"{why_again(job, key)}{named(job, key)}: {_words(bag, short, wrong_bag, opened)}{lies_over(job, key)}",
        to_do=_to_do(job, position, short, bag),
        ground=lambda: [*hardware_records(job, key), *said_of(job, key)],
    )


def _to_do(job: Job, position: Position, short: int, bag: Bag) -> ToDo | None:
    """Count first; put in what the bag holds; take new ones where it holds too few; what is over a person looks at."""
    if bag.found is None:
        return ToDo("hardware count", position_thing(position.key))
    if short <= 0:
        return None
    there = surplus(job, position.key)
    if there >= short:
        return ToDo("hardware move", position_thing(position.key), (("put_in", str(short)),))
    return more_for(job, position, short - there)


def more_for(job: Job, position: Position, number: int) -> ToDo | None:
    """So many more for the bag: counted first, then taken new; where fewer than none are in a person looks."""
    thing = position_thing(position.key)
    if put_in(job, position.key) < 0:
        return None
    if found_in(job, position.key) is None:
        return ToDo("hardware count", thing)
    return ToDo("hardware move", thing, (("added", str(number)),))


def _words(bag: Bag, short: int, wrong_bag: bool, opened: bool) -> str:
    said = []
    if wrong_bag and bag.found is None:
        said.append("not counted.")
    if wrong_bag and bag.found is not None and bag.unnamed:
        said.append(f"found {bag.found} of {bag.bill}. Search, and say what became of {bag.unnamed}.")
    if short > 0:
        said.append(f"{short} still to put in{', opened since' if opened else ''}.")
    if short < 0:
        said.append(f"{-short} more put in than belong there.")
    over = bag.over - max(short, 0) - bag.unnamed if wrong_bag and bag.found is not None else 0
    if over > 0:
        said.append(f"{over} over: put them in, say left over, or take back what was recorded twice.")
    if over < 0:
        said.append(f"{-over} more used than were there.")
    return " ".join(said or ["the bag does not balance."])
