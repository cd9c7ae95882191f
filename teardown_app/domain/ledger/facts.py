"""The set of records of one journal name and what follows from it: entries, heads, values.

Holds records and the cells they write to; a cell is one facet of one thing. The value of a cell
depends on the set of records alone, never on the order in which they came. Holds no rule of the
trade: which facets there are stands in `kinds/`, how they merge in `merge.py`.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Any

from teardown_app.domain.ledger.acts import Needed, right_for, rights_to_take_back
from teardown_app.domain.ledger.effect import MISFIT, NEWER, NO_RIGHT, VOIDED
from teardown_app.domain.ledger.entry import Entry, different, display_order, settled
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.knowing import Knowing
from teardown_app.domain.ledger.merge import merge_of, severity
from teardown_app.domain.ledger.record import VERSION, Record
from teardown_app.domain.ledger.same import connected

Cell = tuple[str, str]

HadRight = Callable[[Record, str, Knowing], bool]
"""(record, right, who knew what) -> had its author that right, as he had seen the shop?"""


def _in_display(entry: Entry) -> tuple[str, str, int, str]:
    return display_order(entry.record)


class Facts:
    """Records of one journal name, folded into cells.

    `had_right` judges rights; the shop judges its own.
    """

    generation = 0
    """Counts how often all was concluded anew; what others derived from the facts is then out of date."""

    def __init__(self, had_right: HadRight) -> None:
        self._had_right = had_right
        self._clear()

    def _clear(self) -> None:
        self.generation += 1
        self.records: dict[str, Record] = {}
        self.knowing = Knowing()
        self._cells: dict[str, dict[str, list[Entry]]] = {}
        self._things: dict[str, dict[str, None]] = {}
        self._by_ref: dict[str, list[Record]] = {}
        self._about: dict[str, list[Record]] = {}
        self._plain: dict[str, str] = {}
        self._misfits: dict[str, str] = {}
        self._told: dict[Cell, list[Entry]] = {}
        self._heads: dict[Cell, tuple[Entry, ...]] = {}
        self.memory: dict[Any, Any] = {}
        self._effects: dict[str, str] = {}
        self._faults: dict[str, str] = {}
        self._groups: dict[str, tuple[str, ...]] | None = {}

    # taking records in

    def take(self, record: Record) -> set[str]:
        """Adds a record and returns the things it touches; one that is here already changes nothing."""
        if record.h in self.records:
            return set()
        if not self.knowing.follows(record):
            return self._again([*self.records.values(), record])
        return self._add(record)

    def take_all(self, records: Iterable[Record]) -> None:
        """Adds many records at once."""
        new = {record.h: record for record in records if record.h not in self.records}
        self._again([*self.records.values(), *new.values()])

    def judge_again(self) -> None:
        """Forgets what was concluded, after records came that these refer to."""
        self.generation += 1
        self.memory.clear()
        self._forget_groups()
        self._effects.clear()
        self._faults.clear()

    def _again(self, records: list[Record]) -> set[str]:
        """Takes all in anew, each tablet's in the order of their numbers."""
        self._clear()
        for record in sorted(records, key=lambda record: (record.dev, record.seq, record.h)):
            self._add(record)
        return set(self._cells)

    def _add(self, record: Record) -> set[str]:
        self.records[record.h] = record
        self.memory.clear()
        is_news = self.knowing.is_news(record)
        if self.knowing.take(record):
            self.judge_again()
        self._by_ref.setdefault(record.ref, []).append(record)
        for thing in dict.fromkeys(record.ent):
            self._about.setdefault(thing, []).append(record)
        touched = self._write(record, is_news)
        if record.typ == "record.voided":
            touched |= self._voiding(record)
        if self._voids(record):
            self.judge_again()
        if record.typ == "part.same_as":
            self._forget_groups()
        return touched

    def _write(self, record: Record, is_news: bool) -> set[str]:
        kind = KINDS.get(record.typ)
        if kind is None or record.v > VERSION:
            self._plain[record.h] = NEWER
            return set(record.ent)
        problem = kind.misfit(record)
        if problem:
            return self._misfit(record, problem)
        try:
            writes = list(kind.writes(record))
        except (KeyError, TypeError, ValueError, IndexError, AttributeError) as error:
            return self._misfit(record, str(error))
        for thing, facet, value in writes:
            entry = Entry(record, value, thing)
            self._cells.setdefault(thing, {}).setdefault(facet, []).append(entry)
            self._things.setdefault(facet, {})[thing] = None
            if self._heads or self._told:
                self._renew(entry, facet, is_news)
        return {*record.ent, *(thing for thing, _, _ in writes)}

    def _renew(self, entry: Entry, facet: str, is_news: bool) -> None:
        """Keeps what is known of a cell: an entry that nobody had seen replaces what its author had seen, no more."""
        if is_news and self.effect(entry.record):
            return
        for cell in ((one, facet) for one in self.group(entry.thing)):
            if not is_news:
                self._told.pop(cell, None)
                self._heads.pop(cell, None)
                continue
            if cell in self._told:
                insort(self._told[cell], entry, key=_in_display)
            if cell in self._heads:
                worst = merge_of(facet).rule == "worst"
                stay = [one for one in self._heads[cell] if not self._replaces(entry, one, worst)]
                self._heads[cell] = tuple(sorted([*stay, entry], key=_in_display))

    def _misfit(self, record: Record, problem: str) -> set[str]:
        self._plain[record.h] = MISFIT
        self._misfits[record.h] = problem
        return set(record.ent)

    def _voiding(self, record: Record) -> set[str]:
        """A correction (or a correction of one) changes what holds of all that its target wrote, and nothing else."""
        touched: set[str] = set()
        for target in self._by_ref.get(str(record.body.get("record", "")), ()):
            self._effects.pop(target.h, None)
            touched |= {*target.ent, *self._forget_written(target)}
            if target.typ == "record.voided":
                touched |= self._voiding(target)
        return touched

    def _forget_written(self, record: Record) -> set[str]:
        """Forgets what is known of the cells that a record wrote to; the things they are of."""
        if record.typ not in KINDS or record.h in self._plain:
            return set()
        if record.typ == "part.same_as":
            self._forget_groups()
        writes = [(thing, facet) for thing, facet, _ in KINDS[record.typ].writes(record)]
        for cell in ((one, facet) for thing, facet in writes for one in self.group(thing)):
            self._told.pop(cell, None)
            self._heads.pop(cell, None)
        return {thing for thing, _ in writes}

    def _forget_groups(self) -> None:
        """Names are one thing, or are it no more: what is known of any cell may be otherwise."""
        self._groups = None
        self._told.clear()
        self._heads.clear()

    # what a record is worth

    def effect(self, record: Record) -> str:
        """Why the record has no effect, empty when it has."""
        known = self._effects.get(record.h)
        if known is None:
            known = self._effects[record.h] = self._judge(record)
        return known

    def why_misfit(self, record: Record) -> str:
        """What does not fit about a record that does not fit."""
        return self._misfits.get(record.h, "it takes back a record that its author had not seen")

    def _judge(self, record: Record) -> str:
        fault = self._fault(record)
        if fault == NEWER:
            return fault
        return VOIDED if any(not self.effect(void.record) for void in self._voids(record)) else fault

    def _fault(self, record: Record) -> str:
        """Why the record has no effect, whatever was corrected since."""
        known = self._faults.get(record.h)
        if known is None:
            known = self._faults[record.h] = self._plain.get(record.h) or self._without_right(record)
        return known

    def _without_right(self, record: Record) -> str:
        if not self._has(record, right_for(record)):
            return NO_RIGHT
        return self._wrongly_voiding(record) if record.typ == "record.voided" else ""

    def _voids(self, record: Record) -> Sequence[Entry]:
        return self._entries("void:" + record.ref, "voided")

    def good(self, record: Record) -> bool:
        """Has the record effect, or would it have but for having been taken back?"""
        return not self._fault(record)

    def takings_back(self, record: Record) -> list[Record]:
        """Takings back of a record that have effect, in no order that decides anything."""
        return [void.record for void in self._voids(record) if not self.effect(void.record)]

    def stood(self, record: Record, seen: Callable[[Record], bool]) -> bool:
        """Had the record effect for somebody who had `seen` what he had seen of the corrections?"""
        if self._fault(record):
            return False
        return not any(seen(void.record) and self.stood(void.record, seen) for void in self._voids(record))

    def _wrongly_voiding(self, record: Record) -> str:
        """A correction counts only by one who had seen its target, and for weighty ones had the right."""
        targets = self._by_ref.get(record.body["record"], ())
        if not any(self.knowing.knew(record, target) for target in targets):
            return MISFIT
        return "" if all(self._may_undo(record, target) for target in targets) else NO_RIGHT

    def _may_undo(self, record: Record, target: Record) -> bool:
        needed = (("record",),) if target.h in self._plain else rights_to_take_back(target)
        return needed is not None and self._has(record, needed)

    def _has(self, record: Record, needed: Needed) -> bool:
        return all(any(self._had_right(record, right, self.knowing) for right in group) for group in needed)

    # cells

    def group(self, thing: str) -> tuple[str, ...]:
        """All names of the one thing that this is a name of, sorted."""
        if self._groups is None:
            self._groups = self._regroup()
        return self._groups.get(thing) or (thing,)

    def _regroup(self) -> dict[str, tuple[str, ...]]:
        self._groups = {}
        links = [entry.value for entry in self._sames() if not self.effect(entry.record)]
        return connected(links)

    def _sames(self) -> Iterator[Entry]:
        for thing in self._things.get("same_as", ()):
            yield from self._entries(thing, "same_as")

    def contested(self, thing: str) -> list[str]:
        """Facets of a thing that more than one record writes, sorted: only these can differ."""
        group = self.group(thing)
        if len(group) > 1:
            return sorted({facet for one in group for facet in self._cells.get(one, ())})
        return sorted(name for name, entries in self._cells.get(thing, {}).items() if len(entries) > 1)

    def speaks_of(self, thing: str, facet: str = "") -> bool:
        """True when some record writes to the thing (to this facet of it)."""
        return facet in self._cells.get(thing, ()) if facet else thing in self._cells

    def speaks(self, facet: str) -> bool:
        """True when some record writes this facet of anything."""
        return facet in self._things

    def of_ref(self, ref: str) -> list[Record]:
        """Records of a name; more than one only on a fork."""
        return self._by_ref.get(ref, [])

    def about(self, thing: str) -> list[Record]:
        """Records that name the thing, by any of its names, and have effect or were taken back; each once."""
        found = {record.h: record for one in self.group(thing) for record in self._about.get(one, ())}
        return [record for record in found.values() if self.good(record)]

    def things(self, facet: str) -> list[str]:
        """All things that have entries of a facet, in the order of their names."""
        return sorted(self._things.get(facet, ()))

    def written_facets(self, prefix: str) -> list[str]:
        """Facets that begin with `prefix/`, of anything, sorted."""
        start = prefix + "/"
        return sorted(name for name in self._things if name.startswith(start))

    def facets(self, thing: str, prefix: str) -> list[str]:
        """Facets of a thing that begin with `prefix/`, sorted."""
        start = prefix + "/"
        names = {facet for one in self.group(thing) for facet in self._cells.get(one, ())}
        return sorted(name for name in names if name.startswith(start))

    def _entries(self, thing: str, facet: str) -> Sequence[Entry]:
        cells = self._cells.get(thing)
        return cells.get(facet, ()) if cells else ()

    def ever(self, thing: str, facet: str) -> list[Entry]:
        """Entries of all names of the thing whose record has effect or was taken back: what can lie on a ground."""
        return [entry for entry in self._of_all(self.group(thing), facet) if self.good(entry.record)]

    def entries(self, thing: str, facet: str) -> list[Entry]:
        """Entries that have effect, of all names of the thing, in the order for display."""
        group = self.group(thing)
        written = self._entries(thing, facet) if len(group) == 1 else self._of_all(group, facet)
        if len(written) < 2:
            return [entry for entry in written if not self.effect(entry.record)]
        known = self._told.get((thing, facet))
        if known is None:
            found = (entry for entry in written if not self.effect(entry.record))
            known = self._told[thing, facet] = sorted(found, key=_in_display)
        return [*known]

    def _of_all(self, group: Iterable[str], facet: str) -> list[Entry]:
        return [entry for one in group for entry in self._entries(one, facet)]

    def heads(self, thing: str, facet: str) -> tuple[Entry, ...]:
        """Entries that nobody who had seen them replaced."""
        cell = (thing, facet)
        known = self._heads.get(cell)
        if known is None:
            known = self._heads[cell] = tuple(self.unreplaced(self.entries(thing, facet), facet))
        return known

    def unreplaced(self, entries: list[Entry], facet: str) -> list[Entry]:
        """Of these entries, those that no other one replaces."""
        if len(entries) < 2:
            return entries
        worst = merge_of(facet).rule == "worst"
        return [
            one
            for one in entries
            if not any(other is not one and self._replaces(other, one, worst) for other in reversed(entries))
        ]

    def _replaces(self, later: Entry, earlier: Entry, worst: bool) -> bool:
        if not self.knowing.knew(later.record, earlier.record):
            return False
        if later.thing != earlier.thing and not self._knew_same(later, earlier):
            return False
        return not worst or self._may_soften(later, earlier)

    def _knew_same(self, later: Entry, earlier: Entry) -> bool:
        """Had the author seen that the two names are one thing? Positions are compared by their tree."""
        if later.thing.startswith("@"):
            return True
        links = [
            entry.value
            for entry in self._sames()
            if not self.effect(entry.record) and self.knowing.knew(later.record, entry.record)
        ]
        return earlier.thing in connected(links).get(later.thing, ())

    def _may_soften(self, later: Entry, earlier: Entry) -> bool:
        if severity(later.value) >= severity(earlier.value):
            return True
        right = "scrap" if earlier.value == "scrap" else "release"
        return self._had_right(later.record, right, self.knowing)

    def value(self, thing: str, facet: str, default: Any = None) -> Any:
        """What holds of a facet: its head, or the safer value while different ones stand."""
        heads = self.heads(thing, facet)
        if not heads:
            return default
        return settled([entry.value for entry in heads], facet)

    def total(self, thing: str, facet: str) -> int:
        """Sum of signed numbers."""
        return sum(entry.value for entry in self.entries(thing, facet))

    def differs(self, thing: str, facet: str) -> bool:
        """True while different heads stand and a person has to settle it."""
        heads = self.heads(thing, facet)
        return len(heads) > 1 and different([entry.value for entry in heads], facet)
