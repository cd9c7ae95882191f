"""The set of records of one journal name and what follows from it: entries, heads, values.

The value of a cell depends on the set of records alone, never on the order in which they came. Holds no rule of the
trade: which facets there are stands in `kinds/`, how they merge in `facets.py`, what a record is worth in `judged.py`.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from teardown_app.domain.ledger.cells import Cell
from teardown_app.domain.ledger.effect import VOIDED
from teardown_app.domain.ledger.entry import Entry, different, display_order, settled
from teardown_app.domain.ledger.facets import Facet, facet_of, severity
from teardown_app.domain.ledger.judged import Judged
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.ledger.same import connected


def _in_display(entry: Entry) -> tuple[str, str, int, str]:
    return display_order(entry.record)


class Facts(Judged):
    """Records of one journal name, folded into values."""

    generation = 0
    """Counts how often all was concluded anew; what others derived from the facts is then out of date."""

    def _clear(self) -> None:
        super()._clear()
        self.generation += 1
        self._told: dict[Cell, list[Entry]] = {}
        self._heads: dict[Cell, tuple[Entry, ...]] = {}
        self.memory: dict[Any, Any] = {}
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
        self._forget()

    def _forget(self) -> None:
        self.memory.clear()
        self._forget_groups()
        self._forget_worth()

    def _again(self, records: list[Record]) -> set[str]:
        """Takes all in anew, each tablet's in the order of their numbers."""
        self._clear()
        for record in sorted(records, key=lambda record: (record.dev, record.seq, record.h)):
            self._add(record)
        self._forget()
        return set(self._cells)

    def _add(self, record: Record) -> set[str]:
        self._keep(record)
        self.memory.clear()
        is_news = self.knowing.is_news(record)
        if self.knowing.take(record):
            self.judge_again()
        touched = self._write(record, is_news)
        if record.typ == "record.voided":
            touched |= self._voiding(record)
        if self._voids(record) or self._was_waited_for(record, is_news):
            self.judge_again()
        if record.typ == "part.same_as":
            self._forget_groups()
        return touched

    def _was_waited_for(self, record: Record, is_news: bool) -> bool:
        """Does what came before it rest on this record: a note of a part that it brings in, a taking back of one?"""
        if record.typ == "part.taken_off":
            return any(entry.record.typ == "part.noted" for entry in self._entries(record.ent[0], "origin"))
        return not is_news and record.body.get("origin") == "borrowed"

    def _write(self, record: Record, is_news: bool) -> set[str]:
        writes = self._understand(record)
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
                merge = facet_of(facet)
                stay = [one for one in self._heads[cell] if not self._replaces(entry, one, merge)]
                self._heads[cell] = tuple(sorted([*stay, entry], key=_in_display))

    def _voiding(self, record: Record) -> set[str]:
        """A taking back changes what holds of all that its target wrote, and nothing else."""
        touched: set[str] = set()
        for target in self._by_ref.get(str(record.body.get("record", "")), ()):
            self._effects.pop(target.h, None)
            touched |= {*target.ent, *self._forget_written(target)}
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

    def about(self, thing: str) -> list[Record]:
        """Records that name the thing, by any of its names, and have effect or were taken back; each once."""
        group = self.group(thing)
        if len(group) == 1:
            return [*self._about_by_name(thing)]
        return list({record.h: record for one in group for record in self._about_by_name(one)}.values())

    def facets(self, thing: str, prefix: str) -> list[str]:
        """Facets of a thing that begin with `prefix/`, sorted."""
        start = prefix + "/"
        names = {facet for one in self.group(thing) for facet in self._cells.get(one, ())}
        return sorted(name for name in names if name.startswith(start))

    def gone(self, thing: str, facet: str) -> list[Entry]:
        """Entries that were taken back, of all names of the thing."""
        if not self.speaks("voided"):
            return []
        written = self._of_all(self.group(thing), facet)
        return [entry for entry in written if self.effect(entry.record) == VOIDED and not self._fault(entry.record)]

    def ever(self, thing: str, facet: str) -> list[Entry]:
        """Entries of all names of the thing whose record has effect or was taken back: what can lie on a ground."""
        group = self.group(thing)
        if len(group) == 1:
            return [*self._ever_by_name(thing, facet)]
        return [entry for one in group for entry in self._ever_by_name(one, facet)]

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
            known = tuple(self.unreplaced(self.entries(thing, facet), facet, self.gone(thing, facet)))
            self._heads[cell] = known
        return known

    def unreplaced(self, entries: list[Entry], facet: str, gone: Sequence[Entry] = ()) -> list[Entry]:
        """Of these entries, those that no other one replaces. What one of `gone`, which were taken back, had replaced
        does not return where the facet says so."""
        if len(entries) + len(gone) < 2:
            return entries
        merge = facet_of(facet)
        return [
            one
            for one in entries
            if not any(other is not one and self._replaces(other, one, merge) for other in reversed(entries))
            and (merge.returns(one.value) or not any(self._replaces(other, one, merge) for other in gone))
        ]

    def _replaces(self, later: Entry, earlier: Entry, merge: Facet) -> bool:
        if not self.knowing.knew(later.record, earlier.record):
            return False
        if later.thing != earlier.thing and not self._knew_same(later, earlier):
            return False
        if merge.rule == "worst":
            return self._may_soften(later, earlier)
        return merge.replaces is None or merge.replaces(later.value, earlier.value)

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
        return self.had_right(later.record, right)

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
