"""Witness: takings back: what they take away, when they are accepted, what therefore still lies on a ground.

Written from `docs/formats/open-points.md` (sections 2 and 3) and `records.md` (Taking back) alone.
"""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_acts import ACCEPTING, asks
from tests.open_points.naive_again import Again
from tests.open_points.naive_tool import Tool

Lying = tuple[Record, str]
"""A record that may lie on a ground, and the thing for which it lies there (empty: all that it is about)."""


def reference(record: Record) -> str:
    """By which an author accepts his own narrowing, when it is not blank."""
    return str(record.body.get("reference", "")).strip()


class Back:
    """Records that were taken back."""

    def __init__(self, tool: Tool) -> None:
        self.tool, self.told, self.again = tool, tool.told, Again(tool)
        self._accepted: dict[tuple[str, str], bool] = {}
        self._releases = [each for each in self.told.entries if each.fact == "released"]
        self._concessions = [each for each in self.told.entries if each.fact == "concession"]

    # -- acceptances of any narrowing ---------------------------------------------------------------

    def acceptors(self, record: Record, subject: str, right: str, *, by_release: bool) -> list[Record]:
        """ "**Accepted** it is by any of": its author, "he had the second right and the record's `reference` is not
        blank"; "a concession of its key, whose author had the right *concede* or the second right"; "about a part, and
        not owner nor borrowed nor covered: a part.released of that part, today valid or not". "The author of a
        concession or release had seen the record"."""
        told = self.told
        found = [record] if reference(record) and told.has_right(record, right) else []
        names = told.names(subject)
        keys = {f"{ACCEPTING}{name.removeprefix('@')}|{record.ref}" for name in names}
        for entry in self._concessions:
            author = entry.record
            if entry.value["key"] in keys and told.saw(author, record):
                found += [author] if told.has_right(author, "concede") or told.has_right(author, right) else []
        for entry in self._releases if by_release else []:
            if entry.name in names and told.saw(entry.record, record):
                found.append(entry.record)
        return found

    def had_seen_all(self, acceptor: Record, cells: Iterable[Record]) -> bool:
        """ "It is conceded while he had seen every record that writes its cells, taken back or not"."""
        return all(each == acceptor or self.told.saw(acceptor, each) for each in cells)

    # -- the point of a taking back -------------------------------------------------------------------

    def subjects(self, target: Record) -> list[str]:
        """ "About places: one for each place in its `ent` (of a taking back: in that of T). About parts: one for each
        part." "A record taken back, that was about a part and a place, is about the place."."""
        places = [thing for thing in dict.fromkeys(target.ent) if thing.startswith("@")]
        return places or sorted({self.told.one(thing) for thing in target.ent})

    def is_point(self, target: Record, subject: str) -> bool:
        """ "taking back X of a record T that asked, of `added` above zero, or of one that said one of the facts above:
        always; not for a fact where the same value still holds; not when it is *recorded again*"."""
        narrows = asks(target) or bool(self.again.facts_lost(target, subject))
        return bool(self.told.takers(target)) and narrows and not self.again.is_recorded_again(target, subject)

    def right(self, target: Record, subject: str) -> str:
        """ "release; office where the fact is owner, or an origin that is or was *borrowed*"."""
        lost = (
            self.again.facts_lost(target, subject) if self.is_point(target, subject) else self.again.facts_said(target)
        )
        if "owner" in lost:
            return "office"
        entries = [*self.told.all(subject, "origin"), *self.told.all_gone(subject, "origin")]
        before = [each for each in entries if each.record == target or self.told.saw(target, each.record)]
        return "office" if "origin" in lost and any(each.value == "borrowed" for each in before) else "release"

    # -- what is accepted, and what lies on grounds ------------------------------------------------------

    def accepting(self, target: Record, subject: str) -> list[tuple[Record, list[Record]]]:
        """Takings back that somebody accepted, and who; of one that is no point "by its author only"."""
        right, is_point = self.right(target, subject), self.is_point(target, subject)
        found = []
        for void in self.told.takers(target):
            by_release = not subject.startswith("@") and right != "office"
            those = self.acceptors(void, subject, right, by_release=by_release)
            those = [each for each in those if (is_point or each == void) and self.had_seen_all(each, [target, void])]
            found += [(void, those)] if those else []
        return found

    def is_accepted(self, target: Record, subject: str) -> bool:
        """Whether the taking back of a record is accepted for one thing it was about."""
        if (target.ref, subject) not in self._accepted:
            self._accepted[target.ref, subject] = bool(self.accepting(target, subject))
        return self._accepted[target.ref, subject]

    def lies(self, record: Record, thing: str = "") -> bool:
        """ "On a ground lie the records of the table that have effect, replaced or not. Of a record T of the table that
        was taken back: T lies there until X is accepted; of X about several parts or places each by itself"."""
        if not self.told.takers(record):
            return True
        subjects, one = self.subjects(record), self.told.one(thing) if thing else ""
        return not all(self.is_accepted(record, each) for each in ([one] if one in subjects else subjects))

    def unseen(self, verdict: Record, ground: Iterable[Lying]) -> list[Record]:
        """What lies on a ground and the author of a verdict had not seen, "itself left out". "X lies there for a
        verdict whose author had seen T, unless T asked"."""
        found = []
        for record, thing in ground:
            if record == verdict:
                continue
            if not self.told.saw(verdict, record):
                found += [record] if self.lies(record, thing) else []
            elif not asks(record):
                takers = [each for each in self.told.takers(record) if each != verdict]
                found += [each for each in takers if not self.told.saw(verdict, each)]
        return found

    def stands(self, verdict: Record, ground: Iterable[Lying]) -> bool:
        """ "it counts only while its author had seen every record on its ground"."""
        return not self.unseen(verdict, ground)
