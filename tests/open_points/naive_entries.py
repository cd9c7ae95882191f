"""Witness: what each record says, which records have effect, and what holds of several entries.

Written from `docs/formats/records.md` alone; only the tables of fields are the app's own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple

from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import SHOP, VERSION, Record
from tests.open_points.naive_knowing import known_to, not_here, shelf_of, two_versions

MILD_TO_SEVERE = ["use as is", "rework", "repair", "spare", "return unrepaired", "scrap"]
GONE = {"spare", "return unrepaired", "scrap"}
SCOPE = {"received complete": "in", "received short": "in", "left fitted": "left", "came with the unit": "left"}
SCOPE |= dict.fromkeys(["not received", "out of scope", "option absent", "not on this tool"], "out")
ANSWERS = ["covered", "approved", "asked", "declined"]
VERDICTS = ["accept", "not possible", "inconclusive", "reject"]
MOVES = ["added", "put_in", "scrapped", "lost", "left_over"]
NOTED = ["out_of", "meant_for", "part_number", "owner", "origin", "condition", "place", "set_mark"]
CONTESTED = {
    "job": {"order", "name", "serial", "due", "options", "end"},
    "place": {"renewal", "found", "check"},
    "part": {*NOTED, "disposition", "check", "operation", "written"},
}  # fmt: skip
"""Facts that are an open point of their own when they differ."""

Said = tuple[str, str, Any]


class Entry(NamedTuple):
    """One fact as one record wrote it."""

    name: str
    fact: str
    value: Any
    record: Record


def understood(record: Record) -> bool:
    """Whether the body has the form of its kind."""
    kind = KINDS[record.typ]
    if kind.shop != (record.job == SHOP) or not record.ent:
        return False
    if not all(_is_of_sort(thing, record.typ) for thing in record.ent):
        return False
    for name, field in kind.fields.items():
        if name not in record.body:
            if field.needed:
                return False
            continue
        worth = record.body[name]
        if not isinstance(worth, field.type) or (field.type is int and isinstance(worth, bool)):
            return False
        if isinstance(worth, list) and not all(isinstance(each, str) for each in worth):
            return False
    try:
        said(record)
    except (KeyError, ValueError, TypeError, AttributeError):
        return False
    return True


def _is_of_sort(thing: str, typ: str) -> bool:
    area, _, word = typ.partition(".")
    if typ in ("point.conceded", "work.signed", "record.voided", "photo.taken"):
        return True
    if area == "job":
        return thing == "job"
    if area in ("configuration", "line", "hardware", "joint", "consumable"):
        return thing.startswith("@")
    may_be_a_place = area in ("check", "goods", "temporary") or word in ("placed", "fitted", "taken_out")
    return thing != "job" and (may_be_a_place or not thing.startswith("@"))


def said(record: Record) -> list[Said]:
    """All facts that a record writes."""
    return SPEAKERS.get(record.typ, _nothing)(record)


def _word(record: Record, words: Iterable[str]) -> str:
    if record.body["as"] not in words:
        raise ValueError(record.body["as"])
    return str(record.body["as"])


def _nothing(record: Record) -> list[Said]:
    return []


def _opened(record: Record) -> list[Said]:
    named = ["order", "name", "serial", "due", "options"]
    facts = [("job", name, record.body[name]) for name in named if name in record.body]
    return facts + ([("job", "opened", record.body)] if record.typ == "job.opened" else [])


def _noted(record: Record) -> list[Said]:
    body, facts = record.body, []
    first_only = record.typ in ("part.taken_off", "part.brought_in", "goods.taken_over")
    for thing in record.ent[:1] if first_only else record.ent:
        facts += [(thing, name, body[name]) for name in NOTED if name in body]
        facts += [(thing, f"written/{what}", text) for what, text in body.get("written", {}).items()]
        if "number" in body:
            facts += [(thing, "number", body["number"]), ("number:" + body["number"], "bound", thing)]
        if first_only:
            facts.append((thing, "made", "part"))
        if body.get("out_of") and record.typ != "goods.taken_over":
            facts.append(("@" + body["out_of"], "came_out", thing))
    return facts


def _taken_over(record: Record) -> list[Said]:
    thing = record.ent[0]
    if thing.startswith("@"):
        return [(thing, "taken_over", record.body), (thing, "added", record.body["quantity"])]
    return [(thing, "taken_over", record.body), *_noted(record)]


def _finding(record: Record) -> list[Said]:
    facts: list[Said] = []
    for n, thing in enumerate(record.ent, 1):
        facts += [(thing, "finding", record.thing(n)), (record.thing(n), "made", "finding")]
        if record.body["covered"]:
            facts.append((record.thing(n), "approval", {"as": "covered", "reference": ""}))
    return facts


def _hold(record: Record) -> list[Said]:
    facts: list[Said] = []
    for n, thing in enumerate(record.ent, 1):
        facts += [(thing, "hold", record.thing(n)), (record.thing(n), "made", "hold")]
    return facts


def _each(fact: str, worth: Callable[[Record], Any]) -> Callable[[Record], list[Said]]:
    def speak(record: Record) -> list[Said]:
        value = worth(record)
        return [(thing, fact, value) for thing in record.ent]

    return speak


def _check(record: Record) -> list[Said]:
    body = record.body
    verdict = body["verdict"] if record.typ == "check.read" else "not possible"
    if record.typ == "check.read" and verdict not in ("accept", "inconclusive", "reject"):
        raise ValueError(verdict)
    fact = f"check/{body['check']}/{body.get('spot', '')}/{body['when']}"
    return [(thing, fact, {**body, "verdict": verdict}) for thing in record.ent]


def _operation(record: Record) -> list[Said]:
    fact = "operation/{route}/{operation}/{pass}".format(**record.body)
    return [(thing, fact, record.typ.partition(".")[2]) for thing in record.ent]


def _wait_over(record: Record) -> list[Said]:
    fact = "wait_over/operation/{route}/{operation}/{pass}".format(**record.body)
    return [(thing, fact, True) for thing in record.ent]


def _released(record: Record) -> list[Said]:
    covers = [record.body["covers"][thing] for thing in record.ent]
    if not all(isinstance(each, list) and all(isinstance(ref, str) for ref in each) for each in covers):
        raise ValueError("no list of records")
    return [(thing, "released", tuple(record.body["covers"][thing])) for thing in record.ent]


def _fitted(record: Record) -> list[Said]:
    part, place = record.ent
    if part.startswith("@") or not place.startswith("@"):
        raise ValueError("no part and place")
    if record.typ == "part.taken_out":
        return [(part, "fit", ""), (place, "filled", ""), (place, "taken_out", part)]
    unit = {"as": "came with the unit", "why": part}
    with_it = [("@" + key, "scope", unit) for key in record.body.get("came_with", [])]
    return [(part, "fit", place), (place, "filled", part), *with_it]


def _same(record: Record) -> list[Said]:
    return [("same:" + other, "same_as", (record.ent[0], other)) for other in record.ent[1:]]


def _counted(record: Record) -> list[Said]:
    return [(thing, "found", (record.body["found"], tuple(sorted(set(record.ent))))) for thing in record.ent]


def _moved(record: Record) -> list[Said]:
    return [(record.ent[0], name, record.body[name]) for name in MOVES if name in record.body]


def _temporary(record: Record) -> list[Said]:
    if "what" in record.body and record.ent[0].startswith("@"):
        raise ValueError("a place")
    facts: list[Said] = [(thing, "temporary", record.typ.partition(".")[2]) for thing in record.ent]
    return facts + ([(record.ent[0], "made", "temporary")] if "what" in record.body else [])


SPEAKERS: dict[str, Callable[[Record], list[Said]]] = {
    "job.opened": _opened,
    "job.amended": _opened,
    "job.closed": _each("end", lambda record: "closed"),
    "job.reopened": _each("end", lambda record: "open"),
    "configuration.received": _each("scope", lambda record: {**record.body, "as": _word(record, SCOPE)}),
    "line.added": lambda record: [(record.ent[0], "line", record.body)],
    "point.conceded": lambda record: [("point:" + record.body["key"], "concession", record.body)],
    "work.signed": _each("signature", lambda record: record.body),
    "record.voided": _nothing,
    "part.taken_off": _noted,
    "part.brought_in": _noted,
    "part.tagged": _noted,
    "part.renumbered": _noted,
    "part.noted": _noted,
    "part.same_as": _same,
    "thing.put": _each("place", lambda record: record.body["place"]),
    "finding.noted": _finding,
    "approval.given": _each("approval", lambda record: {**record.body, "as": _word(record, ANSWERS)}),
    "disposition.given": _each("disposition", lambda record: _word(record, MILD_TO_SEVERE)),
    "hold.placed": _hold,
    "hold.lifted": _each("lifted", lambda record: True),
    "goods.handed_over": _each("handed_over", lambda record: record.body),
    "goods.taken_over": _taken_over,
    "goods.given_back": _each("given_back", lambda record: record.body),
    "check.read": _check,
    "check.not_possible": _check,
    "operation.started": _operation,
    "operation.done": _operation,
    "operation.stopped": _operation,
    "operation.skipped": _operation,
    "wait.over": _wait_over,
    "part.released": _released,
    "part.fitted": _fitted,
    "part.taken_out": _fitted,
    "hardware.counted": _counted,
    "hardware.moved": _moved,
    "joint.opened": _each("opened_joint", lambda record: True),
    "joint.torqued": _each("torque", lambda record: record.body),
    "consumable.renewed": _each("renewal", lambda record: {**record.body, "as": _word(record, ["renewed", "kept"])}),
    "temporary.in": _temporary,
    "temporary.out": _temporary,
    "photo.taken": _each("photo", lambda record: record.body),
}


class Told:
    """All that the records of one job and of the shop say. Nothing in here is ever updated."""

    def __init__(self, shop: Iterable[Record], number: str, job: Iterable[Record]) -> None:
        self.number = number
        self.shelf = shelf_of([*shop, *job])
        self.records = {each.ref: each for numbers in self.shelf.values() for here in numbers.values() for each in here}
        self.job = [ref for ref, each in self.records.items() if each.job == number]
        self.knew = {ref: known_to(self.shelf, each) for ref, each in self.records.items()}
        self.not_here = not_here(self.shelf, number)
        self.two_versions = two_versions(self.shelf, number)
        self._effect: dict[str, str] = {}
        self.entries = self._entries()
        self.joins = [(entry.value, entry.record) for entry in self.entries if entry.fact == "same_as"]

    def why_not(self, ref: str) -> str:
        """Empty for a record with effect, else why it has none: newer, misfit, right, corrected."""
        if ref not in self._effect:
            self._effect[ref] = self._judged(self.records[ref])
        return self._effect[ref]

    def _judged(self, record: Record) -> str:
        if record.typ not in KINDS or record.v > VERSION:
            return "newer"
        return "corrected" if self._is_corrected(record) else self._fault(record)

    def _fault(self, record: Record) -> str:
        if not understood(record):
            return "misfit"
        if not self._may(record, _right_needed(record)):
            return "right"
        return self._void_judged(record) if record.typ == "record.voided" else ""

    def _void_judged(self, record: Record) -> str:
        target = self.records.get(record.body["record"])
        if target is None or target.ref not in self.knew[record.ref] or target.job != record.job:
            return "misfit"
        wanted = self._to_take_back(target, record.act)
        return "" if all(self.has_right(record, right) for right in wanted) else "right"

    def _to_take_back(self, target: Record, by: str) -> set[str]:
        if target.typ not in KINDS or target.v > VERSION or not understood(target):
            return set()
        if target.typ == "record.voided":
            back = self.records.get(target.body["record"])
            return self._to_bring_back(back, by) if back and back.job == target.job else set()
        wanted = {"job.closed": "office", "job.reopened": "sign"}.get(target.typ)
        if wanted:
            return {wanted}
        right = _right_to_take_back(target)
        return {right} if right and target.act != by else set()

    def _to_bring_back(self, back: Record, by: str) -> set[str]:
        if back.typ not in KINDS or back.v > VERSION or not understood(back):
            return set()
        if back.typ == "record.voided":
            again = self.records.get(back.body["record"])
            return self._to_take_back(again, by) if again and again.job == back.job else set()
        return {_right_needed(back)}

    def _is_corrected(self, record: Record) -> bool:
        voids = [self.records[ref] for ref in self.job if self.records[ref].typ == "record.voided"]
        named = [each for each in voids if understood(each) and each.body["record"] == record.ref]
        return any(record.ref in self.knew[each.ref] and not self.why_not(each.ref) for each in named)

    def _may(self, record: Record, right: str) -> bool:
        if self.has_right(record, right):
            return True
        first = record.job == SHOP and record.typ == "person.given" and not self._people_seen(record)
        return first and record.body["code"] == record.act

    def _people_seen(self, record: Record) -> list[Record]:
        known = [self.records[ref] for ref in self.knew[record.ref] if self.records[ref].job == SHOP]
        return [each for each in known if each.typ == "person.given" and not self.why_not(each.ref)]

    def has_right(self, record: Record, right: str) -> bool:
        """Whether the author of this record had a right, as he had seen the shop, on the record's day."""
        mine = [each for each in self._people_seen(record) if each.body["code"] == record.act]
        latest = [one for one in mine if not any(one.ref in self.knew[other.ref] for other in mine)]
        if not latest or any(each.body.get("revoked") for each in latest):
            return False
        ends = [each.body["until"] for each in latest if each.body.get("until")]
        if ends and (record.clk != "ok" or record.wall[:10] > min(ends)):
            return False
        return all(right in each.body["rights"] for each in latest)

    def _entries(self) -> list[Entry]:
        with_effect = [self.records[ref] for ref in self.job if not self.why_not(ref)]
        return [Entry(*fact, record) for record in with_effect for fact in said(record)]

    def names(self, name: str) -> set[str]:
        """All names of one thing."""
        return self._joined(name, [pair for pair, _ in self.joins])

    def _joined(self, name: str, pairs: list[tuple[str, str]]) -> set[str]:
        group = {name}
        while True:
            more = {each for pair in pairs if group & set(pair) for each in pair} - group
            if not more:
                return group
            group |= more

    def one(self, name: str) -> str:
        """The smallest name of a thing."""
        return min(self.names(name))

    def all(self, name: str, fact: str) -> list[Entry]:
        """Every entry of a fact of a thing."""
        names = self.names(name)
        return [entry for entry in self.entries if entry.fact == fact and entry.name in names]

    def facts(self, name: str, begins: str) -> set[str]:
        """Facts of a thing that begin so."""
        names = self.names(name)
        return {entry.fact for entry in self.entries if entry.name in names and entry.fact.startswith(begins)}

    def saw(self, later: Record, earlier: Record) -> bool:
        """Whether the author of one record had seen another."""
        return earlier.ref in self.knew[later.ref]

    def replaces(self, later: Entry, earlier: Entry) -> bool:
        """Whether one entry of a fact takes another's place."""
        if not self.saw(later.record, earlier.record):
            return False
        if later.name != earlier.name:
            seen = [pair for pair, record in self.joins if self.saw(later.record, record)]
            if earlier.name not in self._joined(later.name, seen):
                return False
        if later.fact == "disposition" and _rank(later.value) < _rank(earlier.value):
            return self.has_right(later.record, "scrap" if earlier.value == "scrap" else "release")
        return True

    def left(self, name: str, fact: str) -> list[Entry]:
        """Entries that no other one replaced."""
        there = self.all(name, fact)
        return [one for one in there if not any(self.replaces(other, one) for other in there)]

    def value(self, name: str, fact: str, otherwise: Any = None) -> Any:
        """What holds; where several differ, the safer."""
        found = self.left(name, fact)
        if not found:
            return otherwise
        return _safer(fact, found)


def _rank(word: str) -> int:
    return MILD_TO_SEVERE.index(word)


def _safer(fact: str, found: list[Entry]) -> Any:
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


def _right_needed(record: Record) -> str:
    kind = KINDS[record.typ]
    if record.typ == "disposition.given":
        return "scrap" if record.body["as"] == "scrap" else "record"
    if record.typ == "joint.torqued":
        return "release" if record.body.get("early") else "record"
    return str(kind.right)


def _right_to_take_back(target: Record) -> str:
    if target.typ == "disposition.given":
        return "scrap" if target.body.get("as") == "scrap" else "release"
    if target.typ in ("hold.placed", "check.read") and target.body.get("verdict", "reject") == "reject":
        return "release"
    return "office" if target.typ == "approval.given" and target.body.get("as") == "declined" else ""
