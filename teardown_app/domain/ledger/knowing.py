"""Who had seen what: "after" means that a record's author had seen the other one, never a clock.

A record's author knew the tablet's own earlier records and what the record's `seen` names, and
nothing beyond it. Two records with one (device, number) and different content are a fork: both
branches are kept, and a record knows only the branch it descends from, and those that `seen` names.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from teardown_app.domain.ledger.absent import Absent, Chains, Gap, Name, plain
from teardown_app.domain.ledger.branches import Branches
from teardown_app.domain.ledger.record import SHOP, Record


class Last(NamedTuple):
    """The last record that somebody knew of one branch of a tablet."""

    seq: int
    h8: str
    """The first 8 hex of its hash."""
    branch: str = ""
    """The first 8 hex of the branch's first record; empty for the one branch that is named by the tablet alone."""


Vector = dict[str, tuple[Last, ...]]
"""Tablet (or `_shop/` + tablet) -> the last record known of each of its branches."""


class Knowing:
    """Chains of one journal name (a job, or the shop), and what each record's author had seen."""

    def __init__(self) -> None:
        self.chains: Chains = {}
        self.forked: set[str] = set()
        self.absent = Absent(self.chains)
        self._branches = Branches()
        self._last: dict[str, Record] = {}
        self._vectors: dict[str, Vector] = {}
        self._twice: set[Name] = set()

    @property
    def wanted(self) -> dict[str, int]:
        """The highest number known of, by tablet (or `_shop/` + tablet)."""
        return self.absent.wanted

    def follows(self, record: Record) -> bool:
        """True when the record adds to what is known and changes nothing of it: it comes last of its tablet, or on a
        fork where nothing that is here hangs on it and nobody was said to have seen it."""
        last = self._last.get(record.dev)
        if last is None or record.dev not in self.forked:
            return last is None or record.seq > last.seq
        return not self.absent.was_seen(record) and (record.seq > last.seq or self._is_beside(record))

    def is_news(self, record: Record) -> bool:
        """True for a record that `follows` and that nobody had seen whose records are here."""
        if record.dev in self.forked:
            return not self.absent.was_seen(record)
        return self.wanted.get(record.dev, 0) < record.seq

    def _is_beside(self, record: Record) -> bool:
        """True when the number is here already, and all that comes next goes on from those that are here."""
        numbers = self.chains[record.dev]
        here = {one.h for one in numbers.get(record.seq, ())}
        following = record.seq + 1
        if following not in numbers:
            following = min((seq for seq in numbers if seq > record.seq), default=0)
        return bool(here) and all(one.prev in here for one in numbers.get(following, ()))

    def take(self, record: Record) -> bool:
        """Adds a record that `follows`, or one of all that there are, per tablet in the order of their numbers.

        True when somebody had seen another version of it: then he knew less than it seemed before.
        """
        last = self._last.get(record.dev)
        siblings = self.chains.setdefault(record.dev, {}).setdefault(record.seq, [])
        siblings.append(record)
        if len(siblings) > 1:
            self.forked.add(record.dev)
            self._twice.add((record.dev, record.seq))
        before = self._parent(record) if record.dev in self.forked else last
        self._branches.grow(record, before)
        if last is None or record.seq > last.seq:
            self._last[record.dev] = record
        self._know(record, before)
        return self.absent.arrived(record)

    def _know(self, record: Record, before: Record | None) -> None:
        """Keeps what the author had seen: what he had before, with the changes that the record names."""
        known = self._vectors[before.h] if before else {}
        said = _by_tablet(record)
        self._vectors[record.h] = _put_over(known, said) if said else known
        for dev, last in said.items():
            for one in last:
                self.absent.saw(dev, one.seq, one.h8)

    def _parent(self, record: Record) -> Record | None:
        """The record before, on this record's branch; None where that cannot be told."""
        numbers = self.chains[record.dev]
        before = record.seq - 1
        if before not in numbers:
            before = max((seq for seq in numbers if seq < record.seq), default=0)
        records = numbers.get(before, [])
        linked = next((one for one in records if one.h == record.prev), None)
        return linked or (records[0] if len(records) == 1 else None)

    def vector(self, record: Record) -> Vector:
        """All that the record's author had seen of other journals."""
        return self._vectors[record.h]

    def gaps(self) -> list[Gap]:
        """Records known of but not here, in runs of their numbers, by tablet."""
        return self.absent.here()

    def shop_gaps(self, shop: Knowing) -> list[Gap]:
        """Records of the shop that somebody had seen when he recorded something here, and that are not here."""
        return self.absent.in_shop(shop.chains)

    def highest(self, dev: str) -> int:
        """The highest number of a tablet that is here, 0 where nothing is."""
        last = self._last.get(dev)
        return last.seq if last else 0

    def forks(self) -> list[Name]:
        """(tablet, number) of each number that stands for different records."""
        return sorted(self._twice)

    def knew(self, later: Record, earlier: Record) -> bool:
        """True when the author of `later` had seen `earlier` (both of this journal)."""
        known = self._vectors[later.h].get(earlier.dev, ())
        if later.dev != earlier.dev:
            return self.reaches(known, earlier)
        if later.h == earlier.h:
            return False  # where records are lost, a branch that is named may lead back to who names it
        return self._is_past(later, earlier) or self.reaches([one for one in known if one.branch], earlier)

    def _is_past(self, later: Record, earlier: Record) -> bool:
        """Is one record of a tablet in the past of another, on its own branch?"""
        if later.dev not in self.forked:
            return earlier.seq < later.seq
        return self._branches.descends(later, earlier)

    def reaches(self, known: Iterable[Last], earlier: Record) -> bool:
        """True when somebody who knew that much of a tablet's branches had seen `earlier`, which is of this tablet."""
        return any(self._reaches(last, earlier) for last in known)

    def _reaches(self, last: Last, earlier: Record) -> bool:
        if earlier.seq > last.seq:
            return False
        forked = earlier.dev in self.forked
        tips = self.chains[earlier.dev].get(last.seq)
        if tips is None:
            return not forked and not last.branch
        tip = next((tip for tip in tips if tip.h.startswith(last.h8)), None)
        return tip is not None and (not forked or tip.h == earlier.h or self._branches.descends(tip, earlier))

    def last_of(self, records: Iterable[Record]) -> list[Record]:
        """Of these records the last on each branch: whoever had seen these had seen all. So a verdict is one comparison
        for each tablet, however much it rests on."""
        last: dict[tuple[str, int], Record] = {}
        for record in records:
            branch = record.dev, self._branches.of(record)
            if branch not in last or last[branch].seq < record.seq:
                last[branch] = record
        return list(last.values())

    def knew_all(self, later: Record, earlier: Iterable[Record]) -> bool:
        """True when the author of `later` had seen all of these."""
        return all(self.knew(later, one) for one in earlier)


def _put_over(known: Vector, said: Vector) -> Vector:
    """What is known after a record's changes; number 0 means that nothing is known of that branch any more."""
    vector = {**known}
    for dev, changes in said.items():
        names = {one.branch for one in changes}
        stay = (one for one in known.get(dev, ()) if one.branch not in names)
        vector[dev] = (*stay, *(one for one in changes if one.seq > 0))
        if not vector[dev]:
            del vector[dev]
    return vector


def _by_tablet(record: Record) -> Vector:
    """What a record says of each tablet's branches; in the shop's own records its tablets are plain names."""
    said: Vector = {}
    for name, (seq, h8) in record.seen.items():
        dev, _, branch = (plain(name) if record.job == SHOP else name).partition("#")
        said[dev] = (*said.get(dev, ()), Last(seq, h8, branch))
    return said
