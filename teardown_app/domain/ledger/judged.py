"""What a record is worth: whether it has effect, by which right it was made, and what takes it back.

In the order of the table "Effect" of `docs/formats/records.md`. Which tablets count, which checks are protective and
what is a trial, a job says (`_counts`, `_is_protective`, `_ruled_out`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from teardown_app.domain.ledger.acts import Needed, asks, right_for, rights_to_take_back
from teardown_app.domain.ledger.cells import Cell, Cells
from teardown_app.domain.ledger.effect import MISFIT, NEWER, NO_RIGHT, UNCOUNTED, VOIDED
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.part import OF_THIS_TOOL
from teardown_app.domain.ledger.knowing import Knowing
from teardown_app.domain.ledger.record import Record

HadRight = Callable[[Record, str, Knowing], bool]
"""(record, right, who knew what) -> had its author that right, as he had seen the shop?"""


class Judged(Cells):
    """Records of one journal name, each with what it is worth.

    `judge_right` judges rights; the shop judges its own.
    """

    def __init__(self, judge_right: HadRight) -> None:
        self._judge_right = judge_right
        super().__init__()

    def _clear(self) -> None:
        super()._clear()
        self._effects: dict[str, str] = {}
        self._faults: dict[str, str] = {}
        self._goods: dict[str, bool] = {}
        self._good_about: dict[str, tuple[int, list[Record]]] = {}
        self._good_entries: dict[Cell, tuple[int, list[Entry]]] = {}

    def _forget_worth(self) -> None:
        self._effects.clear()
        self._faults.clear()
        self._goods.clear()
        self._good_about.clear()
        self._good_entries.clear()

    def effect(self, record: Record) -> str:
        """Why the record has no effect, empty when it has."""
        known = self._effects.get(record.h)
        if known is None:
            known = self._effects[record.h] = self._judge(record)
        return known

    def why_misfit(self, record: Record) -> str:
        """What does not fit about a record that does not fit."""
        return self._misfits.get(record.h) or self._ruled_out(record)

    def _judge(self, record: Record) -> str:
        before = self._before_all(record)
        if before:
            return before
        return VOIDED if self.takings_back(record) else self._fault(record)

    def _before_all(self, record: Record) -> str:
        """Why nothing else is asked of the record: its tablet does not count, or it is not known here what it says."""
        if not self._counts(record):
            return UNCOUNTED
        return NEWER if self._plain.get(record.h) == NEWER else ""

    def _counts(self, record: Record) -> bool:
        """Does the tablet that wrote the record count here?"""
        return True

    def _fault(self, record: Record) -> str:
        """What is wrong with the record itself, whoever counts and whatever was taken back since. While it is asked,
        the record has no effect."""
        known = self._faults.get(record.h)
        if known is None:
            self._faults[record.h] = NO_RIGHT
            known = self._faults[record.h] = self._plain.get(record.h) or self._fault_of_act(record)
        return known

    def _fault_of_act(self, record: Record) -> str:
        if self._ruled_out(record):
            return MISFIT
        needed = self._to_take_back(record) if record.typ == "record.voided" else right_for(record)
        return "" if self._has(record, needed) else NO_RIGHT

    def had_right(self, record: Record, right: str) -> bool:
        """Had the author of a record a right, as he had seen the shop?"""
        return self._judge_right(record, right, self.knowing)

    def _has(self, record: Record, needed: Needed) -> bool:
        return all(any(self.had_right(record, right) for right in group) for group in needed)

    def _ruled_out(self, record: Record) -> str:
        """Why there is no such act, empty where there is."""
        if record.typ == "record.voided":
            return self._why_not_taken_back(record)
        if record.body.get("origin", OF_THIS_TOOL[0]) in OF_THIS_TOOL:
            return ""
        is_off = record.typ == "part.taken_off" or (record.typ == "part.noted" and self._came_off(record.ent))
        return "a part that came off this tool is as received or repaired" if is_off else ""

    def _came_off(self, things: Iterable[str]) -> bool:
        """Was one of these, by that very name, brought in by being taken off?"""
        made = (entry for thing in things for entry in self._entries(thing, "made"))
        return any(entry.value == "part.taken_off" and self.good(entry.record) for entry in made)

    def _voids(self, record: Record) -> Sequence[Entry]:
        return self._entries("void:" + record.ref, "voided")

    def good(self, record: Record) -> bool:
        """Has the record effect, or would it have but for having been taken back?"""
        known = self._goods.get(record.h)
        if known is None:
            known = self._goods[record.h] = not self._before_all(record) and not self._fault(record)
        return known

    def _about_by_name(self, thing: str) -> list[Record]:
        """Records that name a thing by this very name and are good; only those that came since are judged."""
        written = self._about.get(thing, [])
        judged, found = self._good_about.get(thing, (0, []))
        if judged < len(written):
            found += [record for record in written[judged:] if self.good(record)]
            self._good_about[thing] = len(written), found
        return found

    def _ever_by_name(self, thing: str, facet: str) -> list[Entry]:
        """Entries of a thing by this very name whose records are good; only those that came since are judged."""
        written, cell = self._entries(thing, facet), (thing, facet)
        if not written:
            return []
        judged, found = self._good_entries.get(cell, (0, []))
        if judged < len(written):
            found += [entry for entry in written[judged:] if self.good(entry.record)]
            self._good_entries[cell] = len(written), found
        return found

    def takings_back(self, record: Record) -> list[Record]:
        """Takings back of a record that have effect, in no order that decides anything."""
        if not self._of_kind.get("record.voided"):
            return []
        return [void.record for void in self._voids(record) if self.good(void.record)]

    # taking back

    def _taken(self, record: Record) -> list[Record]:
        """What a taking back names, as far as its author had seen it."""
        named = self._by_ref.get(record.body["record"], ())
        return [target for target in named if self.knowing.knew(record, target)]

    def _why_not_taken_back(self, record: Record) -> str:
        targets = self._taken(record)
        if not targets:
            return "it takes back a record that its author had not seen"
        return next(filter(None, (self._why_not_taken(record, target) for target in targets)), "")

    def _why_not_taken(self, record: Record, target: Record) -> str:
        """Why a taking back of this record does not fit."""
        if target.typ == "record.voided":
            return "a taking back is not taken back"
        if self._plain.get(target.h) == NEWER:
            return "it takes back a record of a newer app"
        if {*record.ent} != {*target.ent}:
            return "it is about something else than what it takes back"
        if self._fault(target) == MISFIT:
            return ""
        if asks(target) and self._is_protective(target):
            may = self.had_right(record, "release") and record.body.get("reference", "").strip()
            return "" if may else "a reading of a protective check is taken back by release, with a reference"
        return "" if rights_to_take_back(target) is not None else f"{target.typ} is not taken back"

    def _is_protective(self, record: Record) -> bool:
        """Is the record about a check of a protective function?"""
        return False

    def _to_take_back(self, record: Record) -> Needed:
        return tuple(group for target in self._taken(record) for group in self._to_take(target))

    def _to_take(self, target: Record) -> Needed:
        """What taking this record back needs; it may be taken back."""
        fault = self._fault(target)
        if fault == MISFIT:
            return right_for(target)
        needed = rights_to_take_back(target, was_borrowed=self._was_borrowed(target)) or ()
        return (*needed, ("release",)) if fault == NO_RIGHT and asks(target) else needed

    def _was_borrowed(self, target: Record) -> bool:
        """Had its author seen that one of the parts is borrowed?"""
        said = (entry for thing in target.ent for entry in self._entries(thing, "origin"))
        return any(
            entry.value == "borrowed" and self.knowing.knew(target, entry.record) and self.good(entry.record)
            for entry in said
        )
