"""One job: its records, the bill it froze, and which places of the tool are agreed to be filled."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cached_property
from typing import Any, Protocol, TypeVar

from teardown_app.domain.bill.bill import Bill, Line, Position
from teardown_app.domain.bill.check import Check
from teardown_app.domain.ledger.entry import Entry, display_order
from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.kinds.job import AMENDABLE
from teardown_app.domain.ledger.kinds.kind import JOB
from teardown_app.domain.ledger.kinds.shop import retired_journal
from teardown_app.domain.ledger.knowing import Knowing
from teardown_app.domain.ledger.record import RULES_KNOWN, SHOP, Record, is_position, position_thing
from teardown_app.domain.nouns.founding import Foundings
from teardown_app.domain.nouns.shop import Shop, ShopOfJob

__all__ = ["AMENDABLE", "JOB", "RULES", "Bills", "Job", "job_thing", "opens"]

Bills = Callable[[str], Bill | None]
"""SHA-256 of a frozen bill -> the bill, None when its file is not here."""

REACH_BACK = ("instrument.given", "instrument.found_out", "instrument.cleared", "founding.joined", "tablet.retired")
"""Kinds of the shop's records that change what a job's records are worth whose authors had not seen them."""

TOOL = ("job.opened", "job.amended", "line.added", "part.same_as")
"""Kinds that change which places there are, or which names are one thing."""

RULES = RULES_KNOWN[-1]
"""Number of the rules that jobs opened by this app live under."""


class Kept(Protocol):
    """What somebody keeps about a job from record to record, until everything is concluded anew."""

    def heed(self, touched: set[str], record: Record) -> None:
        """Told of each record that was taken in, and of the things it touched."""


KeptSort = TypeVar("KeptSort", bound=Kept)


class Job(Facts):
    """State of one job as its records, and the shop's, tell it."""

    def __init__(self, number: str, shop: Shop, bills: Bills) -> None:
        self.number = number
        self._whole_shop = shop
        self._bills = bills
        super().__init__(self._judge_right_here)

    def _clear(self) -> None:
        super()._clear()
        self._forget_foundings()
        self._forget_tool()

    def _forget_foundings(self) -> None:
        """Which tablets count is worked out anew when next asked for."""
        self._shop_was = self._whole_shop.generation
        self.foundings = Foundings(self._whole_shop, self)
        self._shop_here: Shop | None = None
        for name in ("first_opening", "_counting", "uncounted"):
            self.__dict__.pop(name, None)

    def _forget_tool(self) -> None:
        """What is kept about the tool is worked out anew when next asked for."""
        for name in (
            "opening",
            "rules",
            "bill",
            "positions",
            "order",
            "options",
            "_children_added",
            "_absent",
            "_absent_at_opening",
        ):
            self.__dict__.pop(name, None)
        self._kept: dict[Callable[[Job], Kept], Kept] = {}
        self.memory_of_tool: dict[Any, Any] = {}

    def take(self, record: Record) -> set[str]:
        if record.h in self.records:
            return set()
        touched = super().take(record)
        if record.typ == "job.opened" or self.foundings.is_changed_by(record):
            self.judge_again()
        elif "uncounted" in self.__dict__ and not self.tablet_counts(record.dev):
            self.uncounted.setdefault(record.dev, []).append(record)
        self._after(record, touched)
        return touched

    def take_all(self, records: Iterable[Record]) -> None:
        super().take_all(records)
        self._forget_tool()

    def judge_again(self) -> None:
        super().judge_again()
        self._forget_foundings()
        self._forget_tool()

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

    # the shop, and which tablets count

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
        own = [one for one in self.of_kind("job.opened") if _is_numbered(one.body, number)]
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

    def _counts(self, record: Record) -> bool:
        return self.tablet_counts(record.dev)

    def _ruled_out(self, record: Record) -> str:
        if record.trial and not (self.first_opening and self.first_opening.trial):
            return "it was recorded as a trial, and the job is none"
        return super()._ruled_out(record)

    def _is_protective(self, record: Record) -> bool:
        name = record.body.get("check", "")
        return record.typ.startswith("check.") and self.bill.checks.get(name, Check(name)).is_protective

    def _after(self, record: Record, touched: set[str]) -> None:
        if record.typ in TOOL or (record.typ == "record.voided" and self._took_back(record, *TOOL, "record.voided")):
            self._forget_tool()
            return
        for kept in self._kept.values():
            kept.heed(touched, record)

    def _took_back(self, record: Record, *kinds: str) -> bool:
        """True for a correction of a record of one of these kinds."""
        return any(target.typ in kinds for target in self.of_ref(str(record.body.get("record", ""))))

    def keep(self, sort: Callable[[Job], KeptSort]) -> KeptSort:
        """The one of its sort that is kept about this job; made when first asked for."""
        known = self._kept.get(sort)
        if known is None:
            known = self._kept[sort] = sort(self)
        return known  # type: ignore[return-value]

    @cached_property
    def uncounted(self) -> dict[str, list[Record]]:
        """Records of tablets that do not count here, by tablet, in the order of their numbers."""
        found: dict[str, list[Record]] = {}
        for record in sorted(self.records.values(), key=lambda one: (one.dev, one.seq, one.h)):
            if not self.tablet_counts(record.dev):
                found.setdefault(record.dev, []).append(record)
        return found

    def gaps(self) -> list[tuple[str, int]]:
        """Records of this job that are known of and not here: tablet and number."""
        return [gap for gap in self.knowing.gaps() if not self._is_retired(gap, self.number, self.knowing)]

    def shop_gaps(self) -> list[tuple[str, int]]:
        """Shop records that somebody had seen when he recorded something here, and that are not here."""
        shop = self._whole_shop.knowing
        return [gap for gap in self.knowing.shop_gaps(shop) if not self._is_retired(gap, SHOP, shop)]

    def _is_retired(self, gap: tuple[str, int], journal: str, knowing: Knowing) -> bool:
        """Is nothing more to come of a tablet after a lower number? A record above that number overtakes."""
        dev, seq = gap
        last = self.shop.value(retired_journal(dev, journal), "retired")
        return last is not None and seq > last >= knowing.highest(dev)

    def shop_forks(self) -> list[tuple[str, int]]:
        """Numbers that stand for two records of the shop, as far as somebody here had seen them."""
        forks, wanted = self._whole_shop.knowing.forks(), self.knowing.wanted
        return [(dev, seq) for dev, seq in forks if seq <= wanted.get(f"{SHOP}/{dev}", 0)]

    # the opening

    @cached_property
    def opening(self) -> Entry | None:
        """The opening that holds: by the tablet that issued the job's number, the first of its kind."""
        entries = [entry for entry in self.entries(JOB, "opened") if opens(entry, self.number)]
        return min(entries, key=lambda entry: (entry.record.seq, entry.record.h), default=None)

    @cached_property
    def rules(self) -> int:
        """Number of the rules that the job lives under: the highest of its opening and of the office's amendments."""
        said = [self.opening.value["rules"]] if self.opening else []
        amended = (one for one in self.of_kind("job.amended") if "rules" in one.body and not self.effect(one))
        return max([*said, *(one.body["rules"] for one in amended)], default=RULES)

    @cached_property
    def bill(self) -> Bill:
        """The bill that the job froze; one without lines while it is not here."""
        opening = self.opening
        known = self._bills(opening.value["bill"]) if opening else None
        return known or Bill(model="", revision="")

    @cached_property
    def options(self) -> frozenset[str]:
        """Options that this tool has."""
        return frozenset(self.value(JOB, "options", ()))

    def said(self, name: str) -> str:
        """Order, name, serial or due day as last said."""
        return str(self.value(JOB, name, "") or "")

    @property
    def closed(self) -> bool:
        """True from its closing until it is reopened."""
        return bool(self.value(JOB, "end", "open") == "closed")

    # positions

    @cached_property
    def positions(self) -> dict[str, Position]:
        """All places of the tool: those of the bill in its order, then those added on this job."""
        lines = [entry for thing in self.things("line") for entry in self.entries(thing, "line")]
        return {**self.bill.positions, **self._added(lines)} if lines else self.bill.positions

    def _added(self, lines: list[Entry]) -> dict[str, Position]:
        """Places added beneath one that is here; none takes the name of another, none hangs beneath itself."""
        added: dict[str, Position] = {}
        waiting = sorted(lines, key=lambda entry: display_order(entry.record))
        for _ in lines:
            before = len(added)
            for entry in waiting:
                key, parent = entry.thing[1:], entry.value["parent"]
                taken = key in added or key in self.bill.positions or not is_position(entry.thing)
                if not taken and (not parent or parent in added or parent in self.bill.positions):
                    added[key] = Position(key, _added_line(key, entry.value), parent)
            if len(added) == before:
                break
        return added

    @cached_property
    def _children_added(self) -> dict[str, list[Position]]:
        children: dict[str, list[Position]] = {}
        for key, position in self.positions.items():
            if key not in self.bill.positions:
                children.setdefault(position.parent, []).append(position)
        return children

    def children(self, key: str) -> tuple[Position, ...]:
        """Places right beneath a place (`""`: the tool)."""
        return (*self.bill.children(key), *self._children_added.get(key, ()))

    def beneath(self, key: str) -> list[Position]:
        """All places beneath a place (`""`: of the tool), in order; those added on this job after those of the bill."""
        if not self._children_added:
            return list(self.bill.beneath(key)) if not key or key in self.bill.positions else []
        found: list[Position] = []
        waiting = [*reversed(self.children(key))]
        while waiting:
            found.append(waiting.pop())
            waiting += reversed(self.children(found[-1].key))
        return found

    def ancestors(self, key: str) -> list[str]:
        """Keys of the places above, nearest first."""
        above = []
        while key:
            key = self.positions[key].parent if key in self.positions else ""
            if key:
                above.append(key)
        return above

    # options

    def lacks_option(self, key: str) -> bool:
        """True for a place of an option that this tool lacks."""
        return key in self._absent

    def opening_lacked_option(self, key: str) -> bool:
        """True where the opening lacked the option already."""
        return key in self._absent_at_opening

    @cached_property
    def _absent(self) -> frozenset[str]:
        return self._without(self.options)

    @cached_property
    def _absent_at_opening(self) -> frozenset[str]:
        return self._without(self.opening.value["options"] if self.opening else ())

    def _without(self, options: Iterable[str]) -> frozenset[str]:
        """Places that a tool with these options does not have, and what was added beneath them."""
        missing = set(self.bill.absent(options))
        if missing and self._children_added:
            added = (one for one in self.positions.values() if one.key not in self.bill.positions)
            missing.update(one.key for one in added if one.parent in missing)
        return frozenset(missing)

    @cached_property
    def order(self) -> dict[str, int]:
        """Where each place stands in the bill's order; those added on the job come last."""
        return {key: n for n, key in enumerate(self.positions)}


def opens(entry: Entry, number: str) -> bool:
    """True for an opening by the tablet that issued the job's number."""
    return _is_numbered(entry.value, number)


def _is_numbered(body: dict[str, Any], number: str) -> bool:
    return bool(body.get("number") == number and number[1:5] == body.get("letters"))


def _added_line(key: str, body: dict[str, Any]) -> Line:
    """A line for a part that the bill lacks."""
    return Line(
        position=key,
        parent=body["parent"],
        row=0,
        part_number=body["part_number"],
        description=body["description"],
    )


def job_thing(key: str) -> str:
    """The thing of a position key, the job itself for the empty key."""
    return position_thing(key) if key else JOB
