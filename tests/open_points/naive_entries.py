"""Witness: which records have effect, and what holds of several entries.

Written from `docs/formats/records.md` (State, Taking back) alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple

from teardown_app.domain.bill.bill import Bill, Check
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import SHOP, VERSION, Record
from tests.open_points.naive_acts import asks, of_making, of_taking_back
from tests.open_points.naive_foundings import Foundings
from tests.open_points.naive_knowing import known_to, shelf_of, two_versions, wanted
from tests.open_points.naive_said import ANSWERS, MILD_TO_SEVERE, SCOPE, VERDICTS, said, understood

Bills = Callable[[str], Bill | None]

RULES = (1, 2)
"""Numbers of rules that are known here."""

PROTECTIVE = ("bonding", "insulation", "interlock", "emergency stop", "over temperature")


class Entry(NamedTuple):
    """One fact as one record wrote it."""

    name: str
    fact: str
    value: Any
    record: Record


class Told:
    """All that the records of one job and of the shop say. Nothing in here is ever updated."""

    def __init__(self, shop: Iterable[Record], number: str, job: Iterable[Record], bills: Bills) -> None:
        self.number, self.bills = number, bills
        self.shelf = shelf_of([*shop, *job])
        there = [each for numbers in self.shelf.values() for here in numbers.values() for each in here]
        self.records = {each.ref: each for each in sorted(there, key=lambda each: each.ref)}
        self.job = [each for each in self.records.values() if each.job == number]
        self.knew = {ref: known_to(self.shelf, each) for ref, each in self.records.items()}
        self.wanted, self.two_versions = wanted(self.shelf, number), two_versions(self.shelf, number)
        self.foundings = Foundings(number, self.records, self.knew)
        self.voids = [each for each in self.job if each.typ == "record.voided"]
        self._bill: list[Bill] = []
        self._of_itself: dict[str, str] = {}
        self._takers: dict[str, list[Record]] = {}
        self.written = [each for each in self.job if self.was_good(each)]
        self.entries = [Entry(*fact, each) for each in self.written if not self.takers(each) for fact in said(each)]
        self.gone = [Entry(*fact, each) for each in self.written if self.takers(each) for fact in said(each)]
        self.joins = [(entry.value, entry.record) for entry in self.entries if entry.fact == "same_as"]
        self._groups: dict[str, set[str]] = {}

    def saw(self, later: Record, earlier: Record) -> bool:
        """ "*Had seen* always means that the author of the one record had seen the other"."""
        return earlier.ref in self.knew[later.ref]

    def has_right(self, record: Record, right: str) -> bool:
        """Whether the author of this record had a right."""
        return self.foundings.has(record, right)

    # -- effect ----------------------------------------------------------------------------------

    def why_not(self, record: Record) -> str:
        """ "The first of these that fails says what the record is"; empty for a record with effect."""
        if not self.foundings.counts(record.dev):
            return "uncounted"
        if self._is_newer(record):
            return "newer"
        return "taken back" if self.takers(record) else self.of_itself(record)

    def was_good(self, record: Record) -> bool:
        """Whether a record has effect, or would but for being taken back."""
        counts = self.foundings.counts(record.dev) and not self._is_newer(record)
        return counts and not self.of_itself(record)

    def _is_newer(self, record: Record) -> bool:
        """ "its kind and version are known; of job.opened and job.amended: `rules` is a number known here"."""
        if record.typ not in KINDS or record.v > VERSION:
            return True
        rules = record.body.get("rules") if record.typ in ("job.opened", "job.amended") else None
        return isinstance(rules, int) and not isinstance(rules, bool) and rules not in RULES

    def takers(self, record: Record) -> list[Record]:
        """Takings back of this record that have effect."""
        if record.ref not in self._takers:
            naming = [each for each in self.voids if each.body.get("record") == record.ref]
            good = [each for each in naming if each.ref != record.ref and self.was_good(each)]
            self._takers[record.ref] = good
        return self._takers[record.ref]

    def of_itself(self, record: Record) -> str:
        """misfit, right, or empty: the questions of the table of effect that ask for nothing but the record."""
        if record.ref not in self._of_itself:
            self._of_itself[record.ref] = self._judged(record)
        return self._of_itself[record.ref]

    def _judged(self, record: Record) -> str:
        opening = self.opening_of_the_job()
        if record.trial and record.job != SHOP and not (opening and opening.trial):
            return "misfit"
        if not understood(record) or self._is_ruled_out(record):
            return "misfit"
        if record.job == SHOP:
            return "" if self.foundings.stands(record) else "right"
        needed = self._to_take_back(record) if record.typ == "record.voided" else of_making(record)
        return "" if all(self.foundings.has_any(record, rights) for rights in needed) else "right"

    def _is_ruled_out(self, record: Record) -> bool:
        """ "what it does is no act that the table of acts rules out (*Taking back*, *Origin*)"."""
        if record.typ == "record.voided":
            return not self._may_be_taken_back(record)
        if "origin" not in record.body or record.body["origin"] in ("as received", "repaired"):
            return False
        if record.typ == "part.noted":
            makers = [each for each in self.job if each.typ == "part.taken_off" and each.ent[:1]]
            return any(each.ent[0] in record.ent and self.was_good(each) for each in makers)
        return record.typ == "part.taken_off"

    def _may_be_taken_back(self, void: Record) -> bool:
        """ "`record.voided` names a record in `record`, and is about what that one is about (`ent`), else it does not
        fit. It has effect when its author had seen the target"; "*no*: the taking back does not fit"."""
        target = self.records.get(void.body["record"])
        if target is None or target.job != void.job or not self.saw(void, target):
            return False
        if target.typ == "record.voided" or self._is_newer(target) or set(void.ent) != set(target.ent):
            return False
        if self.of_itself(target) == "misfit":
            return True
        if self._is_protective_and_graver(target):
            return self.has_right(void, "release") and bool(void.body.get("reference", "").strip())
        return of_taking_back(target) is not None

    def _is_protective_and_graver(self, target: Record) -> bool:
        """ "A *reject, inconclusive* or *not possible* of a protective check"."""
        return target.typ.startswith("check.") and asks(target) and self.is_protective(target.body["check"])

    def _to_take_back(self, void: Record) -> list[tuple[str, ...]]:
        """ "the right in the column *taken back*" for every row of the target; of one that does not fit "the right of
        its act"; of one without the right that asked, "also the second right (release)"."""
        target = self.records[void.body["record"]]
        if self.of_itself(target) == "misfit":
            return of_making(target)
        needed = of_taking_back(target) or []
        if self.of_itself(target) == "right" and asks(target):
            needed = [*needed, ("release",)]
        return [*needed, ("office",)] if self.said_origin_over_borrowed(target) else needed

    def said_origin_over_borrowed(self, target: Record) -> bool:
        """ "part.noted with `origin` where it was *borrowed*": as its author had seen."""
        if target.typ != "part.noted" or "origin" not in target.body:
            return False
        before = [each for each in self.job if self.saw(target, each) and each.body.get("origin") == "borrowed"]
        return any(set(each.ent) & set(target.ent) and self.was_good(each) for each in before)

    # -- the opening and the bill ----------------------------------------------------------------

    def opening_of_the_job(self) -> Record | None:
        """The opening by "the tablet that issued the job's number", its first; whether or not it has effect."""
        number = self.number
        found = [each for each in self.job if each.typ == "job.opened"]
        own = [e for e in found if (e.body.get("number"), e.body.get("letters")) == (number, number[1:5])]
        return min(own, key=lambda each: (each.seq, each.h), default=None)

    def opening(self) -> Record | None:
        """The same of those that have effect."""
        number = self.number
        found = [each for each in self.job if each.typ == "job.opened" and self.was_good(each)]
        own = [each for each in found if (each.body["number"], each.body["letters"]) == (number, number[1:5])]
        return min(own, key=lambda each: (each.seq, each.h), default=None)

    @property
    def bill(self) -> Bill:
        """The job's bill; an empty one where nobody has it."""
        if not self._bill:
            opening = self.opening()
            self._bill.append((self.bills(opening.body["bill"]) if opening else None) or Bill("", ""))
        return self._bill[0]

    def is_protective(self, name: str) -> bool:
        """ "checks of bonding, insulation, interlock, emergency stop, over-temperature (one of these in type, name or
        `says`; dash and underline are blanks, case does not matter)"."""
        check = self.bill.checks.get(name, Check(name))
        words = f"{check.type}\n{check.name}\n{check.says}".lower().replace("-", " ").replace("_", " ")
        return any(each in words for each in PROTECTIVE)

    # -- things and their entries ----------------------------------------------------------------

    def names(self, name: str) -> set[str]:
        """All names of one thing: "Two names that *same as* joins are one thing"."""
        if name not in self._groups:
            self._groups[name] = joined(name, [pair for pair, _ in self.joins])
        return self._groups[name]

    def one(self, name: str) -> str:
        """ "of two names of one part the smallest"."""
        return min(self.names(name))

    def all(self, name: str, fact: str) -> list[Entry]:
        """Every entry of a fact of a thing."""
        names = self.names(name)
        return [entry for entry in self.entries if entry.fact == fact and entry.name in names]

    def all_gone(self, name: str, fact: str) -> list[Entry]:
        """Every entry of a fact that was taken back."""
        names = self.names(name)
        return [entry for entry in self.gone if entry.fact == fact and entry.name in names]

    def facts(self, name: str, begins: str) -> set[str]:
        """Facts of a thing that begin so."""
        names = self.names(name)
        return {entry.fact for entry in self.entries if entry.name in names and entry.fact.startswith(begins)}

    def replaces(self, later: Entry, earlier: Entry) -> bool:
        """Whether one entry takes another's place: its author had seen it, and under another name "only if that one's
        author had seen the *same as*"; a milder disposition "only by somebody with the right"."""
        if not self.saw(later.record, earlier.record):
            return False
        if later.name != earlier.name:
            seen = [pair for pair, record in self.joins if self.saw(later.record, record)]
            if earlier.name not in joined(later.name, seen):
                return False
        if later.fact == "disposition" and _rank(later.value) < _rank(earlier.value):
            return self.has_right(later.record, "scrap" if earlier.value == "scrap" else "release")
        return True

    def left(self, name: str, fact: str) -> list[Entry]:
        """The unreplaced entries of a fact of a thing."""
        return self.unreplaced(self.all(name, fact), self.all_gone(name, fact), self.replaces)

    def unreplaced(
        self, there: list[Entry], gone: list[Entry], replaces: Callable[[Entry, Entry], bool]
    ) -> list[Entry]:
        """ "those that no other one replaces"; "An entry that was taken back replaces no more. But what it had
        replaced does not return if it was a verdict or took a demand away"."""
        return [
            one
            for one in there
            if not any(replaces(other, one) for other in there)
            and not (does_not_return(one) and any(replaces(other, one) for other in gone))
        ]

    def value(self, name: str, fact: str, otherwise: Any = None) -> Any:
        """What holds; where several differ, the safer."""
        found = self.left(name, fact)
        return _safer(fact, found) if found else otherwise


def joined(name: str, pairs: list[tuple[str, str]]) -> set[str]:
    """A name and all that these pairs join to it."""
    group = {name}
    while True:
        more = {each for pair in pairs if group & set(pair) for each in pair} - group
        if not more:
            return group
        group |= more


def does_not_return(entry: Entry) -> bool:
    """ "*accept*; *done, skipped*; any disposition; *covered, approved*; a scope word *out* or *left*; a renewal"."""
    kind, value = entry.fact.partition("/")[0], entry.value
    if kind == "check":
        return bool(value["verdict"] == "accept")
    if kind == "operation":
        return value in ("done", "skipped")
    if kind == "approval":
        return value["as"] in ("covered", "approved")
    if kind == "scope":
        return SCOPE[value["as"]] != "in"
    return kind in ("disposition", "renewal")


def _rank(word: str) -> int:
    return MILD_TO_SEVERE.index(word)


def _safer(fact: str, found: list[Entry]) -> Any:
    """The column *safer value*; where it has none, the smallest."""
    values = [entry.value for entry in found]
    if fact == "disposition":
        return max(values, key=_rank)
    if fact == "approval":
        return max((value["as"] for value in values), key=ANSWERS.index)
    if fact.startswith("check/"):
        return max((value["verdict"] for value in values), key=VERDICTS.index)
    if fact.startswith("operation/"):
        return min(values, key=["started", "stopped", "skipped", "done"].index)
    if fact == "options":
        return sorted({option for value in values for option in value})
    if fact == "end":
        return "open" if "open" in values else "closed"
    return min(values)


def decides(entry: Entry) -> Any:
    """What of a value makes two entries different."""
    kind, value = entry.fact.partition("/")[0], entry.value
    if kind in ("approval", "scope"):
        return value["as"]
    if kind == "check":
        return value["verdict"]
    if kind == "renewal":
        return value["as"], value.get("lot"), value.get("expiry")
    return value
