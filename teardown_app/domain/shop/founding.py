"""Foundings: a first person who registered himself, and the tablets that belong to him and those he let in.

Two shops whose records come together stay two, until one joins the other. A tablet belongs to the founding that it knew
first: of its records of the shop, else of one job. What a record's author had seen decides, never a clock.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.record import SHOP, Record

if TYPE_CHECKING:
    from teardown_app.domain.shop.shop import Shop

FIRST, LAST = (-1, ""), (sys.maxsize, "")
"""Number and hash before and after those of all records."""

NONE = ""
"""The founding of a tablet that knew none."""


def incarnation(dev: str) -> tuple[str, int]:
    """Device of a tablet's name and the number of its incarnation; -1 where there is none.

    >>> incarnation("t7k3m9~2")
    ('t7k3m9', 2)
    """
    device, _, number = dev.rpartition("~")
    return device, int(number) if number.isdigit() else -1


class Foundings:
    """To which founding each tablet belongs, by the shop's records and, where it is given, those of one job."""

    def __init__(self, shop: Shop, job: Facts | None = None) -> None:
        self._shop, self._job = shop, job
        self._decides: dict[str, Record] = {}
        self._none_up_to: dict[str, tuple[int, str]] = {}
        self._of: dict[str, str] = {}

    def forget(self) -> None:
        """Works all out anew when next asked."""
        self._decides.clear()
        self._none_up_to.clear()
        self._of.clear()

    def of(self, dev: str) -> str:
        """Name of the record by which the founding happened that a tablet belongs to."""
        if dev not in self._of:
            first = self._deciding(dev)
            self._of[dev] = self._chosen(first) if first else NONE
        return self._of[dev]

    def at_hand(self, dev: str, code: str) -> str:
        """The founding that a tablet belongs to, or will when a person, who sees all that is here, is the first to
        record something on it."""
        if any(self._chains(dev)):
            return self.of(dev)
        shop = self._shop
        return self._choose(filter(shop.is_founding, shop.self_registered()), dev, code, lambda one: True)

    def at(self, record: Record) -> str:
        """The founding that a tablet belonged to when it wrote this record of the shop: by records up to this one."""
        first = self._deciding(record.dev, (record.seq, record.h))
        return self.of(record.dev) if first and (first.seq, first.h) <= (record.seq, record.h) else NONE

    def is_changed_by(self, record: Record) -> bool:
        """Does a record that came in last put its tablet, or another incarnation of it, elsewhere than was said?"""
        first, none_up_to = self._decides.get(record.dev), self._none_up_to.get(record.dev, FIRST)
        is_asked = record.dev in self._of or first is not None or (record.seq, record.h) <= none_up_to
        comes_first = first is None or _in_order(record) < _in_order(first)
        if is_asked and comes_first and next(self._known_to(record), None):
            return True
        return self._is_new_between(record)

    def _is_new_between(self, record: Record) -> bool:
        """True for a tablet's first record where there are other incarnations of it, and more than one founding."""
        if len(self._shop.self_registered()) < 2 or sum(map(len, self._chains(record.dev))) > 1:
            return False
        device = incarnation(record.dev)[0]
        return any(dev != record.dev and incarnation(dev)[0] == device for dev in self._devices())

    def _devices(self) -> set[str]:
        chains = self._shop.knowing.chains.keys()
        return {*chains, *self._job.knowing.chains.keys()} if self._job else {*chains}

    def _chains(self, dev: str) -> list[dict[int, list[Record]]]:
        """A tablet's records by number, those of the shop first."""
        ledgers: tuple[Facts, ...] = (self._shop, self._job) if self._job else (self._shop,)
        return [ledger.knowing.chains.get(dev, {}) for ledger in ledgers]

    def _own(self, dev: str) -> list[Record]:
        """The same in the order of their numbers."""
        chains = self._chains(dev)
        return [one for numbers in chains for seq in sorted(numbers) for one in sorted(numbers[seq], key=_by_hash)]

    def _deciding(self, dev: str, until: tuple[int, str] = LAST) -> Record | None:
        """The first of a tablet's records that is a founding or whose author had seen one. Those after `until` (number
        and hash) are not looked at, as what they rest on may be what is being judged."""
        if dev in self._decides or not self._shop.self_registered():
            return self._decides.get(dev)
        after = self._none_up_to.get(dev, FIRST)
        for record in self._own(dev):
            if after < (record.seq, record.h) <= until and next(self._known_to(record), None):
                self._decides[dev] = record
                return record
        self._none_up_to[dev] = max(after, until)
        return None

    def _known_to(self, record: Record) -> Iterator[Record]:
        """Foundings that the author of a record had seen, and the record itself where it is one."""
        for one in self._shop.self_registered():
            if (one.h == record.h or self._saw(record, one)) and self._shop.is_founding(one):
                yield one

    def _saw(self, record: Record, one: Record) -> bool:
        if record.job == SHOP or self._job is None:
            return self._shop.knowing.knew(record, one)
        return self._shop.was_seen(self._job.knowing.vector(record), one)

    def _chosen(self, record: Record) -> str:
        """Of several foundings that a tablet came to know at once: its earlier incarnation's, else the one that gives
        the record's author rights, else the one with the smallest name."""
        return self._choose(self._known_to(record), record.dev, record.act, lambda one: self._saw(record, one))

    def _choose(self, foundings: Iterable[Record], dev: str, code: str, saw: Callable[[Record], bool]) -> str:
        known = {one.ref: one for one in foundings}
        if len(known) > 1 and (before := self._before(dev)) in known:
            return before
        own = [ref for ref, one in known.items() if one.act == code]
        given = [ref for ref, one in known.items() if self._gave(one.dev, code, saw)]
        return min(own or given or known, default=NONE)

    def _before(self, dev: str) -> str:
        """The founding of the incarnation before, of those that are here."""
        device, number = incarnation(dev)
        others = ((incarnation(one), one) for one in self._devices())
        lower = [(at, one) for (name, at), one in others if name == device and 0 <= at < number]
        return self.of(max(lower)[1]) if lower else NONE

    def _gave(self, dev: str, code: str, saw: Callable[[Record], bool]) -> bool:
        """Had the author seen that this tablet recorded rights of his?"""
        given = self._shop.of_kind("person.given")
        return any(one.dev == dev and one.body.get("code") == code and saw(one) for one in given)


def _by_hash(record: Record) -> str:
    return record.h


def _in_order(record: Record) -> tuple[bool, int, str]:
    """A tablet's records of the shop come first, each journal's in the order of their numbers."""
    return record.job != SHOP, record.seq, record.h
