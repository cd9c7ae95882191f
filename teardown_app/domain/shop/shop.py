"""The shop as its own records tell it: people and their rights, places, carriers, numbers issued."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from teardown_app.domain.ledger.entry import Entry, display_order, settled
from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.kinds.registers import Kept, Person
from teardown_app.domain.ledger.knowing import Knowing, Vector
from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.shop.founding import NONE, Foundings


def _oldest_first(entry: Entry) -> tuple[str, str, int, str]:
    return display_order(entry.record)


def rights_held(person: Person | None, day: str, clk: str) -> tuple[str, ...]:
    """The rights of a person for what is recorded on a day (`2026-03-14`) by a clock in that state, in the order of
    `RIGHTS`: the same before an act and afterwards, for jobs and registers. Rights that end on a day have no effect by
    a clock that is not right, for it proves no day."""
    if person is None or person.revoked:
        return ()
    if person.until and (clk != "ok" or day > person.until):
        return ()
    return tuple(right for right in RIGHTS if right in person.rights)


def _gives(person: Person | None, right: str, record: Record) -> bool:
    return right in rights_held(person, record.wall[:10], record.clk)


class Shop(Facts):
    """State of the shop's journal. Rights are judged as a record's author had seen the shop."""

    def __init__(self) -> None:
        self.foundings = Foundings(self)
        super().__init__(self.judge_right)

    def _clear(self) -> None:
        super()._clear()
        self._self_registered: list[Record] = []
        self._forget_rights()

    def _add(self, record: Record) -> set[str]:
        if record.typ == "person.given" and record.body.get("code") == record.act:
            self._self_registered.append(record)
        return super()._add(record)

    def _forget_rights(self) -> None:
        self.foundings.forget()
        self._rights: dict[tuple[Any, ...], Any] = {}
        self._founded: dict[str, bool] = {}
        self._unjudged: list[Record] | None = None
        """Records of people that nobody asked about yet; None for all that are here."""

    def take(self, record: Record) -> set[str]:
        """Adds a record. Whoever had seen it before it came here may have had other rights than it seemed."""
        if record.h in self.records:
            return set()
        was_known_of = self.knowing.wanted.get(record.dev, 0) >= record.seq
        touched = super().take(record)
        self._rights.clear()
        if was_known_of or self.foundings.is_changed_by(record):
            self.judge_again()
        elif record.typ == "person.given" and self._unjudged is not None:
            self._unjudged.append(record)
        return touched

    def _forget(self) -> None:
        super()._forget()
        self._forget_rights()

    # foundings

    def self_registered(self) -> list[Record]:
        """Records by which somebody gave rights to himself: foundings, and what he said of himself later."""
        return self._self_registered

    def is_founding(self, record: Record) -> bool:
        """Did a first person register himself, who had seen nobody who counts?"""
        known = self._founded.get(record.h)
        if known is None:
            known = self._founded[record.h] = self._is_founding(record)
        return known

    def _is_founding(self, record: Record) -> bool:
        if record.h in self._plain or record.typ != "person.given" or record.body["code"] != record.act:
            return False
        people = (one for one in self.of_kind("person.given") if self.knowing.knew(record, one))
        return all(self._fault(one) for one in people)

    # rights

    def judge_right(self, record: Record, right: str, knowing: Knowing) -> bool:
        """Had the author of this record (of a job, or of the shop) that right as he had seen the shop?"""
        if record.job == SHOP:
            return self._judge_own(record, right)
        known = tuple(item for item in knowing.vector(record).items() if item[0].startswith(SHOP))
        key = (record.act, known)
        if key not in self._rights:
            vector = dict(known)
            self._rights[key] = self._person(record.act, lambda one: self.was_seen(vector, one))
        return _gives(self._rights[key], right, record)

    def was_seen(self, vector: Vector, one: Record) -> bool:
        """Had somebody who knew that much of other journals seen this record of the shop?"""
        return self.knowing.reaches(vector.get(f"{SHOP}/{one.dev}", ()), one)

    def _judge_own(self, record: Record, right: str) -> bool:
        """A new shop's first person may give himself everything. Others have what people of the record's own founding
        gave, and of those that a joining, which the author had seen, names."""
        if self.is_founding(record):
            return True
        judging = self._judging(record)
        return _gives(self._person(record.act, lambda one: self._had_seen(record, one, judging)), right, record)

    def _had_seen(self, record: Record, one: Record, judging: set[str]) -> bool:
        return self.knowing.knew(record, one) and self.foundings.at(one) in judging

    def _judging(self, record: Record) -> set[str]:
        """Foundings whose people judge a record of the shop."""
        joined = (one for one in self.of_kind("founding.joined") if self.knowing.knew(record, one))
        return self._with_joined(self.foundings.at(record), joined)

    def _with_joined(self, own: str, joinings: Iterable[Record]) -> set[str]:
        """A founding and those that its tablets joined by one of these records."""
        here = (one for one in joinings if self.foundings.at(one) == own and self.good(one))
        return {own, *(one.body["founding"] for one in here)} - {NONE}

    def _person(self, code: str, seen: Callable[[Record], bool]) -> Person | None:
        """What held of a person for somebody who had seen that much; None where he knew of no such person."""
        entries = sorted(self._entries("person:" + code, "person"), key=_oldest_first)
        known = [entry for entry in entries if seen(entry.record) and self.good(entry.record)]
        heads = self.unreplaced(known, "person")
        return settled([entry.value for entry in heads], "person") if heads else None

    def _fault(self, record: Record) -> str:
        if self._unjudged != []:
            self._judge_people()
        return super()._fault(record)

    def _judge_people(self) -> None:
        """Judges records of people the oldest first: each rests on older ones, however long the line of them is."""
        records, self._unjudged = self._unjudged, []
        for record in sorted(self.of_kind("person.given") if records is None else records, key=display_order):
            self._fault(record)

    def rights_of(self, code: str, day: str, clk: str = "ok") -> tuple[str, ...]:
        """Rights that a person has on a day by a clock in that state, whoever gave them."""
        return rights_held(self.value("person:" + code, "person"), day, clk)

    def rights_at(self, dev: str, code: str, day: str, clk: str = "ok") -> tuple[str, ...]:
        """The same as people of a tablet's own founding gave them, and of those that it joined: what a stranger says of
        the same initials gives nobody rights here."""
        counting = self._with_joined(self.foundings.at_hand(dev, code), self.of_kind("founding.joined"))
        return rights_held(self._person(code, lambda one: self.foundings.at(one) in counting), day, clk)

    def people(self) -> dict[str, Person]:
        """All people known, by code."""
        return {thing.partition(":")[2]: self.value(thing, "person") for thing in self.things("person")}

    def is_qualified(self, code: str, qualification: str, day: str, clk: str) -> bool:
        """Does the person hold it on that day? Where nobody in the shop does, it is not kept and nothing is asked."""
        held = {one: (person.qualifications or {}).get(qualification) for one, person in self.people().items()}
        if not any(until is not None for until in held.values()):
            return True
        until = held.get(code)
        return until is not None and (not until or (clk == "ok" and day <= until))

    # registers

    def place(self, name: str) -> Kept | None:
        """A place in use, by its name or by the number on its label."""
        known = self.value("known_place:" + name, "known_place")
        if known and not known.out:
            return known  # type: ignore[no-any-return]
        return next((place for place in self.places() if place.number == name), None)

    def places(self) -> list[Kept]:
        """All places in use, by name."""
        return self._register("known_place")

    def carriers(self) -> list[Kept]:
        """All carriers in use, by number."""
        return self._register("carrier")

    def _register(self, facet: str) -> list[Kept]:
        values = [self.value(thing, facet) for thing in self.things(facet)]
        return [value for value in values if value and not value.out]

    def next_counter(self, letters: str, letter: str) -> int:
        """First counter that this incarnation (by its four letters) has not issued for a letter."""
        entries = self.entries("numbers:" + letters, "issued")
        return max((entry.value.next for entry in entries if entry.value.letter == letter), default=0)


class ShopOfJob(Shop):
    """The shop as a job has it in which not all tablets count: what others wrote is as if not there."""

    def __init__(self, shop: Shop, counts: Callable[[str], bool]) -> None:
        self._whole, self._tablet_counts = shop, counts
        super().__init__()
        self.take_all(shop.records.values())

    def _counts(self, record: Record) -> bool:
        return self._tablet_counts(record.dev)

    def _fault(self, record: Record) -> str:
        return self._whole._fault(record)
