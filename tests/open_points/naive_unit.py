"""Witness: which unit a record beneath a place is of, and therefore which part fills a place.

Written from `docs/formats/open-points.md` (section 1, Part, Counts for the unit) alone.
"""

from __future__ import annotations

from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_back import Back
from tests.open_points.naive_said import GONE
from tests.open_points.naive_tool import Tool


class Units:
    """What sits in which place, and which units are gone."""

    def __init__(self, tool: Tool, back: Back) -> None:
        self.tool, self.told, self.back = tool, tool.told, back
        self._filler: dict[str, str | None] = {}
        self._lost: dict[str, list[str]] = {}
        self._ends: dict[tuple[str, str], list[Record]] = {}

    # -- fills -----------------------------------------------------------------------------------------

    def filler(self, key: str) -> str | None:
        """ "It *fills* a place for a part or assembly when all unreplaced entries on the place's side name that part,
        all on the part's side name that place, and one of the unreplaced fittings of it there *counts for the
        unit*."."""
        if key not in self._filler:
            self._filler[key] = self._filling(key)
        return self._filler[key]

    def _filling(self, key: str) -> str | None:
        part = self._said_by_both(key)
        if part is None:
            return None
        fittings = [*self.told.left("@" + key, "filled"), *self.told.left(part, "fit")]
        return part if any(self.counts(entry.record, key) for entry in fittings) else None

    def _said_by_both(self, key: str) -> str | None:
        """The part that all entries of the place's side name, and whose own all name that place."""
        named = self.tool.named_at(key)
        if self.tool.places[key].kind not in ("part", "assembly") or len(named) != 1 or not named[0]:
            return None
        there = {entry.value for entry in self.told.left(named[0], "fit")}
        return named[0] if there == {"@" + key} else None

    def went_with_its_unit(self, part: str, key: str) -> bool:
        """ "a part that both sides say is there, and that went with its unit": no fitting of it there counts."""
        return self._said_by_both(key) == part and not self.filler(key)

    def filled_by(self, part: str) -> list[str]:
        """Places that a part fills."""
        return [key for key in self.tool.places if self.filler(key) == part]

    # -- counts for the unit ---------------------------------------------------------------------------

    def counts(self, record: Record, key: str) -> bool:
        """ "A record about a place *counts for the unit* when for each U that a place above has lost its author had
        seen, for each part.fitted of U there, an end whose author had seen that fitting; where there is none, any
        end."."""
        return all(
            self._knew_the_end(record, part, above) for above in self.tool.above(key) for part in self.lost(above)
        )

    def _knew_the_end(self, record: Record, part: str, key: str) -> bool:
        known = [each for each in self.ends(part, key) if self.told.saw(record, each)]
        fittings = self._fittings(part, key)
        if not fittings:
            return bool(known)
        return all(any(self.told.saw(end, fitting) for end in known) for fitting in fittings)

    def lost(self, key: str) -> list[str]:
        """ "A has *lost* the part U when U came out of A or a part.fitted of U at A is there; U does not fill A; and a
        part.fitted of another part at A is there, or U does not go back, or it was handed over more often than given
        back."."""
        if key not in self._lost:
            fitted = {self._fitted(each) for each in self._fitted_at(key)}
            gone = {*self.tool.came_out(key), *fitted} - {self.filler(key)}
            self._lost[key] = [part for part in sorted(gone) if fitted - {part} or self._is_away(part)]
        return self._lost[key]

    def _is_away(self, part: str) -> bool:
        return not self.tool.goes_back(part) or self.tool.is_handed_over(part)

    def _fitted_at(self, key: str) -> list[Record]:
        """ "A part.fitted *is there* when it has effect, or was taken back and that is not accepted."."""
        there = [each for each in self.told.written if each.typ == "part.fitted" and each.ent[1] == "@" + key]
        return [each for each in there if self.back.lies(each, "@" + key)]

    def _fittings(self, part: str, key: str) -> list[Record]:
        return [each for each in self._fitted_at(key) if self._fitted(each) == part]

    def _fitted(self, record: Record) -> str:
        return self.told.one(record.ent[0])

    # -- ends ------------------------------------------------------------------------------------------

    def ends(self, part: str, key: str) -> list[Record]:
        """All ends of a part at a place: those that have effect, and fittings of other parts that are there."""
        if (part, key) not in self._ends:
            there = [each for each in self.told.written if not self.told.takers(each)]
            found = [each for each in there if self._is_end(each, part, key)] + self._meant_otherwise(part, key)
            self._ends[part, key] = found + self._other_fittings(part, key) + self._fittings_taken_back(part, key)
        return self._ends[part, key]

    def _is_end(self, record: Record, part: str, key: str) -> bool:
        """ "a part.taken_out of U at A; a part.fitted of U at another place; a disposition.given of U as spare, return
        unrepaired or scrap; a goods.handed_over of U"."""
        mine = part in {self.told.one(thing) for thing in record.ent}
        if record.typ == "part.taken_out":
            return mine and record.ent[1] == "@" + key
        if record.typ == "part.fitted":
            return mine and record.ent[1] != "@" + key
        if record.typ == "disposition.given":
            return mine and record.body["as"] in GONE
        return record.typ == "goods.handed_over" and mine

    def _other_fittings(self, part: str, key: str) -> list[Record]:
        """ "a part.fitted of another part at A that is there"."""
        return [each for each in self._fitted_at(key) if self._fitted(each) != part]

    def _meant_otherwise(self, part: str, key: str) -> list[Record]:
        """ "a record that says another place than A as `meant_for` of U"; "where no part.fitted of U at A is there, a
        record that says A as `meant_for` of another part". What is no place here is no other place."""
        meant = [each for each in self.told.entries if each.fact == "meant_for" and each.value in self.tool.places]
        away = [e.record for e in meant if self.told.one(e.name) == part and e.value != key]
        if self._fittings(part, key):
            return away
        return away + [e.record for e in meant if self.told.one(e.name) != part and e.value == key]

    def _fittings_taken_back(self, part: str, key: str) -> list[Record]:
        """ "a taking back of its part.fitted at A", accepted or not."""
        there = [each for each in self.told.written if each.typ == "part.fitted" and each.ent[1] == "@" + key]
        return [void for each in there if self._fitted(each) == part for void in self.told.takers(each)]
