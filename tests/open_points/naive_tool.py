"""Witness: the tool's places, what is in scope, which part fills which place.

Written from `docs/formats/open-points.md` (Words used below) alone.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from teardown_app.domain.bill.bill import Bill, Line
from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_entries import SCOPE, Entry, Told

Bills = Callable[[str], Bill | None]


def shown_by(record: Record) -> tuple[str, str, int, str]:
    """The order of lists."""
    return record.hlc, record.dev, record.seq, record.h


class Place(NamedTuple):
    """One place, of the bill or added on the job."""

    key: str
    parent: str
    kind: str
    count: int | None
    line: Line
    added: bool = False


class Tool:
    """The places of one tool and what the records say of them."""

    def __init__(self, told: Told, bills: Bills) -> None:
        self.told = told
        self.bill = bills(self._bill_named()) or Bill("", "")
        self.places = {
            each.key: Place(each.key, each.parent, each.line.kind, each.count, each.line)
            for each in self.bill.positions.values()
        }
        self._add_lines()

    def opening(self) -> Record | None:
        """The record that opened the job: that of the tablet that issued the job's number."""
        number = self.told.number
        found = [entry.record for entry in self.told.entries if entry.fact == "opened"]
        own = [each for each in found if (each.body["number"], each.body["letters"]) == (number, number[1:5])]
        return min(own, key=lambda each: (each.seq, each.h), default=None)

    def _bill_named(self) -> str:
        opening = self.opening()
        return opening.body["bill"] if opening else ""

    def _add_lines(self) -> None:
        added = [entry for entry in self.told.entries if entry.fact == "line" and entry.name.startswith("@")]
        for _ in added:
            for entry in sorted(added, key=lambda each: shown_by(each.record)):
                key, parent = entry.name[1:], entry.value["parent"]
                if key not in self.places and (not parent or parent in self.places):
                    line = Line(key, parent, 0, entry.value["part_number"])
                    self.places[key] = Place(key, parent, "part", None, line, added=True)

    def above(self, key: str) -> list[str]:
        """Places above one, the nearest first."""
        found = []
        while key in self.places and self.places[key].parent:
            key = self.places[key].parent
            found.append(key)
        return found

    def beneath(self, key: str) -> list[str]:
        """All places beneath one."""
        return [each for each in self.places if key in self.above(each)]

    def scope(self, key: str) -> str:
        """in, left or out."""
        if self.lacks_option(key):
            return "out"
        words = [self._counts_as(key, entry) for entry in self.scope_entries(key)]
        return "in" if not words or "in" in words else "left" if "left" in words else "out"

    def lacks_option(self, key: str) -> bool:
        has = {option.strip().casefold() for option in self.told.value("job", "options", [])}
        for each in [key, *self.above(key)]:
            wanted = {one.strip().casefold() for one in self.places[each].line.option.split(";") if one.strip()}
            if wanted and not wanted & has:
                return True
        return False

    def scope_entries(self, key: str) -> list[Entry]:
        """What was said of a place or anything above it, and nothing replaced."""
        there = [entry for each in [key, *self.above(key)] for entry in self.told.all("@" + each, "scope")]
        return [one for one in there if not any(self.told.saw(other.record, one.record) for other in there)]

    def _counts_as(self, key: str, entry: Entry) -> str:
        counts = SCOPE[entry.value["as"]]
        if counts != "left":
            return counts
        came = self.told.all("@" + key, "came_out")
        if not all(self.told.saw(entry.record, each.record) for each in came):
            return "in"
        if entry.value["as"] == "came with the unit":
            claimed = next((found for found in map(self.claimers, self.above(key)) if found), set())
            return "left" if claimed == {self.told.one(entry.value["why"])} else "in"
        return "left"

    def in_scope(self, key: str) -> bool:
        """Whether this place has to be filled, counted, renewed."""
        return self.scope(key) == "in"

    def place_claims(self, key: str) -> list[Entry]:
        """Claims on the place's side."""
        return self.told.left("@" + key, "filled")

    def part_claims(self, name: str) -> list[Entry]:
        """Claims on the part's side."""
        return self.told.left(name, "fit")

    def claimers(self, key: str) -> set[str]:
        """Parts that claims on the place's side name."""
        return {self.told.one(entry.value) for entry in self.place_claims(key) if entry.value}

    def claims(self, name: str, key: str) -> bool:
        """Whether a part itself claims this place."""
        return any(entry.value == "@" + key for entry in self.part_claims(name))

    def filler(self, key: str) -> str | None:
        """The part that fills a place."""
        if self.places[key].kind not in ("part", "assembly"):
            return None
        named = {self.told.one(entry.value) if entry.value else "" for entry in self.place_claims(key)}
        if len(named) != 1 or "" in named:
            return None
        part = named.pop()
        return part if {entry.value for entry in self.part_claims(part)} == {"@" + key} else None

    def came_out(self, key: str) -> set[str]:
        """Parts that came out of a place, as far as that is what holds of them."""
        found = {self.told.one(entry.value) for entry in self.told.all("@" + key, "came_out")}
        return {part for part in found if self.is_part(part) and self.told.value(part, "out_of") == key}

    def is_part(self, name: str) -> bool:
        """Whether this job knows a part of this name."""
        return any(entry.value == "part" for entry in self.told.all(name, "made"))

    def goes_in_as_one(self, key: str) -> bool:
        """Whether a part has to be fitted here as a unit."""
        kind = self.places[key].kind
        if kind != "assembly":
            return kind == "part"
        return not self.beneath(key) or bool(self.came_out(key) or self.claimers(key))

    def is_filled(self, key: str) -> bool:
        """Whether nothing is missing here and beneath."""
        if not self.in_scope(key) or self.places[key].kind not in ("part", "assembly"):
            return True
        if self.goes_in_as_one(key) and self.filler(key) is None:
            return False
        return all(self.is_filled(each) for each in self.beneath(key))

    def closes_over(self, key: str) -> list[str]:
        """What a fitting here closes over: by the bill's order, and all beneath."""
        by_order = list(self.bill.closes_over(key)) if not self.places[key].added else []
        return by_order + [each for each in self.beneath(key) if each not in by_order]

    def own_place(self, name: str) -> str:
        """The place a part is meant for, else the one it came out of."""
        return self.told.value(name, "meant_for") or self.told.value(name, "out_of") or ""
