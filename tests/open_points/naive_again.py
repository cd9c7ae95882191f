"""Witness: what of a record that was taken back was recorded again.

Written from `docs/formats/open-points.md` (section 3, Recorded again) alone.
"""

from __future__ import annotations

from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_acts import ASKS, rows
from tests.open_points.naive_said import MAKERS
from tests.open_points.naive_tool import Tool

FACTS = ("part_number", "out_of", "origin", "set_mark", "owner")
"""Facts of a part whose taking back narrows, "first said or not"."""


def _brings_in_alike(again: Record, target: Record) -> bool:
    """ "of bringing in a part: the same kind, the same `out_of`, or, where T names none, the same label, and each of
    part number, origin, owner and set that T said, said alike"."""
    mine, theirs = target.body, again.body
    same = "out_of" if mine.get("out_of") else "number"
    said = [same, *(fact for fact in ("part_number", "origin", "owner", "set_mark") if fact in mine)]
    return again.typ == target.typ and bool(mine.get(same)) and all(theirs.get(each) == mine[each] for each in said)


def _brings_in_a_part(record: Record) -> bool:
    return record.typ in MAKERS and not record.ent[0].startswith("@")


def _pieces(record: Record) -> dict[str, int]:
    """Pieces of hardware that a record added, and that it took out; what it did not say is left out."""
    if record.typ != "hardware.moved":
        return {}
    pieces = {"added": record.body.get("added", 0), "taken out": -record.body.get("put_in", 0)}
    return {what: count for what, count in pieces.items() if count > 0}


class Again:
    """Records that say once more what was taken back."""

    def __init__(self, tool: Tool) -> None:
        self.tool, self.told = tool, tool.told
        self._once: dict[tuple[str, str], set[str]] = {}

    def facts_said(self, target: Record) -> list[str]:
        """Those of the five facts that a record said of parts."""
        speaks = target.typ in (*MAKERS, "part.noted") and not target.ent[0].startswith("@")
        return [fact for fact in FACTS if speaks and fact in target.body]

    def facts_lost(self, target: Record, subject: str) -> list[str]:
        """Facts that the target said; "not for a fact where the same value still holds"."""
        otherwise = {"origin": "as received", "part_number": self.tool.part_number(subject)}
        return [
            fact
            for fact in self.facts_said(target)
            if self.told.value(subject, fact, otherwise.get(fact)) != target.body[fact]
        ]

    def is_recorded_again(self, target: Record, subject: str) -> bool:
        """ "A record with effect of the same row of the table of acts as T, whose author had seen X, that asks at the
        same spot"; "What adds up answers once: of hardware added, screws taken out, parts brought in, lines added and
        findings"."""
        if _pieces(target) or target.typ == "finding.noted":
            return target.ref in self._answered(target, subject)
        if _brings_in_a_part(target) or target.typ == "line.added":
            return target.ref in self._answered(target, "")
        return bool(self._answers(target, subject))

    def _answers(self, target: Record, subject: str) -> list[Record]:
        """Records that could answer for one that was taken back, by name."""
        takers = self.told.takers(target)
        there = [e for e in self.told.written if not self.told.takers(e) and any(self.told.saw(e, x) for x in takers)]
        found = [e for e in there if self._same_row(e, target) and self._same_spot(e, target, subject)]
        return sorted(found, key=lambda each: each.ref)

    def _same_row(self, again: Record, target: Record) -> bool:
        """The same row; what a hardware.moved asked is weighed piece by piece, so each of its rows by itself."""
        wanted = [] if _pieces(target) else [row for row in rows(target) if row.back == ASKS]
        return all(row in rows(again) for row in wanted) if wanted else again.typ == target.typ

    # -- the same spot ---------------------------------------------------------------------------------

    def _same_spot(self, again: Record, target: Record, subject: str) -> bool:
        """ "it writes the same cell of the same thing or place (every place of the bag); of hardware added: at the same
        place; of a line added: the same parent and part number; of a finding: the same part and word; of a taking out:
        the same part and place; of a joint opened: the same places"."""
        typ, mine, theirs = target.typ, target.body, again.body
        if _brings_in_a_part(target):
            return _brings_in_alike(again, target)
        if typ == "line.added":
            return all(theirs.get(name) == mine.get(name) for name in ("parent", "part_number"))
        if typ == "part.taken_out":
            same_part = self.told.one(again.ent[0]) == self.told.one(target.ent[0])
            return same_part and again.ent[1] == target.ent[1]
        if typ in ("joint.opened", "hardware.moved", "hardware.counted"):
            return set(self._places(target)) <= set(self._places(again))
        about = subject in {self.told.one(thing) for thing in again.ent}
        if typ == "finding.noted":
            return about and theirs.get("word") == mine.get("word")
        facts = self.facts_lost(target, subject)
        return about and self._cells(target) == self._cells(again) and all(fact in theirs for fact in facts)

    def _places(self, record: Record) -> list[str]:
        return [thing for thing in record.ent if thing.startswith("@")]

    def _cells(self, record: Record) -> tuple[object, ...]:
        """Check, spot and when; route, operation and pass."""
        names = ("check", "spot", "when", "route", "operation", "pass")
        return tuple(record.body.get(name, "") for name in names)

    # -- what adds up answers once -----------------------------------------------------------------------

    def _answered(self, target: Record, subject: str) -> set[str]:
        """Of all records taken back like this one (at one place, on one part where one is named) those answered."""
        if (target.typ, subject) not in self._once:
            gone = [each for each in self.told.written if each.typ == target.typ and self.told.takers(each)]
            mine = [e for e in gone if not subject or subject in {self.told.one(thing) for thing in e.ent}]
            mine = sorted((e for e in mine if e.typ != "hardware.moved" or _pieces(e)), key=lambda each: each.ref)
            share = self._piece_by_piece if target.typ == "hardware.moved" else self._one_by_one
            self._once[target.typ, subject] = share(mine, subject)
        return self._once[target.typ, subject]

    def _one_by_one(self, gone: list[Record], subject: str) -> set[str]:
        """ "the records taken back at one spot are taken by name, and each takes the first by name of the records that
        recorded it again and that no other one took"."""
        answered, taken = set[str](), set[str]()
        for target in gone:
            free = [each.ref for each in self._answers(target, subject) if each.ref not in taken]
            if free:
                taken.add(free[0])
                answered.add(target.ref)
        return answered

    def _piece_by_piece(self, gone: list[Record], subject: str) -> set[str]:
        """ "of hardware added and screws taken out each takes as many pieces as it said, out of one or several such
        records, or none; who said both has to get both"."""
        answered = set[str]()
        free = {each.ref: _pieces(each) for each in self.told.written}
        for target in gone:
            offers = [free[each.ref] for each in self._answers(target, subject)]
            wanted = _pieces(target)
            if all(sum(offer.get(what, 0) for offer in offers) >= count for what, count in wanted.items()):
                answered.add(target.ref)
                for what, count in wanted.items():
                    _take(offers, what, count)
        return answered


def _take(offers: list[dict[str, int]], what: str, count: int) -> None:
    """Take pieces out of the first of these offers that still have some."""
    for offer in offers:
        took = min(count, offer.get(what, 0))
        offer[what], count = offer.get(what, 0) - took, count - took
