"""Kinds about work on a part: checks read, operations of a route, release."""

from __future__ import annotations

from typing import Any

from teardown_app.domain.ledger.kinds.kind import (
    LIST_OR_NOT,
    MEASURED_OR_NOT,
    TABLE_OR_NOT,
    TEXT,
    TEXT_OR_NOT,
    WHOLE,
    Field,
    Kind,
    Write,
)
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.ledger.times import is_time

VERDICTS = ("accept", "inconclusive", "reject")
"""Mild to severe; `not possible` leaves the check open and stands between."""


def check_facet(check: str, spot: str, when: str) -> str:
    """Name of the facet that one check at one spot and one time writes."""
    return f"check/{check}/{spot}/{when}"


STROKES = ("/", "|")
"""What no name of a check or a spot holds: facets and keys of open points are put together with them."""


def has_stroke(name: str) -> bool:
    """True for a name that could not be told apart again.

    >>> has_stroke("inlet/outlet"), has_stroke("inlet")
    (True, False)
    """
    return any(stroke in name for stroke in STROKES)


def _named(body: dict[str, Any]) -> str:
    """The facet of a reading. Raises ValueError for a check or spot that no bill can name so."""
    check, spot = body["check"], body.get("spot", "")
    if has_stroke(check) or has_stroke(spot):
        raise ValueError(f"{check} {spot}".strip() + " has a stroke in its name")
    return check_facet(check, spot, body["when"])


def operation_facet(route: str, operation: str, pass_: int) -> str:
    """Name of the facet of one pass of one operation of a route."""
    return f"operation/{route}/{operation}/{pass_}"


def _read(record: Record) -> list[Write]:
    body = record.body
    if body["verdict"] not in VERDICTS:
        raise ValueError(f"unknown verdict {body['verdict']!r}")
    facet = _named(body)
    return [(thing, facet, body) for thing in record.ent]


def _not_possible(record: Record) -> list[Write]:
    body = record.body
    facet = _named(body)
    return [(thing, facet, {**body, "verdict": "not possible"}) for thing in record.ent]


def _operation(word: str) -> Kind:
    def write(record: Record) -> list[Write]:
        body = record.body
        if word == "done" and "began" in body and not is_time(body["began"]):
            raise ValueError("what it says of its beginning is no time")
        facet = operation_facet(body["route"], body["operation"], body["pass"])
        return [(thing, facet, word) for thing in record.ent]

    fields = {"route": TEXT, "operation": TEXT, "pass": WHOLE, "note": TEXT_OR_NOT, "values": TABLE_OR_NOT}
    right = "record"
    if word == "done":
        fields |= {"began": TEXT_OR_NOT, "reference": TEXT_OR_NOT}
    if word == "skipped":
        fields["why"] = TEXT
        right = "release"
    return Kind(f"operation.{word}", "parts", right, fields, ("operation",), write)


def _wait_over(record: Record) -> list[Write]:
    body = record.body
    facet = "wait_over/" + operation_facet(body["route"], body["operation"], body["pass"])
    return [(thing, facet, True) for thing in record.ent]


def _released(record: Record) -> list[Write]:
    covers: dict[str, Any] = record.body["covers"]
    lines: dict[str, Any] = record.body.get("lines", {})
    for listed in (*(covers[thing] for thing in record.ent), *lines.values()):
        if not isinstance(listed, list) or not all(isinstance(one, str) for one in listed):
            raise ValueError("what a release covers, or for which lines, is no list of texts")
    return [(thing, "released", tuple(lines.get(thing, ()))) for thing in record.ent]


_CHECK = {"check": TEXT, "spot": TEXT_OR_NOT, "when": TEXT, "note": TEXT_OR_NOT}

KINDS = (
    Kind(
        "check.read",
        "parts, positions",
        "record",
        {
            **_CHECK,
            "verdict": TEXT,
            "value": MEASURED_OR_NOT,
            "limit": TEXT_OR_NOT,
            "method": TEXT_OR_NOT,
            "instrument": TEXT_OR_NOT,
            "readings": LIST_OR_NOT,
            "measured": TABLE_OR_NOT,
            "came_out": TABLE_OR_NOT,
            "uncertainty": MEASURED_OR_NOT,
            "decided": TABLE_OR_NOT,
            "read_with": TABLE_OR_NOT,
            "unfit": TEXT_OR_NOT,
            "against": MEASURED_OR_NOT,
            "kind": TEXT_OR_NOT,
            "raw": TEXT_OR_NOT,
            "said": LIST_OR_NOT,
            "reference": TEXT_OR_NOT,
        },
        ("check",),
        _read,
    ),
    Kind(
        "check.not_possible",
        "parts, positions",
        "record",
        {**_CHECK, "why": TEXT, "expected": TEXT_OR_NOT},
        ("check",),
        _not_possible,
    ),
    _operation("started"),
    _operation("done"),
    _operation("stopped"),
    _operation("skipped"),
    Kind(
        "wait.over",
        "parts",
        "release",
        {"route": TEXT, "operation": TEXT, "pass": WHOLE, "why": TEXT},
        ("wait_over",),
        _wait_over,
    ),
    Kind("part.released", "parts", "release", {"covers": Field(dict), "lines": TABLE_OR_NOT}, ("released",), _released),
)
