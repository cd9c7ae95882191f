"""Witness: narrowings, what they are measured against, and whether they are accepted.

Written from `docs/formats/open-points.md` (section 3) alone, row by row of its table.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from teardown_app.domain.bill.bill import GATES
from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_again import FACTS
from tests.open_points.naive_entries import Entry, decides
from tests.open_points.naive_ground import Ground
from tests.open_points.naive_hardware import Hardware
from tests.open_points.naive_readings import AGAIN
from tests.open_points.naive_said import MAKERS, SCOPE
from tests.open_points.naive_work import Work

MILDNESS = {"in": 0, "left": 1, "out": 2}

Narrows = Callable[[Entry, Any], bool]
"""Whether an entry narrows against an earlier entry, or against the bill (None)."""


class Narrowing(NamedTuple):
    """One narrowing of one record on one place or part; `which` is the record that the point names."""

    record: Record
    subject: str
    right: str
    cells: tuple[Record, ...]


class Narrowings:
    """All narrowings that hold today."""

    def __init__(self, ground: Ground, work: Work, hardware: Hardware) -> None:
        self.ground, self.work, self.hardware = ground, work, hardware
        self.tool, self.told, self.back = ground.tool, ground.told, ground.back
        self._all: list[Narrowing] = []
        self._known = False

    def all(self) -> list[Narrowing]:
        """Every one; "Of several narrowings of one record on one part there is one point; it needs the right of the
        graver (office before release)"."""
        if self._known:
            return self._all
        rows = [self._scope, self._facts, self._same_as, self._covered, self._accepts, self._done, self._counts,
                self._lost]  # fmt: skip
        found: dict[tuple[str, str], Narrowing] = {}
        for narrowing in (each for row in rows for each in row()):
            key = (narrowing.record.ref, narrowing.subject)
            found[key] = _put_together(found[key], narrowing) if key in found else narrowing
        self._all, self._known = list(found.values()), True
        return self._all

    def acceptors(self, one: Narrowing) -> list[Record]:
        """Who accepted it, at any time. What of a part the office accepts is "owner", "borrowed" and "covered"."""
        by_release = not one.subject.startswith("@") and one.right != "office"
        return self.back.acceptors(one.record, one.subject, one.right, by_release=by_release)

    def is_conceded(self, one: Narrowing) -> bool:
        """ "It is conceded while he had seen every record that writes its cells, taken back or not"."""
        return any(self.back.had_seen_all(each, one.cells) for each in self.acceptors(one))

    # -- measured against ----------------------------------------------------------------------------

    def against(
        self, entry: Entry, cell: list[Entry], narrows: Narrows, accepted: Callable[[Entry], bool]
    ) -> list[Any]:
        """What an entry narrows against: "e runs over the entries of the cell that the narrowing's author had seen; but
        nothing older than the last accepted narrowing of the cell that he had seen: once one *was accepted*, it stands
        in the place of the bill and of every entry its own author had seen"."""
        saw = self.told.saw
        seen = [each for each in cell if each.record != entry.record and saw(entry.record, each.record)]
        last = [e for e in seen if not self.told.takers(e.record) and self._was(e, cell, narrows, accepted)]
        seen = [each for each in seen if not any(saw(one.record, each.record) for one in last)]
        bill = [] if last else [None]
        return [each for each in [*seen, *bill] if narrows(entry, each)]

    def _was(self, entry: Entry, cell: list[Entry], narrows: Narrows, accepted: Callable[[Entry], bool]) -> bool:
        """ "*Was accepted*: one of the acceptances below is there, for good, whatever came into the cell since."."""
        return accepted(entry) and bool(self.against(entry, cell, narrows, accepted))

    def measured(self, entries: list[Entry], gone: list[Entry]) -> list[Entry]:
        """ "An entry that was taken back is an e too while its taking back is neither accepted nor a point."."""
        return entries + [each for each in gone if self._is_still_measured(each)]

    def _is_still_measured(self, entry: Entry) -> bool:
        subjects = self.back.subjects(entry.record)
        mine = [self.told.one(entry.name)] if self.told.one(entry.name) in subjects else subjects
        return not any(self.back.is_accepted(entry.record, e) or self.back.is_point(entry.record, e) for e in mine)

    # -- scope words ---------------------------------------------------------------------------------

    def _scope(self) -> Iterator[Narrowing]:
        """ "some P beneath the named place, or it, is untouched, not temporary, would else be asked, is *left* or *out*
        today, the word is unreplaced for P, and it is milder than e (in > left > out; the bill says in)"; "one for each
        place in its `ent` at or beneath which it narrows"."""
        for key in self.tool.places:
            there = [*self.ground.scope_entries(key), *self.ground.scope_entries(key, gone=True)]
            cells = tuple(each.record for each in there)
            for entry in self.narrowing_words(key):
                yield Narrowing(entry.record, _place_of_word(entry), "office", cells)

    def narrowing_words(self, key: str) -> list[Entry]:
        """Words that narrow what is asked of one place. Of an option taken away by an amendment: "at its places a word
        narrows as far as protective readings are asked there", which a *left* takes nothing from."""
        if self.ground.scope(key) == "in" or not self._is_asked(key):
            return []
        gone = self.ground.scope_entries(key, gone=True)
        cell = self.measured(self.ground.scope_entries(key), gone)
        mild = ["out"] if self.ground.is_out_by_option(key) else ["left", "out"]
        words = [entry for entry in self.ground.words(key) if SCOPE[entry.value["as"]] in mild]
        return [e for e in words if self.against(e, cell, _is_milder, lambda one: self._is_word_accepted(key, one))]

    def _is_asked(self, key: str) -> bool:
        """Whether anything "would else be asked" of a place, but for the words."""
        if not self.ground.is_out_by_option(key):
            return True
        protective = any(self.told.is_protective(check) for check, _, _ in self.work.place_readings(key))
        return protective and not self.tool.opening_lacked_option(key)

    def _is_word_accepted(self, key: str, entry: Entry) -> bool:
        """ "of a *left* only while it holds; and of *came with the unit*, at a place, only while nothing touches that
        place which the fitting's author had not seen"."""
        if SCOPE[entry.value["as"]] == "left" and not self.ground.left_holds(key, entry):
            return False
        if entry.value["as"] == "came with the unit" and self.ground.is_touched_since(key, entry):
            return False
        return bool(self.back.acceptors(entry.record, _place_of_word(entry), "office", by_release=False))

    def reaches_protective(self, key: str) -> bool:
        """ "a word that says a place is out reaches its protective readings only while it is accepted; an option taken
        away by an amendment reaches neither, only one that the opening already lacked"."""
        if self.ground.is_out_by_option(key):
            if self.tool.opening_lacked_option(key):
                return True
            if {SCOPE[entry.value["as"]] for entry in self.ground.words(key)} != {"out"}:
                return False
        points = [(entry.record, _place_of_word(entry)) for entry in self.narrowing_words(key)]
        return all(self.is_conceded(each) for each in self.all() if (each.record, each.subject) in points)

    # -- facts of a part -----------------------------------------------------------------------------

    def _facts(self) -> Iterator[Narrowing]:
        """ "`part_number`, `out_of`, `origin`, `set_mark` of a part, in a note or where it is brought in: it is another
        value than e"; "`owner`: it is another value than e; first said is free"."""
        for part in self._all_parts():
            for fact in FACTS:
                for entry in self.told.left(part, fact):
                    if self._fact_against(entry):
                        right = self._fact_right(entry.record, part)
                        yield Narrowing(entry.record, part, right, self._cell_of(part, fact))

    def _all_parts(self) -> list[str]:
        noted = {self.told.one(e.name) for e in self.told.entries if e.fact in FACTS and not e.name.startswith("@")}
        return sorted(noted | set(self.tool.parts))

    def _fact_cell(self, name: str, fact: str) -> list[Entry]:
        return self.measured(self.told.all(name, fact), self.told.all_gone(name, fact))

    def _fact_against(self, entry: Entry) -> list[Any]:
        return self.against(entry, self._fact_cell(entry.name, entry.fact), self._is_another, self._is_fact_accepted)

    def _is_another(self, entry: Entry, earlier: Any) -> bool:
        said = self._bill_says(entry) if earlier is None else earlier.value
        return said is not None and bool(entry.value != said)

    def _bill_says(self, entry: Entry) -> str | None:
        """ "The bill says: an origin that nobody gave, and that of a part that a part.taken_off brought in, is *as
        received*; the part number of a part that goes back and came out of a place of the bill is that line's. Nothing
        else: first said is free". Whoever brings a part in gives its origin."""
        part = self.told.one(entry.name)
        if entry.fact == "part_number":
            return self.tool.number_of_its_line(part) or None
        if entry.fact != "origin" or self.tool.came_off(part):
            return "as received" if entry.fact == "origin" else None
        given = [each for each in self._fact_cell(entry.name, "origin") if self.told.saw(entry.record, each.record)]
        return None if given or entry.record.typ in MAKERS else "as received"

    def _fact_right(self, record: Record, part: str) -> str:
        """The graver of what a record needs on one part: "office for an origin where e is *borrowed*"."""
        entries = [entry for fact in FACTS for entry in self.told.all(part, fact) if entry.record == record]
        for entry in entries:
            found = self._fact_against(entry)
            borrowed = entry.fact == "origin" and any(e is not None and e.value == "borrowed" for e in found)
            if found and (entry.fact == "owner" or borrowed):
                return "office"
        return "release"

    def _is_fact_accepted(self, entry: Entry) -> bool:
        part = self.told.one(entry.name)
        right = self._fact_right(entry.record, part)
        return bool(self.back.acceptors(entry.record, part, right, by_release=right != "office"))

    def _cell_of(self, name: str, fact: str) -> tuple[Record, ...]:
        """ "every record that writes its cells, taken back or not"."""
        return tuple(entry.record for entry in [*self.told.all(name, fact), *self.told.all_gone(name, fact)])

    # -- same as, covered ------------------------------------------------------------------------------

    def _same_as(self) -> Iterator[Narrowing]:
        """ "always, unless both parts were brought in by part.taken_off as out of one place, neither author having seen
        the other"."""
        joins = [(entry.value, entry.record) for entry in self.told.entries if entry.fact == "same_as"]
        for (one, other), record in joins:
            if one != other and not self._is_one_come_off_twice(one, other):
                yield Narrowing(record, self.told.one(one), "release", (record,))

    def _is_one_come_off_twice(self, one: str, other: str) -> bool:
        made = [each for each in self.tool.makers if not self.told.takers(each)]
        first = next((each for each in made if each.ent[0] == one), None)
        second = next((each for each in made if each.ent[0] == other), None)
        if not first or not second or {first.typ, second.typ} != {"part.taken_off"}:
            return False
        place = first.body.get("out_of")
        apart = not self.told.saw(first, second) and not self.told.saw(second, first)
        return bool(place) and second.body.get("out_of") == place and apart

    def _covered(self) -> Iterator[Narrowing]:
        """ "finding that is *covered*: always", while nothing replaced that answer."""
        for part, finding in self.work.all_findings():
            for entry in self.told.left(finding, "approval"):
                if entry.record.typ == "finding.noted":
                    yield Narrowing(entry.record, part, "office", self._cell_of(finding, "approval"))

    # -- readings, operations --------------------------------------------------------------------------

    def _accepts(self) -> Iterator[Narrowing]:
        """ "the reading (thing, check, spot, when *finished, new, fitted,* a gate, *… again*): e is *reject* or
        *inconclusive* in one state with it"; not of a protective check, where it "counts for nothing"."""
        for name, fact in self._facts_of_all("check/"):
            _, check, _, when = fact.split("/", 3)
            asked = when in ("finished", "new", "fitted", *GATES) or when.endswith(AGAIN)
            if not asked or self.told.is_protective(check):
                continue
            cell = self.measured(self.told.all(name, fact), self.told.all_gone(name, fact))
            for entry in self.told.left(name, fact):
                if self.against(entry, cell, self.work.is_over_a_graver, self._is_plainly_accepted):
                    yield Narrowing(entry.record, name, "release", self._cell_of(name, fact))

    def _done(self) -> Iterator[Narrowing]:
        """ "*done*: the pass: it replaces two *done* that had not seen each other"."""
        for name, fact in self._facts_of_all("operation/"):
            cell = self.measured(self.told.all(name, fact), self.told.all_gone(name, fact))
            for entry in self.told.left(name, fact):
                if entry.value == "done" and self._replaces_two(entry, cell):
                    yield Narrowing(entry.record, name, "release", self._cell_of(name, fact))

    def _replaces_two(self, entry: Entry, cell: list[Entry]) -> bool:
        done = [each for each in cell if each.value == "done" and each.record != entry.record]
        seen = [each for each in done if self.told.replaces(entry, each)]
        saw = self.told.saw
        last = [e for e in seen if self._is_plainly_accepted(e) and self._replaces_two(e, cell)]
        seen = [each for each in seen if not any(saw(one.record, each.record) for one in last)]
        return any(
            one.record != other.record and not saw(one.record, other.record) and not saw(other.record, one.record)
            for one in seen
            for other in seen
        )

    def _is_plainly_accepted(self, entry: Entry) -> bool:
        subject = self.told.one(entry.name)
        by_release = not subject.startswith("@")
        return bool(self.back.acceptors(entry.record, subject, "release", by_release=by_release))

    def _facts_of_all(self, begins: str) -> list[tuple[str, str]]:
        found = {(self.told.one(e.name), e.fact) for e in self.told.entries if e.fact.startswith(begins)}
        return sorted(found)

    # -- hardware --------------------------------------------------------------------------------------

    def _counts(self) -> Iterator[Narrowing]:
        """ "count: the bag: it holds, and names other places than e, or found fewer"."""
        bags = {tuple(self.hardware.bag(e.name)) for e in self.told.entries if e.fact == "found"}
        for bag in sorted(bags):
            entries = [each for name in bag for each in self.told.all(name, "found")]
            gone = [each for name in bag for each in self.told.all_gone(name, "found")]
            cell = self.measured(entries, gone)
            for entry in self.hardware.holding(list(bag)):
                if self.against(entry, cell, _counts_less, self._is_count_accepted):
                    cells = tuple(each.record for each in [*entries, *gone])
                    yield Narrowing(entry.record, entry.record.ent[0], "release", cells)

    def _is_count_accepted(self, entry: Entry) -> bool:
        return bool(self.back.acceptors(entry.record, entry.record.ent[0], "release", by_release=False))

    def _lost(self) -> Iterator[Narrowing]:
        """ "lost, found short above zero: the record: always"."""
        for entry in self.told.entries:
            if entry.fact in ("lost", "found_short") and entry.value > 0:
                yield Narrowing(entry.record, entry.record.ent[0], "release", (entry.record,))

    def differ(self, left: Iterable[Entry]) -> bool:
        """Whether two unreplaced entries differ."""
        entries = list(left)
        return any(decides(one) != decides(other) for one in entries for other in entries)


def _put_together(one: Narrowing, other: Narrowing) -> Narrowing:
    right = "office" if "office" in (one.right, other.right) else "release"
    return one._replace(right=right, cells=one.cells + other.cells)


def _place_of_word(word: Entry) -> str:
    """The place that a word names, "of *came with the unit* the place of the fitting"."""
    return word.record.ent[1] if word.value["as"] == "came with the unit" else word.name


def _is_milder(entry: Entry, earlier: Any) -> bool:
    before = SCOPE[earlier.value["as"]] if earlier is not None else "in"
    return MILDNESS[SCOPE[entry.value["as"]]] > MILDNESS[before]


def _counts_less(entry: Entry, earlier: Any) -> bool:
    if earlier is None:
        return False
    (found, places), (before, other) = entry.value, earlier.value
    return bool(places != other or found < before)
