"""Kinds about the job as a whole: opened, amended, closed, its scope, signatures, corrections."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.ledger.kinds.kind import (
    ALL,
    JOB,
    LIST,
    LIST_OR_NOT,
    OF_JOB,
    OF_PLACES,
    RELEASE,
    SIGNATURE,
    TABLE_OR_NOT,
    TEXT,
    TEXT_OR_NOT,
    TOOL,
    WHOLE,
    WHOLE_OR_NOT,
    Kind,
    Write,
    each,
    whole_body,
)
from teardown_app.domain.ledger.record import Record, position_thing

AMENDABLE = ("order", "name", "serial", "due", "options")
"""What a later record may change of what the opening said."""

SCOPES = {
    "received complete": "in",
    "received short": "in",
    "not received": "out",
    "out of scope": "out",
    "not on this tool": "out",
    "left fitted": "left",
    "came with the unit": "left",
}
"""What is said of an assembly or position, and how its places count: `in` they must be filled, `out` they are not
asked for, `left` they stayed filled."""


class Opening(NamedTuple):
    """Of what opens a job what its state rests on: hash of the bill, number of the rules, options."""

    bill: str
    rules: int
    options: list[str]


class Added(NamedTuple):
    """A place that the bill lacks: beneath which one, and for what."""

    parent: str
    part_number: str
    description: str


class Word(NamedTuple):
    """What was said of a place or of all beneath it: a word of SCOPES, and why (of a unit's: the part)."""

    word: str
    why: str = ""

    @property
    def counts(self) -> str:
        """How places count of which nothing else is said: `in`, `out` or `left`."""
        return SCOPES[self.word]


UNIT = "came with the unit"
"""The word that a fitting says of what is beneath."""

RECEIVED = tuple(word for word in SCOPES if word != UNIT)
"""What can be said as received; the other word is said by a fitting."""


def _opened(record: Record) -> list[Write]:
    body = record.body
    writes: list[Write] = [(JOB, "opened", Opening(body["bill"], body["rules"], body["options"]))]
    return writes + _amended(record)


def _amended(record: Record) -> list[Write]:
    return [(JOB, name, record.body[name]) for name in AMENDABLE if name in record.body]


def _scope(record: Record) -> list[Write]:
    body = record.body
    value = Word(body["as"], body.get("why", ""))
    if body["as"] not in RECEIVED:
        raise ValueError(f"unknown word {body['as']!r} for what was received")
    return [(thing, "scope", value) for thing in record.ent]


def _line_added(record: Record) -> list[Write]:
    body = record.body
    return [(record.ent[0], "line", Added(body["parent"], body["part_number"], body["description"]))]


def _voided(record: Record) -> list[Write]:
    return [("void:" + record.body["record"], "voided", record.body["why"])]


def _conceded(record: Record) -> list[Write]:
    return [("point:" + record.body["key"], "concession", record.body)]


def added_position(parent: str, number: str) -> str:
    """Thing name of a place that the bill lacks: its parent's place, `.+` and its first part's number."""
    return position_thing(f"{parent}.+{number}" if parent else f"+{number}")


KINDS = (
    Kind(
        "job.opened",
        "job",
        "office",
        {
            "number": TEXT,
            "letters": TEXT,
            "order": TEXT,
            "name": TEXT_OR_NOT,
            "serial": TEXT,
            "due": TEXT_OR_NOT,
            "options": LIST,
            "bill": TEXT,
            "model": TEXT,
            "revision": TEXT,
            "rules": WHOLE,
            "drawings": TABLE_OR_NOT,
        },
        ("opened", *AMENDABLE),
        _opened,
        sorts=OF_JOB,
        says="opened the job for order {order}, serial {serial}",
        lasting="The opening of a job",
        reach=TOOL,
    ),
    Kind(
        "job.amended",
        "job",
        "office",
        {
            "order": TEXT_OR_NOT,
            "name": TEXT_OR_NOT,
            "serial": TEXT_OR_NOT,
            "due": TEXT_OR_NOT,
            "options": LIST_OR_NOT,
            "rules": WHOLE_OR_NOT,
            "why": TEXT,
        },
        AMENDABLE,
        _amended,
        sorts=OF_JOB,
        says="amended the job: {why}",
        reach=TOOL,
    ),
    Kind(
        "job.closed",
        "job",
        "sign",
        {"covers": LIST_OR_NOT, "note": TEXT_OR_NOT},
        ("end",),
        each("end", lambda record: "closed"),
        sorts=OF_JOB,
        says="closed the job",
        lasting="A closing",
        reach=ALL,
        seen_by=(RELEASE,),
    ),
    Kind(
        "job.reopened",
        "job",
        "office",
        {"why": TEXT},
        ("end",),
        each("end", lambda record: "open"),
        sorts=OF_JOB,
        says="reopened the job: {why}",
        lasting="A reopening",
        reach=ALL,
    ),
    Kind(
        "configuration.received",
        "positions; an assembly counts for all beneath it",
        "record",
        {"as": TEXT, "why": TEXT_OR_NOT, "reference": TEXT_OR_NOT},
        ("scope",),
        _scope,
        sorts=OF_PLACES,
        says="{as}",
        narrows="{act} says {as}",
    ),
    Kind(
        "line.added",
        "the new position",
        "record",
        {
            "parent": TEXT,
            "part_number": TEXT,
            "description": TEXT,
            "number": TEXT,
            "why": TEXT_OR_NOT,
        },
        ("line",),
        _line_added,
        sorts=OF_PLACES,
        says="added a place: {description}",
        reach=TOOL,
    ),
    Kind(
        "photo.taken",
        "parts, positions, job",
        "record",
        {"photos": LIST, "area": TEXT_OR_NOT, "note": TEXT_OR_NOT, "when": TEXT_OR_NOT},
        ("photo",),
        each("photo", whole_body),
        says="photographed it",
        seen_by=(),
    ),
    Kind(
        "point.conceded",
        "the part or position of the open point",
        "concede",
        {
            "key": TEXT,
            "why": TEXT,
            "reference": TEXT,
            "limit": TABLE_OR_NOT,
            "covers": LIST,
            "lines": LIST_OR_NOT,
        },
        ("concession",),
        _conceded,
        says="conceded an open point: {why} ({reference})",
        seen_by=(SIGNATURE,),
    ),
    Kind(
        "work.signed",
        "what is signed: job, assembly, part",
        "sign",
        {"meaning": TEXT, "covers": LIST},
        ("signature",),
        each("signature", whole_body),
        says="signed: {meaning}",
        lasting="A signature",
        seen_by=(),
    ),
    Kind(
        "record.voided",
        "what the corrected record was about",
        "record",
        {"record": TEXT, "why": TEXT, "reference": TEXT_OR_NOT},
        ("voided",),
        _voided,
        says="took back {record}: {why}",
        lasting="A taking back",
        seen_by=(SIGNATURE,),
    ),
)
