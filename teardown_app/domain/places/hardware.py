"""Questions about counted hardware: what is counted together, what was found, what became of it."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.filling import counts_for_unit
from teardown_app.domain.places.joint import has_torque
from teardown_app.domain.places.opening import put_in_stands, records_at

GOODS = ("goods.handed_over", "goods.taken_over", "goods.given_back")


@remembered
def bag_of(job: Job, key: str) -> tuple[str, ...]:
    """Places whose hardware was ever counted together with this one's, and so on through them; itself included."""
    found, waiting = {position_thing(key)}, [position_thing(key)]
    while waiting:
        counts = job.entries(waiting.pop(), "found")
        more = {thing for entry in counts for thing in entry.value.places} - found
        found |= more
        waiting += more
    return tuple(sorted(thing[1:] for thing in found))


def counts_of(job: Job, key: str) -> list[Entry]:
    """Counts of a place's bag that hold: those that name the whole bag and that no other such one replaces."""
    whole = _counts_of_whole(job, key)
    return [one for one in whole if not _is_replaced(job, one, whole)]


def _counts_of_whole(job: Job, key: str) -> list[Entry]:
    bag = tuple(map(position_thing, bag_of(job, key)))
    return [entry for entry in job.entries(position_thing(key), "found") if entry.value.places == bag]


def _is_replaced(job: Job, count: Entry, whole: list[Entry]) -> bool:
    return any(job.knowing.knew(other.record, count.record) for other in whole)


def counts_that_differ(job: Job, key: str) -> list[Entry]:
    """Counts of a place's bag that stand beside one another: several that hold and found differently, and, where one
    holds, those of fewer places that none of the whole bag replaces."""
    holding, whole = counts_of(job, key), _counts_of_whole(job, key)
    every = [entry for one in bag_of(job, key) for entry in job.entries(position_thing(one), "found")]
    fewer = [one for one in every if one.value.places != whole[0].value.places] if holding else []
    beside = [one for one in fewer if not _is_replaced(job, one, whole)]
    return [*holding, *beside] if beside or len({one.value.found for one in holding}) > 1 else []


def found_in(job: Job, key: str) -> int | None:
    """How many were found in a place's bag, of several counts the smallest; None while no count holds."""
    return min((entry.value.found for entry in counts_of(job, key)), default=None)


def total(job: Job, keys: tuple[str, ...], *moves: str) -> int:
    """Movements of these kinds over several places."""
    return sum(job.total(position_thing(key), move) for key in keys for move in moves)


@remembered
def put_in(job: Job, key: str) -> int:
    """How many are in their place, in the unit that it lies in. A joint without a torque asks for them again when it
    was opened, and when something came off that it holds or lies on: what was put in counts only while its author had
    seen that."""
    entries, position = job.entries(position_thing(key), "put_in"), job.positions.get(key)
    entries = [one for one in entries if counts_for_unit(job, one.record, key)]
    if position is None or not has_torque(position):
        entries = [one for one in entries if put_in_stands(job, one.record, key)]
    return sum(entry.value for entry in entries if entry.value > 0 or _was_in_before(job, entry, entries))


def _was_in_before(job: Job, out: Entry, entries: list[Entry]) -> bool:
    """Had who took screws out seen some put in that count? What was in a unit that is gone is taken out of no other."""
    return any(one.value > 0 and job.knowing.knew(out.record, one.record) for one in entries)


def _in_their_places(job: Job, bag: tuple[str, ...]) -> int:
    return sum(put_in(job, key) for key in bag)


class Bag(NamedTuple):
    """What a bag held and what became of it, over all of its places."""

    first: str
    """The first of its places in the bill's order."""
    bill: int
    found: int | None
    added: int
    lost: int
    short: int
    gone: int
    """Put in, scrapped or left over."""

    @property
    def unnamed(self) -> int:
        """Of those that were not found so many nobody said what became of."""
        return max(self.bill - (self.found or 0) - self.lost - self.short, 0)

    @property
    def over(self) -> int:
        """What should be there and has no place yet; below zero where more went than was there."""
        return max(self.bill, self.found or 0) + self.added - self.gone - self.lost - self.short

    @property
    def balances(self) -> bool:
        """True when it was counted, and all that was found, missed or added is accounted for."""
        return self.found is not None and not self.unnamed and not self.over


def balance(job: Job, key: str) -> Bag:
    """The bag of a place."""
    bag = bag_of(job, key)
    here = [one for one in bag if one in job.positions and job.positions[one].line.kind == "hardware"]
    return Bag(
        first=min(here, key=job.order.__getitem__),
        bill=sum(job.positions[one].count or 0 for one in here),
        found=found_in(job, key),
        added=total(job, bag, "added"),
        lost=total(job, bag, "lost"),
        short=total(job, bag, "found_short"),
        gone=total(job, bag, "scrapped", "left_over") + _in_their_places(job, bag),
    )


def surplus(job: Job, key: str) -> int:
    """How many of those found and added can still be taken out of the bag."""
    bag = bag_of(job, key)
    gone = total(job, bag, "scrapped", "lost", "left_over") + _in_their_places(job, bag)
    return (found_in(job, key) or 0) + total(job, bag, "added") - gone


def hardware_records(job: Job, key: str) -> list[Record]:
    """All that was counted, moved, opened, lent or borrowed at the places of a place's bag."""
    return records_at(job, bag_of(job, key), "hardware.counted", "hardware.moved", "joint.opened", *GOODS)
