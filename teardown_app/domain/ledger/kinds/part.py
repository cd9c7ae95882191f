"""Kinds about one part: where it came from, its names, what was found, what is to become of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from teardown_app.domain.ledger.kinds.kind import (
    LIST_OR_NOT,
    OF_BOTH,
    OF_THINGS,
    TABLE_OR_NOT,
    TEXT,
    TEXT_OR_NOT,
    TOOL,
    TRUTH,
    WHOLE_OR_NOT,
    Kind,
    Write,
    each,
    is_said,
    new_thing,
)
from teardown_app.domain.ledger.record import Record, position_thing

DISPOSITIONS = ("use as is", "rework", "repair", "spare", "return unrepaired", "scrap")
"""Mild to severe."""

APPROVALS = ("covered", "approved", "asked", "declined")
"""Weak to strong: when two tablets say different things, the stronger word holds."""

ORIGINS = (
    "as received",
    "new",
    "repaired",
    "exchanged",
    "customer's",
    "borrowed",
    "stock",
    "other job",
)

OF_THIS_TOOL = ("as received", "repaired")
"""What a part can be that came off this tool."""

NOTED = ("out_of", "meant_for", "part_number", "owner", "origin", "condition", "place", "set_mark")
"""Fields of a part's records that each become the facet of the same name."""


class Answer(NamedTuple):
    """What the customer answered to a finding; `reference` may be empty."""

    word: str
    reference: str = ""
    body: Mapping[str, Any] = {}


class Goods(NamedTuple):
    """What went to another job, came from it or went back: which job, how many, and under which name it has them."""

    job: str
    quantity: int = 1
    thing: str = ""


def _about_part(record: Record, thing: str) -> list[Write]:
    """What the common fields of a record say of one part."""
    body = record.body
    writes: list[Write] = [(thing, name, body[name]) for name in NOTED if name in body]
    writes += [(thing, f"written/{what}", text) for what, text in body.get("written", {}).items() if is_said(text)]
    if "number" in body:
        writes += [(thing, "number", body["number"]), ("number:" + body["number"], "bound", thing)]
    return writes


def _made(record: Record) -> list[Write]:
    thing = new_thing(record)
    writes = [(thing, "made", record.typ), *_about_part(record, thing)]
    if record.body.get("out_of"):
        writes.append((position_thing(record.body["out_of"]), "came_out", thing))
    return writes


def _noted(record: Record) -> list[Write]:
    return [write for thing in record.ent for write in _about_part(record, thing)]


def _moved_out(record: Record) -> list[Write]:
    writes = _noted(record)
    if record.body.get("out_of"):
        where = position_thing(record.body["out_of"])
        writes += [(where, "came_out", thing) for thing in record.ent]
    return writes


def _same_as(record: Record) -> list[Write]:
    first, *others = record.ent
    return [("same:" + thing, "same_as", (first, thing)) for thing in others]


def _finding(record: Record) -> list[Write]:
    """The n-th finding of the record is on the n-th part it names."""
    writes: list[Write] = []
    for n, thing in enumerate(record.ent, 1):
        finding = record.thing(n)
        writes += [(thing, "finding", finding), (finding, "of", thing), (finding, "says", record.body)]
        if record.body["covered"]:
            writes.append((finding, "approval", _answer({"as": "covered", "reference": ""})))
    return writes


def _hold(record: Record) -> list[Write]:
    writes: list[Write] = []
    for n, thing in enumerate(record.ent, 1):
        hold = record.thing(n)
        writes += [(thing, "hold", hold), (hold, "of", thing), (hold, "says", record.body)]
    return writes


def _approval(record: Record) -> list[Write]:
    if record.body["as"] not in APPROVALS:
        raise ValueError(f"unknown answer {record.body['as']!r}")
    return [(thing, "approval", _answer(record.body)) for thing in record.ent]


def _answer(body: Mapping[str, Any]) -> Answer:
    return Answer(body["as"], body.get("reference", ""), body)


def _disposition(record: Record) -> list[Write]:
    if record.body["as"] not in DISPOSITIONS:
        raise ValueError(f"unknown disposition {record.body['as']!r}")
    return [(thing, "disposition", record.body["as"]) for thing in record.ent]


def _how_many(record: Record) -> int:
    """How many of it went to or came from another job: 1 where it is not said. Raises ValueError below one."""
    quantity: int = record.body.get("quantity", 1)
    if quantity < 1:
        raise ValueError("quantity is below one")
    return quantity


def _handed_over(record: Record) -> list[Write]:
    goods = _goods(record, "to")
    return [(thing, "handed_over", goods) for thing in record.ent]


def _given_back(record: Record) -> list[Write]:
    goods = _goods(record, "job")
    return [(thing, "given_back", goods) for thing in record.ent]


def _goods(record: Record, job: str) -> Goods:
    body = record.body
    return Goods(body[job], _how_many(record), body.get("goods", ""))


def _taken_over(record: Record) -> list[Write]:
    goods, thing = _goods(record, "of"), record.ent[0]
    if thing.startswith("@"):
        return [(thing, "taken_over", goods), (thing, "added", goods.quantity)]
    thing = new_thing(record)
    return [(thing, "taken_over", goods), (thing, "made", record.typ), *_about_part(record, thing)]


_PART = {
    "number": TEXT_OR_NOT,
    "part_number": TEXT_OR_NOT,
    "out_of": TEXT_OR_NOT,
    "meant_for": TEXT_OR_NOT,
    "condition": TEXT_OR_NOT,
    "place": TEXT_OR_NOT,
    "owner": TEXT_OR_NOT,
    "origin": TEXT_OR_NOT,
    "set_mark": TEXT_OR_NOT,
    "written": TABLE_OR_NOT,
    "note": TEXT_OR_NOT,
}
_PART_FACETS = (*NOTED, "written", "number", "bound")
_REFERENCE = {"reference": TEXT_OR_NOT}
_SAME = {"why": TEXT_OR_NOT, **_REFERENCE}
_GOODS = {"quantity": WHOLE_OR_NOT, "consent": TEXT}

KINDS = (
    Kind(
        "part.taken_off",
        "the new part",
        "record",
        {**_PART, "how": TEXT_OR_NOT},
        ("made", "came_out", *_PART_FACETS),
        _made,
        sorts=OF_THINGS,
        says="took it off",
        there="{part} came out of it",
    ),
    Kind(
        "part.brought_in",
        "the new part",
        "record",
        {**_PART, "origin": TEXT, "part_number": TEXT},
        ("made", "came_out", *_PART_FACETS),
        _made,
        sorts=OF_THINGS,
        says="brought in a part, {origin}",
        there="{part} came out of it",
    ),
    Kind(
        "part.tagged",
        "part",
        "record",
        {"number": TEXT},
        ("number", "bound"),
        _noted,
        sorts=OF_THINGS,
        says="put the label {number} on it",
        seen_by=(),
    ),
    Kind(
        "part.renumbered",
        "part",
        "record",
        {"number": TEXT, "why": TEXT},
        ("number", "bound"),
        _noted,
        sorts=OF_THINGS,
        says="put a new label {number} on it: {why}",
        seen_by=(),
    ),
    Kind(
        "part.same_as",
        "the parts that are one",
        "record",
        _SAME,
        ("same_as",),
        _same_as,
        sorts=OF_THINGS,
        says="said that these are the same part",
        narrows="{act} says that these are the same part",
        reach=TOOL,
    ),
    Kind(
        "part.noted",
        "parts",
        "record",
        {**_PART, **_REFERENCE},
        ("came_out", *_PART_FACETS),
        _moved_out,
        sorts=OF_THINGS,
        says="noted what it is",
        there="{part} came out of it",
    ),
    Kind(
        "thing.put",
        "parts, carriers",
        "record",
        {"place": TEXT, "note": TEXT_OR_NOT},
        ("place",),
        each("place", lambda record: record.body["place"]),
        sorts=OF_THINGS,
        says="put it in {place}",
        seen_by=(),
    ),
    Kind(
        "finding.noted",
        "parts; the n-th finding is on the n-th",
        "record",
        {
            "word": TEXT,
            "cause": TEXT,
            "note": TEXT_OR_NOT,
            "covered": TRUTH,
            "photos": LIST_OR_NOT,
            **_REFERENCE,
        },
        ("finding", "of", "says", "approval"),
        _finding,
        sorts=OF_THINGS,
        says="found {word} ({cause})",
        narrows="{act} says that the finding {word} is covered",
    ),
    Kind(
        "approval.given",
        "findings",
        "office",
        {"as": TEXT, "reference": TEXT_OR_NOT},
        ("approval",),
        _approval,
        sorts=OF_THINGS,
        says="recorded the answer: {as}",
    ),
    Kind(
        "disposition.given",
        "parts",
        "record",
        {"as": TEXT, "why": TEXT_OR_NOT},
        ("disposition",),
        _disposition,
        sorts=OF_THINGS,
        says="dispositioned it: {as}",
    ),
    Kind(
        "hold.placed",
        "parts; the n-th hold is on the n-th",
        "record",
        {"why": TEXT},
        ("hold", "of", "says"),
        _hold,
        sorts=OF_BOTH,
        says="put it on hold: {why}",
    ),
    Kind(
        "hold.lifted",
        "holds",
        "release",
        {"why": TEXT},
        ("lifted",),
        each("lifted", lambda record: True),
        sorts=OF_THINGS,
        says="lifted the hold: {why}",
    ),
    Kind(
        "goods.handed_over",
        "parts, hardware positions",
        "office",
        {"to": TEXT, **_GOODS},
        ("handed_over",),
        _handed_over,
        sorts=OF_BOTH,
        says="handed it over to {to} ({consent})",
        there="hardware of it was handed over",
    ),
    Kind(
        "goods.taken_over",
        "the new part, or a hardware position",
        "record",
        {"of": TEXT, "goods": TEXT, **_PART, **_GOODS},
        ("taken_over", "made", "added", *_PART_FACETS),
        _taken_over,
        sorts=OF_BOTH,
        says="took it over from {of} ({consent})",
        there="hardware was taken over for it",
    ),
    Kind(
        "goods.given_back",
        "what was handed or taken over",
        "office",
        {"job": TEXT, **_GOODS},
        ("given_back",),
        _given_back,
        sorts=OF_BOTH,
        says="gave it back to {job} ({consent})",
    ),
)
