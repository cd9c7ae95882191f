"""Kinds about work on a part: checks read, operations of a route, release."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from teardown_app.domain.ledger.kinds.kind import (
    LIST_OR_NOT,
    MEASURED_OR_NOT,
    OF_BOTH,
    OF_THINGS,
    SIGNATURE,
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


class Reading(NamedTuple):
    """What a check read, or that it could not be read; `body` is the record's, for what judges its numbers."""

    check: str
    spot: str
    when: str
    verdict: str
    instrument: str
    unfit: str
    """Why its author was not fit to take it; empty where he was."""
    expected: str
    """On which day the result of one that was not possible is expected."""
    body: Mapping[str, Any]

    @classmethod
    def told(cls, body: Mapping[str, Any]) -> Reading:
        """As its record says it."""
        return cls(
            check=body["check"],
            spot=body.get("spot", ""),
            when=body["when"],
            verdict=body["verdict"],
            instrument=body.get("instrument", ""),
            unfit=body.get("unfit", ""),
            expected=body.get("expected", ""),
            body=body,
        )

    @property
    def shown(self) -> str:
        """As it was typed; empty where it has no number."""
        return ", ".join(self.body.get("readings") or ()) or " ".join((self.value or {}).values())

    @property
    def value(self) -> Mapping[str, str] | None:
        """Number and unit as typed, None where several were read, or none."""
        return self.body.get("value")


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


def operation_facet(route: str, operation: str, pass_: int) -> str:
    """Name of the facet of one pass of one operation of a route."""
    return f"operation/{route}/{operation}/{pass_}"


class Pass(NamedTuple):
    """One pass of one operation of a route."""

    route: str
    operation: str
    number: int

    @property
    def facet(self) -> str:
        """The facet that its records write."""
        return operation_facet(self.route, self.operation, self.number)


def pass_of(record: Record) -> Pass:
    """Of which pass a record of work is."""
    return Pass(record.body["route"], record.body["operation"], record.body["pass"])


def _read(record: Record) -> list[Write]:
    body = record.body
    if body["verdict"] not in VERDICTS:
        raise ValueError(f"unknown verdict {body['verdict']!r}")
    return _of_check(record, body)


def _not_possible(record: Record) -> list[Write]:
    return _of_check(record, {**record.body, "verdict": "not possible"})


def _of_check(record: Record, body: Mapping[str, Any]) -> list[Write]:
    """Raises ValueError for a check or spot that no bill can name so."""
    reading = Reading.told(body)
    if has_stroke(reading.check) or has_stroke(reading.spot):
        raise ValueError(f"{reading.check} {reading.spot}".strip() + " has a stroke in its name")
    facet = check_facet(reading.check, reading.spot, reading.when)
    return [(thing, facet, reading) for thing in record.ent]


_OPERATIONS = {
    "started": ("began {operation}", ""),
    "done": ("finished {operation}", "{operation} was done twice in pass {pass}; {act} says that it is done"),
    "stopped": ("stopped {operation}", ""),
    "skipped": ("skipped {operation}: {why}", ""),
}


WRITES_DOWN = ("started", "done")
"""Records of an operation whose `values` the route may ask for."""


def _operation(word: str) -> Kind:
    def write(record: Record) -> list[Write]:
        if word == "done" and "began" in record.body and not is_time(record.body["began"]):
            raise ValueError("what it says of its beginning is no time")
        if word in WRITES_DOWN and not all(isinstance(said, str) for said in record.body.get("values", {}).values()):
            raise ValueError("what it has written down is no text")
        return [(thing, pass_of(record).facet, word) for thing in record.ent]

    fields = {"route": TEXT, "operation": TEXT, "pass": WHOLE, "note": TEXT_OR_NOT, "values": TABLE_OR_NOT}
    right = "record"
    if word == "done":
        fields |= {"began": TEXT_OR_NOT, "reference": TEXT_OR_NOT}
    if word == "skipped":
        fields["why"] = TEXT
        right = "release"
    says, narrows = _OPERATIONS[word]
    row = (f"operation.{word}", "parts", right, fields, ("operation",), write)
    return Kind(*row, sorts=OF_THINGS, says=says, narrows=narrows)


def _wait_over(record: Record) -> list[Write]:
    return [(thing, "wait_over/" + pass_of(record).facet, True) for thing in record.ent]


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
        sorts=OF_BOTH,
        says="read {check} ({when}): {verdict}",
    ),
    Kind(
        "check.not_possible",
        "parts, positions",
        "record",
        {**_CHECK, "why": TEXT, "expected": TEXT_OR_NOT},
        ("check",),
        _not_possible,
        sorts=OF_BOTH,
        says="could not read {check} ({when}): {why}",
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
        sorts=OF_THINGS,
        says="said that the wait after {operation} is over: {why}",
    ),
    Kind(
        "part.released",
        "parts",
        "release",
        {"covers": Field(dict), "lines": TABLE_OR_NOT},
        ("released",),
        _released,
        sorts=OF_THINGS,
        says="released it",
        seen_by=(SIGNATURE,),
    ),
)
