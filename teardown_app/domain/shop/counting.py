"""Which tablets count in a job, and the shop as that job has it.

The founding of the job's opening counts, and what it joined. What other tablets recorded is as if not there.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from typing import Any

from teardown_app.domain.ledger.absent import Gap
from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.kinds import that_reach
from teardown_app.domain.ledger.kinds.kind import BACK
from teardown_app.domain.ledger.kinds.shop import retired_journal
from teardown_app.domain.ledger.knowing import Knowing
from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.ledger.runs import cut
from teardown_app.domain.shop.founding import Foundings
from teardown_app.domain.shop.shop import Shop, ShopOfJob

REACH_BACK = that_reach(BACK)
"""Kinds of the shop's records that change what a job's records are worth whose authors had not seen them."""


class Counting(Facts):
    """Records of one job, as far as their tablets count."""

    def __init__(self, number: str, shop: Shop) -> None:
        self.number = number
        self._whole_shop = shop
        super().__init__(self._judge_right_here)

    def _clear(self) -> None:
        super()._clear()
        self._forget_foundings()

    def _forget(self) -> None:
        super()._forget()
        self._forget_foundings()

    def _forget_foundings(self) -> None:
        """Which tablets count is worked out anew when next asked for."""
        self._shop_was = self._whole_shop.generation
        self.foundings = Foundings(self._whole_shop, self)
        self._shop_here: Shop | None = None
        for name in ("first_opening", "_counting", "uncounted"):
            self.__dict__.pop(name, None)

    def take(self, record: Record) -> set[str]:
        """Adds a record. It may say which founding counts, or put its tablet elsewhere than it seemed."""
        if record.h in self.records:
            return set()
        touched = super().take(record)
        if record.typ == "job.opened" or self.foundings.is_changed_by(record):
            self.judge_again()
        elif "uncounted" in self.__dict__ and not self.tablet_counts(record.dev):
            self.uncounted.setdefault(record.dev, []).append(record)
        return touched

    def shop_took(self, record: Record) -> bool:
        """Called when the shop took a record in; True when that can change this job. What is found out about
        an instrument reaches back to readings whose author had not seen it; so does joining a shop."""
        was_known_of = self.knowing.wanted.get(f"{record.job}/{record.dev}", 0) >= record.seq
        is_behind = was_known_of or self._shop_was != self._whole_shop.generation
        if record.typ in REACH_BACK or is_behind or self.foundings.is_changed_by(record):
            self.judge_again()
            return True
        if self._shop_here is not self._whole_shop and self._shop_here is not None:
            self._shop_here.take(record)
        elif not self.tablet_counts(record.dev):
            self._shop_here = None
        return False

    @property
    def shop(self) -> Shop:
        """The shop as this job has it: without what tablets recorded that do not count."""
        if self._shop_here is None:
            tablets = self._whole_shop.knowing.chains
            all_count = self._counting is None or all(map(self.tablet_counts, tablets))
            self._shop_here = self._whole_shop if all_count else ShopOfJob(self._whole_shop, self.tablet_counts)
        return self._shop_here

    def _judge_right_here(self, record: Record, right: str, knowing: Knowing) -> bool:
        return self.shop.judge_right(record, right, knowing)

    @cached_property
    def first_opening(self) -> Record | None:
        """The opening by the tablet that issued the job's number, the first of its kind, with effect or without."""
        number = self.number
        own = [one for one in self.of_kind("job.opened") if is_numbered(one.body, number)]
        return min(own, key=lambda one: (one.seq, one.h), default=None)

    @cached_property
    def _counting(self) -> frozenset[str] | None:
        """Foundings whose tablets count: the opening's, and those that it joined. None: nothing is left out."""
        opening = self.first_opening
        first = self.foundings.of(opening.dev) if opening else ""
        if not first:
            return None
        joinings = (one for one in self._whole_shop.of_kind("founding.joined") if self._whole_shop.good(one))
        return frozenset({first, *(one.body["founding"] for one in joinings if self.foundings.of(one.dev) == first)})

    def tablet_counts(self, dev: str) -> bool:
        """Do a tablet's records count in this job?"""
        return self._counting is None or self.foundings.of(dev) in self._counting

    def rights_at(self, dev: str, code: str, day: str, clk: str = "ok") -> tuple[str, ...]:
        """Rights that a person has on a day, by a clock in that state, for what he records in this job on a tablet: by
        the foundings that count here. A tablet that does not count, and may be joined later, goes by its own."""
        if self._counting is None or self.foundings.at_hand(dev, code) in self._counting:
            return self.shop.rights_of(code, day, clk)
        return self._whole_shop.rights_at(dev, code, day, clk)

    def _counts(self, record: Record) -> bool:
        return self.tablet_counts(record.dev)

    def _ruled_out(self, record: Record) -> str:
        if record.trial and not (self.first_opening and self.first_opening.trial):
            return "it was recorded as a trial, and the job is none"
        return super()._ruled_out(record)

    @cached_property
    def uncounted(self) -> dict[str, list[Record]]:
        """Records of tablets that do not count here, by tablet, in the order of their numbers."""
        found: dict[str, list[Record]] = {}
        for record in sorted(self.records.values(), key=lambda one: (one.dev, one.seq, one.h)):
            if not self.tablet_counts(record.dev):
                found.setdefault(record.dev, []).append(record)
        return found

    def gaps(self) -> list[Gap]:
        """Records of this job that are known of and not here."""
        return self._waited_for(self.knowing.gaps(), self.number, self.knowing)

    def shop_gaps(self) -> list[Gap]:
        """Shop records that somebody had seen when he recorded something here, and that are not here."""
        shop = self._whole_shop.knowing
        return self._waited_for(self.knowing.shop_gaps(shop), SHOP, shop)

    def _waited_for(self, gaps: Iterable[Gap], journal: str, knowing: Knowing) -> list[Gap]:
        """What of these is still to come: of a retired tablet nothing after its last number, and nothing that was lost
        with it. A record above that number overtakes."""
        found = []
        for gap in gaps:
            retired = self.shop.value(retired_journal(gap.dev, journal), "retired")
            if retired is None or knowing.highest(gap.dev) > retired["last"]:
                found.append(gap)
            else:
                left = cut((gap.first, gap.last), retired["last"], retired["without"])
                found += [Gap(gap.dev, *run) for run in left]
        return found

    def shop_forks(self) -> list[tuple[str, int]]:
        """Numbers that stand for two records of the shop, as far as somebody here had seen them."""
        forks, wanted = self._whole_shop.knowing.forks(), self.knowing.wanted
        return [(dev, seq) for dev, seq in forks if seq <= wanted.get(f"{SHOP}/{dev}", 0)]


def is_numbered(body: dict[str, Any], number: str) -> bool:
    """True for the body of an opening by the tablet that issued the job's number."""
    return bool(body.get("number") == number and number[1:5] == body.get("letters"))
