"""Kinds about one part: where it came from, its names, what was found, what is to become of it."""

from __future__ import annotations

from teardown_app.domain.ledger.kinds.kind import (
    LIST_OR_NOT,
    TABLE_OR_NOT,
    TEXT,
    TEXT_OR_NOT,
    TRUTH,
    WHOLE_OR_NOT,
    Kind,
    Write,
    Writes,
    each,
    is_said,
    new_thing,
    whole_body,
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
            writes.append((finding, "approval", {"as": "covered", "reference": ""}))
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
    return each("approval", whole_body)(record)  # type: ignore[return-value]


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


def _goods(facet: str) -> Writes:
    def write(record: Record) -> list[Write]:
        _how_many(record)
        return [(thing, facet, record.body) for thing in record.ent]

    return write


def _taken_over(record: Record) -> list[Write]:
    body, thing, quantity = record.body, record.ent[0], _how_many(record)
    if thing.startswith("@"):
        return [(thing, "taken_over", body), (thing, "added", quantity)]
    thing = new_thing(record)
    return [(thing, "taken_over", body), (thing, "made", record.typ), *_about_part(record, thing)]


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
    ),
    Kind(
        "part.brought_in",
        "the new part",
        "record",
        {**_PART, "origin": TEXT, "part_number": TEXT},
        ("made", "came_out", *_PART_FACETS),
        _made,
    ),
    Kind("part.tagged", "part", "record", {"number": TEXT}, ("number", "bound"), _noted),
    Kind(
        "part.renumbered",
        "part",
        "record",
        {"number": TEXT, "why": TEXT},
        ("number", "bound"),
        _noted,
    ),
    Kind("part.same_as", "the parts that are one", "record", _SAME, ("same_as",), _same_as),
    Kind("part.noted", "parts", "record", {**_PART, **_REFERENCE}, ("came_out", *_PART_FACETS), _moved_out),
    Kind(
        "thing.put",
        "parts, carriers",
        "record",
        {"place": TEXT, "note": TEXT_OR_NOT},
        ("place",),
        each("place", lambda record: record.body["place"]),
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
    ),
    Kind(
        "approval.given",
        "findings",
        "office",
        {"as": TEXT, "reference": TEXT_OR_NOT},
        ("approval",),
        _approval,
    ),
    Kind(
        "disposition.given",
        "parts",
        "record",
        {"as": TEXT, "why": TEXT_OR_NOT},
        ("disposition",),
        _disposition,
    ),
    Kind(
        "hold.placed",
        "parts; the n-th hold is on the n-th",
        "record",
        {"why": TEXT},
        ("hold", "of", "says"),
        _hold,
    ),
    Kind("hold.lifted", "holds", "release", {"why": TEXT}, ("lifted",), each("lifted", lambda record: True)),
    Kind(
        "goods.handed_over",
        "parts, hardware positions",
        "office",
        {"to": TEXT, **_GOODS},
        ("handed_over",),
        _goods("handed_over"),
    ),
    Kind(
        "goods.taken_over",
        "the new part, or a hardware position",
        "record",
        {"of": TEXT, "goods": TEXT, **_PART, **_GOODS},
        ("taken_over", "made", "added", *_PART_FACETS),
        _taken_over,
    ),
    Kind(
        "goods.given_back",
        "what was handed or taken over",
        "office",
        {"job": TEXT, **_GOODS},
        ("given_back",),
        _goods("given_back"),
    ),
)
