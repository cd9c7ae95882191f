"""Witness: what each record says, and whether its body is understood.

Written from `docs/formats/records.md` (Things, Fields of rules 2, Facets, Kinds) alone; only the tables of fields are
the app's own.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from datetime import date, datetime
from typing import Any

from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import SHOP, Record

MILD_TO_SEVERE = ["use as is", "rework", "repair", "spare", "return unrepaired", "scrap"]
GONE = {"spare", "return unrepaired", "scrap"}
RECEIVED = {"received complete": "in", "received short": "in", "left fitted": "left"}
RECEIVED |= dict.fromkeys(["not received", "out of scope", "not on this tool"], "out")
SCOPE = {**RECEIVED, "came with the unit": "left"}
ANSWERS = ["covered", "approved", "asked", "declined"]
VERDICTS = ["accept", "not possible", "inconclusive", "reject"]
MOVES = ["added", "put_in", "scrapped", "lost", "found_short", "left_over"]
NOTED = ["out_of", "meant_for", "part_number", "owner", "origin", "condition", "place", "set_mark"]
MAKERS = ("part.taken_off", "part.brought_in", "goods.taken_over")

REFERRING = (
    "configuration.received", "part.noted", "part.same_as", "finding.noted", "check.read", "operation.done",
    "hardware.counted", "hardware.moved", "part.fitted", "record.voided",
)  # fmt: skip
"""Kinds with a reference by which the author accepts his own narrowing."""

MORE_FIELDS: dict[str, dict[str, type]] = {
    "job.amended": {"rules": int},
    "part.released": {"lines": dict},
    "point.conceded": {"lines": list},
    "operation.done": {"began": str},
    "hardware.moved": {"found_short": int, "search": str},
    "consumable.renewed": {"serial": str},
}
"""Fields of rules 2 beside the reference; all may be left out (a missing `lines` reads as the empty list)."""

Said = tuple[str, str, Any]


def understood(record: Record) -> bool:
    """Whether "its body is understood": the fields of its kind, about things of the right sort, words it knows."""
    kind = KINDS[record.typ]
    if kind.shop != (record.job == SHOP) or not record.ent or not is_time(record.wall):
        return False
    if not all(_is_of_sort(thing, record.typ) for thing in record.ent):
        return False
    needed = [name for name, field in kind.fields.items() if field.needed and name != "lines"]
    types = {name: field.type for name, field in kind.fields.items()} | _more_fields(record.typ)
    there = {name: wanted for name, wanted in types.items() if name in record.body and name != "without"}
    if any(name not in record.body for name in needed):
        return False
    if not all(_is_of_type(record.body[name], wanted) for name, wanted in there.items()):
        return False
    if not _holds_what_is_asked(record):
        return False
    try:
        said(record)
    except (KeyError, ValueError, TypeError, AttributeError):
        return False
    return True


def _more_fields(typ: str) -> dict[str, type]:
    return {**MORE_FIELDS.get(typ, {}), **({"reference": str} if typ in REFERRING else {})}


def _is_of_type(worth: Any, wanted: type | tuple[type, ...]) -> bool:
    if not isinstance(worth, wanted) or (wanted is int and isinstance(worth, bool)):
        return False
    return not isinstance(worth, list) or all(isinstance(each, str) for each in worth)


def is_time(text: Any) -> bool:
    """ "a time with its offset: `2026-03-14T08:00:00+01:00`"."""
    form = r"\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?([+-]\d{2}:\d{2}|Z)"
    return isinstance(text, str) and bool(re.fullmatch(form, text)) and _is_made(datetime.fromisoformat, text)


def is_day(text: Any) -> bool:
    """ "a day: `2031-06-30`"."""
    return (
        isinstance(text, str) and bool(re.fullmatch(r"\d{4}-\d{2}-\d{2}", text)) and _is_made(date.fromisoformat, text)
    )


def _is_made(make: Callable[[str], Any], text: str) -> bool:
    try:
        make(text)
    except ValueError:
        return False
    return True


def is_written(text: Any) -> bool:
    """ "what is written down is text that is not blank"; anything else is as if it were not there."""
    return isinstance(text, str) and bool(text.strip())


def _holds_what_is_asked(record: Record) -> bool:
    """The column *holds* of the fields of rules 2, where it says more than a type."""
    body, typ = record.body, record.typ
    if typ == "consumable.renewed" and "expiry" in body:
        return is_day(body["expiry"])
    if typ == "hardware.counted":
        return len(set(record.ent)) == len(record.ent)
    if typ.startswith("goods."):
        return bool(body.get("quantity", 1) > 0)
    if typ in ("check.read", "check.not_possible"):
        return not any(stroke in f"{body['check']}{body.get('spot', '')}" for stroke in "/|")
    if typ in ("operation.started", "operation.done") and not all(
        isinstance(each, str) for each in body.get("values", {}).values()
    ):
        return False
    if typ == "tablet.retired":
        lost = body.get("without", [])
        return isinstance(lost, list) and all(_is_number(each) and 0 < each <= body["last"] for each in lost)
    return typ != "operation.done" or "began" not in body or is_time(body["began"])


def _is_number(worth: Any) -> bool:
    return isinstance(worth, int) and not isinstance(worth, bool)


def _is_of_sort(thing: str, typ: str) -> bool:
    """ "a place begins with `@`, the job is `job`, everything else is named after the record that brought it in"."""
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
    """All facts that a record writes: (thing, fact, value)."""
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


def _is_its_own(record: Record) -> None:
    """ "What brings in a thing names it after itself (its n-th new thing); another name does not fit."."""
    if record.ent[0].rpartition(":")[0] != f"{record.job}:{record.dev}:{record.seq}":
        raise ValueError("not its own thing")


def _noted(record: Record) -> list[Said]:
    body, facts = record.body, []
    first_only = record.typ in MAKERS
    if first_only:
        _is_its_own(record)
    for thing in record.ent[:1] if first_only else record.ent:
        facts += [(thing, name, body[name]) for name in NOTED if name in body]
        written = body.get("written", {}).items()
        facts += [(thing, f"written/{what}", text) for what, text in written if not _is_blank_mark(what, text)]
        if "number" in body:
            facts += [(thing, "number", body["number"]), ("number:" + body["number"], "bound", thing)]
        if first_only:
            facts.append((thing, "made", "part"))
        if body.get("out_of") and record.typ != "goods.taken_over":
            facts.append(("@" + body["out_of"], "came_out", thing))
    return facts


def _is_blank_mark(what: str, text: Any) -> bool:
    """ "a blank one is as if it were not there. So is a blank `serial` or `lot` in `written`"."""
    return what in ("serial", "lot") and not is_written(text)


def _taken_over(record: Record) -> list[Said]:
    """ "`quantity`: 1 where it is left out"."""
    thing = record.ent[0]
    if thing.startswith("@"):
        return [(thing, "taken_over", record.body), (thing, "added", record.body.get("quantity", 1))]
    return [(thing, "taken_over", record.body), *_noted(record)]


def _finding(record: Record) -> list[Said]:
    """ "The n-th finding or hold of a record is on the n-th part it is about, and is the record's n-th new thing."."""
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
    """ "a release lists for each part what it covers"; its `lines` are lists of texts, a missing one is empty."""
    covers, lines = record.body["covers"], record.body.get("lines", {})
    for listed in [*(covers[thing] for thing in record.ent), *lines.values()]:
        if not isinstance(listed, list) or not all(isinstance(each, str) for each in listed):
            raise ValueError("no list of texts")
    return [(thing, "released", lines.get(thing, [])) for thing in record.ent]


def _fitted(record: Record) -> list[Said]:
    """ "*fitted* and *taken out* name one part and then one place"."""
    part, place = record.ent
    if part.startswith("@") or not place.startswith("@"):
        raise ValueError("no part and place")
    if record.typ == "part.taken_out":
        return [(part, "fit", ""), (place, "filled", ""), (place, "taken_out", part)]
    unit = {"as": "came with the unit"}
    with_it = [("@" + key, "scope", unit) for key in record.body.get("came_with", [])]
    return [(part, "fit", place), (place, "filled", part), *with_it]


def _same(record: Record) -> list[Said]:
    return [("same:" + other, "same_as", (record.ent[0], other)) for other in record.ent[1:]]


def _counted(record: Record) -> list[Said]:
    """ "A count holds also the places it names (`with`)."."""
    return [(thing, "found", (record.body["found"], tuple(sorted(set(record.ent))))) for thing in record.ent]


def _moved(record: Record) -> list[Said]:
    body = record.body
    if any(body.get(name, 0) < 0 for name in ("scrapped", "lost", "found_short", "left_over")):
        raise ValueError("below zero")
    if any(body.get(name, 0) > 0 for name in ("lost", "found_short")) and not body.get("search", "").strip():
        raise ValueError("no search")
    if any(body.get(name, 0) > 0 for name in ("scrapped", "left_over")) and not body.get("why", "").strip():
        raise ValueError("no reason")
    return [(record.ent[0], name, body[name]) for name in MOVES if name in body]


def _temporary(record: Record) -> list[Said]:
    if "what" in record.body:
        _is_its_own(record)
    facts: list[Said] = [(thing, "temporary", record.typ.partition(".")[2]) for thing in record.ent]
    return facts + ([(record.ent[0], "made", "temporary")] if "what" in record.body else [])


SPEAKERS: dict[str, Callable[[Record], list[Said]]] = {
    "job.opened": _opened,
    "job.amended": _opened,
    "job.closed": _each("end", lambda record: "closed"),
    "job.reopened": _each("end", lambda record: "open"),
    "configuration.received": _each("scope", lambda record: {**record.body, "as": _word(record, RECEIVED)}),
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
