"""One job: its records, the bill it froze, and which places of the tool are agreed to be filled."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cached_property
from typing import Any, Protocol, TypeVar

from teardown_app.domain.bill.bill import Bill, Line, Position
from teardown_app.domain.bill.check import Check
from teardown_app.domain.ledger.entry import Entry, display_order
from teardown_app.domain.ledger.kinds import that_reach
from teardown_app.domain.ledger.kinds.job import AMENDABLE, Added
from teardown_app.domain.ledger.kinds.kind import JOB, TOOL
from teardown_app.domain.ledger.record import RULES_KNOWN, Record, is_position, position_thing
from teardown_app.domain.shop.counting import REACH_BACK, Counting, is_numbered
from teardown_app.domain.shop.shop import Shop

__all__ = ["AMENDABLE", "JOB", "REACH_BACK", "RULES", "Bills", "Job", "job_thing", "opens"]

Bills = Callable[[str], Bill | None]
"""SHA-256 of a frozen bill -> the bill, None when its file is not here."""

CHANGES_TOOL = that_reach(TOOL)
"""Kinds that change which places there are, or which names are one thing."""

RULES = RULES_KNOWN[-1]
"""Number of the rules that jobs opened by this app live under."""


class Kept(Protocol):
    """What somebody keeps about a job from record to record, until everything is concluded anew."""

    def heed(self, touched: set[str], record: Record) -> None:
        """Told of each record that was taken in, and of the things it touched."""


KeptSort = TypeVar("KeptSort", bound=Kept)


class Job(Counting):
    """State of one job as its records, and the shop's, tell it."""

    def __init__(self, number: str, shop: Shop, bills: Bills) -> None:
        self._bills = bills
        super().__init__(number, shop)

    def _clear(self) -> None:
        super()._clear()
        self._forget_tool()

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
        self._after(record, touched)
        return touched

    def _forget(self) -> None:
        super()._forget()
        self._forget_tool()

    def _is_protective(self, record: Record) -> bool:
        name = record.body.get("check", "")
        return record.typ.startswith("check.") and self.bill.checks.get(name, Check(name)).is_protective

    def _after(self, record: Record, touched: set[str]) -> None:
        took_back = record.typ == "record.voided" and self._took_back(record, *CHANGES_TOOL, "record.voided")
        if record.typ in CHANGES_TOOL or took_back:
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

    # the opening

    @cached_property
    def opening(self) -> Entry | None:
        """The opening that holds: by the tablet that issued the job's number, the first of its kind."""
        entries = [entry for entry in self.entries(JOB, "opened") if opens(entry, self.number)]
        return min(entries, key=lambda entry: (entry.record.seq, entry.record.h), default=None)

    @cached_property
    def rules(self) -> int:
        """Number of the rules that the job lives under: the highest of its opening and of the office's amendments."""
        said = [self.opening.value.rules] if self.opening else []
        amended = (one for one in self.of_kind("job.amended") if "rules" in one.body and not self.effect(one))
        return max([*said, *(one.body["rules"] for one in amended)], default=RULES)

    @cached_property
    def bill(self) -> Bill:
        """The bill that the job froze; one without lines while it is not here."""
        opening = self.opening
        known = self._bills(opening.value.bill) if opening else None
        return known or Bill(model="", revision="")

    @cached_property
    def options(self) -> frozenset[str]:
        """Options that this tool has."""
        return frozenset(self.value(JOB, "options", ()))

    def said(self, name: str) -> str:
        """Order, name, serial or due day as last said."""
        return str(self.value(JOB, name, "") or "")

    @property
    def said_closed(self) -> bool:
        """True from its closing until it is reopened, whatever came since: whether it *is* closed, `signing` says."""
        return bool(self.value(JOB, "end", "open") == "closed")

    # positions

    @cached_property
    def positions(self) -> dict[str, Position]:
        """All places of the tool: those of the bill in its order, then those added on this job."""
        lines = [entry for thing in self.things("line") for entry in self.entries(thing, "line")]
        return {**self.bill.positions, **self._added(lines)} if lines else self.bill.positions

    def _added(self, lines: list[Entry]) -> dict[str, Position]:
        """Places added beneath one that is here; each has a name, that of no other, and none hangs beneath itself."""
        added: dict[str, Position] = {}
        waiting = [entry for entry in lines if entry.thing[1:].strip()]
        waiting.sort(key=lambda entry: display_order(entry.record))
        for _ in lines:
            before = len(added)
            for entry in waiting:
                key, parent = entry.thing[1:], entry.value.parent
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
        return self._without(self.opening.value.options if self.opening else ())

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
    return is_numbered(entry.record.body, number)


def _added_line(key: str, added: Added) -> Line:
    """A line for a part that the bill lacks."""
    return Line(
        position=key,
        parent=added.parent,
        row=0,
        part_number=added.part_number,
        description=added.description,
    )


def job_thing(key: str) -> str:
    """The thing of a position key, the job itself for the empty key."""
    return position_thing(key) if key else JOB
