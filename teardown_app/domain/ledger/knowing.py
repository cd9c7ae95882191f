"""Who had seen what: "after" means that a record's author had seen the other one, never a clock.

A record's author knew the tablet's own earlier records and what the record's `seen` names, and
nothing beyond it. Two records with one (device, number) and different content are a fork: both
branches are kept, and a record knows only the branch it descends from.
"""

from __future__ import annotations

from teardown_app.domain.ledger.record import SHOP, Record

Vector = dict[str, tuple[int, str]]
"""Tablet (or `_shop/` + tablet) -> last record known: its number and the first 8 hex of its hash."""


class Knowing:
    """Chains of one journal name (a job, or the shop), and what each record's author had seen."""

    def __init__(self) -> None:
        self.chains: dict[str, dict[int, list[Record]]] = {}
        self.forked: set[str] = set()
        self.wanted: dict[str, int] = {}
        self._tips: dict[tuple[str, int], set[str]] = {}
        self._unmet: set[tuple[str, int]] = set()
        self._last: dict[str, Record] = {}
        self._vectors: dict[str, Vector] = {}

    def follows(self, record: Record) -> bool:
        """True when the record comes after all that is here of its tablet, on an unforked chain."""
        last = self._last.get(record.dev)
        return record.dev not in self.forked and (last is None or record.seq > last.seq)

    def take(self, record: Record) -> bool:
        """Adds a record; per tablet they must come in the order of their numbers.

        True when somebody had seen another version of it: then he knew less than it seemed before.
        """
        last = self._last.get(record.dev)
        siblings = self.chains.setdefault(record.dev, {}).setdefault(record.seq, [])
        siblings.append(record)
        if len(siblings) > 1:
            self.forked.add(record.dev)
        before = self._parent(record) if record.dev in self.forked else last
        known = self._vectors[before.h] if before else {}
        seen = _of_shop(record.seen) if record.job == SHOP else record.seen
        self._vectors[record.h] = _put_over(known, seen) if seen else known
        self._last[record.dev] = record
        self._want(record.dev, record.seq)
        for dev, (seq, h8) in seen.items():
            self._want(dev, seq)
            self._tips.setdefault((dev, seq), set()).add(h8)
            self._meet(dev, seq)
        return self._meet(record.dev, record.seq)

    def _want(self, dev: str, seq: int) -> None:
        if seq > self.wanted.get(dev, 0):
            self.wanted[dev] = seq

    def _meet(self, dev: str, seq: int) -> bool:
        """Compares what is here of one number with what others had seen; True while a version is not here."""
        here = self.chains.get(dev, {}).get(seq)
        tips = self._tips.get((dev, seq))
        if not here or not tips:
            return False
        if all(any(one.h.startswith(h8) for one in here) for h8 in tips):
            self._unmet.discard((dev, seq))
            return False
        self._unmet.add((dev, seq))
        return True

    def vector(self, record: Record) -> Vector:
        """All that the record's author had seen of other journals."""
        return self._vectors[record.h]

    def heads(self) -> Vector:
        """The last record here of each tablet."""
        return {dev: (last.seq, last.h[:8]) for dev, last in self._last.items()}

    def gaps(self) -> list[tuple[str, int]]:
        """Records known of but not here: (tablet, number), each once."""
        lacking = [
            (dev, seq)
            for dev, last in sorted(self.wanted.items())
            if not dev.startswith(SHOP + "/") and len(self.chains.get(dev, ())) < last
            for seq in range(1, last + 1)
            if seq not in self.chains.get(dev, {})
        ]
        return sorted([*lacking, *self._unmet]) if self._unmet else lacking

    def shop_gaps(self, shop: Knowing) -> list[tuple[str, int]]:
        """Records of the shop that somebody had seen when he recorded something here, and that are not here."""
        lacking = set()
        for dev, last in self.wanted.items():
            if dev.startswith(SHOP + "/"):
                name = dev.removeprefix(SHOP + "/")
                lacking |= {(name, seq) for seq in range(1, last + 1) if seq not in shop.chains.get(name, {})}
        for (dev, seq), tips in self._tips.items():
            if dev.startswith(SHOP + "/") and seq:
                name = dev.removeprefix(SHOP + "/")
                here = shop.chains.get(name, {}).get(seq, ())
                if not all(any(one.h.startswith(h8) for one in here) for h8 in tips):
                    lacking.add((name, seq))
        return sorted(lacking)

    def forks(self) -> list[tuple[str, int]]:
        """(tablet, number) of each number that stands for different records."""
        return [
            (dev, seq)
            for dev in sorted(self.forked)
            for seq, records in sorted(self.chains[dev].items())
            if len(records) > 1
        ]

    def knew(self, later: Record, earlier: Record) -> bool:
        """True when the author of `later` had seen `earlier` (both of this journal)."""
        if later.dev == earlier.dev:
            if later.dev not in self.forked:
                return earlier.seq < later.seq
            return self._descends(later, earlier)
        return self.reaches(self._vectors[later.h].get(earlier.dev), earlier)

    def reaches(self, known: tuple[int, str] | None, earlier: Record) -> bool:
        """True when somebody who knew the chain up to `known` had seen `earlier`."""
        if known is None or earlier.seq > known[0]:
            return False
        forked = earlier.dev in self.forked
        tips = self.chains[earlier.dev].get(known[0])
        if tips is None:
            return not forked
        tip = next((tip for tip in tips if tip.h.startswith(known[1])), None)
        return tip is not None and (not forked or tip.h == earlier.h or self._descends(tip, earlier))

    def _descends(self, later: Record, earlier: Record) -> bool:
        at: Record | None = later
        while at is not None and at.seq > earlier.seq:
            at = self._parent(at)
        return at is not None and at.h == earlier.h and later.seq > earlier.seq

    def _parent(self, record: Record) -> Record | None:
        """The record before, on this record's branch; None where that cannot be told."""
        numbers = self.chains[record.dev]
        before = max((seq for seq in numbers if seq < record.seq), default=0)
        records = numbers.get(before, [])
        linked = [one for one in records if one.h == record.prev]
        if linked:
            return linked[0]
        return records[0] if len(records) == 1 else None


def _put_over(known: Vector, seen: Vector) -> Vector:
    """What is known after a record's changes; number 0 means that nothing is known of that tablet any more."""
    return {dev: last for dev, last in {**known, **seen}.items() if last[0] > 0}


def _of_shop(seen: Vector) -> Vector:
    """In the shop's own records its tablets are plain names."""
    return {dev.removeprefix(SHOP + "/"): known for dev, known in seen.items()}
