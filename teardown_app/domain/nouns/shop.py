"""The shop as its own records tell it: people and their rights, places, carriers, numbers issued."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from teardown_app.domain.ledger.entry import Entry, display_order, settled
from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.knowing import Knowing
from teardown_app.domain.ledger.record import SHOP, Record

EVERYONE_MAY = {"numbers.issued"}
"""What a tablet records of itself, whoever holds it."""


def _oldest_first(entry: Entry) -> tuple[str, str, int, str]:
    return display_order(entry.record)


def _gives(person: dict[str, Any] | None, right: str, record: Record) -> bool:
    """Rights with an end are judged by the record's own day; a clock that is not right proves no day."""
    if person is None or right not in person["rights"] or person.get("revoked"):
        return False
    until = person.get("until") or ""
    return not until or (record.clk == "ok" and record.wall[:10] <= until)


class Shop(Facts):
    """State of the shop's journal. Rights are judged as a record's author had seen the shop."""

    def __init__(self) -> None:
        super().__init__(self.had_right)

    def _clear(self) -> None:
        super()._clear()
        self._forget_rights()

    def _forget_rights(self) -> None:
        self._rights: dict[tuple[Any, ...], Any] = {}
        self._unjudged: list[Record] | None = None
        """Records of people that nobody asked about yet; None for all that are here."""

    def take(self, record: Record) -> set[str]:
        """Adds a record. Whoever had seen it before it came here may have had other rights than it seemed."""
        if record.h in self.records:
            return set()
        was_known_of = self.knowing.wanted.get(record.dev, 0) >= record.seq
        touched = super().take(record)
        self._rights.clear()
        if was_known_of:
            self.judge_again()
        elif record.typ == "person.given" and self._unjudged is not None:
            self._unjudged.append(record)
        return touched

    def judge_again(self) -> None:
        super().judge_again()
        self._forget_rights()

    # rights

    def had_right(self, record: Record, right: str, knowing: Knowing) -> bool:
        """Had the author of this record (of a job, or of the shop) that right as he had seen the shop?"""
        if record.job == SHOP:
            return record.typ in EVERYONE_MAY or self._judge_own(record, right)
        known = tuple(item for item in knowing.vector(record).items() if item[0].startswith(SHOP))
        key = (record.act, known)
        if key not in self._rights:
            vector = dict(known)
            self._rights[key] = self._person(
                record.act, lambda one: self.knowing.reaches(vector.get(f"{SHOP}/{one.dev}"), one)
            )
        return _gives(self._rights[key], right, record)

    def _judge_own(self, record: Record, right: str) -> bool:
        """A new shop's first person may give himself everything."""

        def seen(one: Record) -> bool:
            return self.knowing.knew(record, one)

        person = self._person(record.act, seen)
        if person is None and not self._knew_somebody(seen):
            return record.typ == "person.given" and record.body.get("code") == record.act
        return _gives(person, right, record)

    def _person(self, code: str, seen: Callable[[Record], bool]) -> dict[str, Any] | None:
        """What held of a person for somebody who had seen that much; None where he knew of no such person."""
        self._judge_people()
        entries = sorted(self._entries("person:" + code, "person"), key=_oldest_first)
        known = [entry for entry in entries if seen(entry.record) and self.stood(entry.record, seen)]
        heads = self.unreplaced(known, "person")
        return settled([entry.value for entry in heads], "person") if heads else None

    def _judge_people(self) -> None:
        """Judges records of people the oldest first: each rests on older ones, however long the line of them is."""
        records, self._unjudged = self._unjudged, []
        if records is None:
            records = [entry.record for thing in self.things("person") for entry in self._entries(thing, "person")]
        for record in sorted(records, key=display_order):
            self._fault(record)

    def _knew_somebody(self, seen: Callable[[Record], bool]) -> bool:
        every = (entry.record for thing in self._things.get("person", ()) for entry in self._entries(thing, "person"))
        return any(seen(one) and self.stood(one, seen) for one in every)

    def rights_of(self, code: str, today: str) -> tuple[str, ...]:
        """Rights that a person has on a day (`2026-03-14`), in the order of `RIGHTS`."""
        person = self.value("person:" + code, "person")
        if person is None or person.get("revoked"):
            return ()
        if person.get("until") and today > person["until"]:
            return ()
        return tuple(right for right in RIGHTS if right in person["rights"])

    def people(self) -> dict[str, dict[str, Any]]:
        """All people known, by code."""
        return {thing.partition(":")[2]: self.value(thing, "person") for thing in self.things("person")}

    def is_qualified(self, code: str, qualification: str, day: str, clk: str) -> bool:
        """Does the person hold it on that day? Where nobody in the shop does, it is not kept and nothing is asked."""
        held = {one: (body.get("qualifications") or {}).get(qualification) for one, body in self.people().items()}
        if not any(until is not None for until in held.values()):
            return True
        until = held.get(code)
        return until is not None and (not until or (clk == "ok" and day <= until))

    # registers

    def place(self, name: str) -> dict[str, Any] | None:
        """A place in use, by its name or by the number on its label."""
        known = self.value("known_place:" + name, "known_place")
        if known and not known.get("out"):
            return known  # type: ignore[no-any-return]
        return next((place for place in self.places() if place.get("number") == name), None)

    def places(self) -> list[dict[str, Any]]:
        """All places in use, by name."""
        return self._register("known_place")

    def carriers(self) -> list[dict[str, Any]]:
        """All carriers in use, by number."""
        return self._register("carrier")

    def _register(self, facet: str) -> list[dict[str, Any]]:
        values = [self.value(thing, facet) for thing in self.things(facet)]
        return [value for value in values if value and not value.get("out")]

    def next_counter(self, letters: str, letter: str) -> int:
        """First counter that this incarnation (by its four letters) has not issued for a letter."""
        entries = self.entries("numbers:" + letters, "issued")
        return max((entry.value["next"] for entry in entries if entry.value["letter"] == letter), default=0)
