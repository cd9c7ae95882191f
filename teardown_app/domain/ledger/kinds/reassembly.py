"""Kinds about putting together: fitted, hardware, joints, consumables, what is in only for a time."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from teardown_app.domain.ledger.kinds.job import UNIT, Word
from teardown_app.domain.ledger.kinds.kind import (
    LIST_OR_NOT,
    MEASURED_OR_NOT,
    OF_BOTH,
    OF_PLACES,
    SIGNATURE,
    TEXT,
    TEXT_OR_NOT,
    WHOLE,
    WHOLE_OR_NOT,
    Kind,
    Write,
    each,
    new_thing,
)
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.ledger.times import is_day

MOVES = ("added", "put_in", "scrapped", "lost", "found_short", "left_over")
"""What can become of counted hardware; numbers that add up. The first two can be below zero."""

EXPLAINED_BY = {"scrapped": "why", "left_over": "why", "lost": "search", "found_short": "search"}
"""What became of hardware -> the field that says more of it; these are never below zero."""

RENEWALS = ("renewed", "kept")


class Count(NamedTuple):
    """How many were found, and in which places together, sorted."""

    found: int
    places: tuple[str, ...]


class Torque(NamedTuple):
    """One pass of torque on some screws; `value` and `instrument` are None where it was done by hand."""

    name: str
    """Which pass: a share in percent, again, or after the first heat."""
    screws: int
    value: Mapping[str, str] | None
    instrument: str | None
    early: str

    @property
    def shown(self) -> str:
        """As it was typed; empty where it has no number."""
        return " ".join((self.value or {}).values())


class Renewal(NamedTuple):
    """What was done to a consumable."""

    word: str
    lot: str | None
    expiry: str | None
    part_number: str
    body: Mapping[str, Any]


def _part_and_place(record: Record) -> tuple[str, str]:
    if len(record.ent) != 2 or is_position(record.ent[0]) or not is_position(record.ent[1]):
        raise ValueError(f"{record.typ} names a part and then its place")
    return record.ent[0], record.ent[1]


def _fitted(record: Record) -> list[Write]:
    part, place = _part_and_place(record)
    writes: list[Write] = [(part, "fit", place), (place, "filled", part)]
    unit = Word(UNIT, part)
    return writes + [(position_thing(key), "scope", unit) for key in record.body.get("came_with", ())]


def _taken_out(record: Record) -> list[Write]:
    part, place = _part_and_place(record)
    return [(part, "fit", ""), (place, "filled", ""), (place, "taken_out", part)]


def _counted(record: Record) -> list[Write]:
    """One bag may hold the hardware of several positions: it is counted, and balances, as one."""
    places = tuple(sorted({*record.ent}))
    if len(places) < len(record.ent):
        raise ValueError("a count names each place once")
    value = Count(record.body["found"], places)
    return [(thing, "found", value) for thing in record.ent]


def _moved(record: Record) -> list[Write]:
    body = record.body
    for name, text in EXPLAINED_BY.items():
        if body.get(name, 0) < 0:
            raise ValueError(f"{name} is below zero")
        if body.get(name, 0) > 0 and not body.get(text, "").strip():
            raise ValueError(f"{name} lacks {text}")
    return [(record.ent[0], name, body[name]) for name in MOVES if name in body]


def _renewed(record: Record) -> list[Write]:
    if record.body["as"] not in RENEWALS:
        raise ValueError(f"unknown word {record.body['as']!r} for a consumable")
    body = record.body
    if "expiry" in body and not is_day(body["expiry"]):
        raise ValueError("its expiry is no day")
    renewal = Renewal(body["as"], body.get("lot"), body.get("expiry"), body.get("part_number", ""), body)
    return [(thing, "renewal", renewal) for thing in record.ent]


def _torque(record: Record) -> Torque:
    body = record.body
    return Torque(body["pass"], body["screws"], body.get("torque"), body.get("instrument"), body.get("early", ""))


def _temporary(word: str, *, says: str, there: str, lasting: str = "") -> Kind:
    def write(record: Record) -> list[Write]:
        writes: list[Write] = [(thing, "temporary", word) for thing in record.ent]
        if "what" in record.body:
            thing = new_thing(record)
            writes += [(thing, "made", "temporary"), (thing, "what", record.body["what"])]
        return writes

    fields = {"what": TEXT_OR_NOT, "note": TEXT_OR_NOT}
    about = "temporary positions, or what was added on the job"
    row = (f"temporary.{word}", about, "record", fields, ("temporary", "made", "what"), write)
    return Kind(*row, sorts=OF_BOTH, says=says, there=there, lasting=lasting)


KINDS = (
    Kind(
        "part.fitted",
        "part, position",
        "record",
        {"came_with": LIST_OR_NOT, "note": TEXT_OR_NOT, "reference": TEXT_OR_NOT},
        ("fit", "filled", "scope"),
        _fitted,
        sorts=OF_BOTH,
        says="fitted it",
        there="{part} was fitted there",
        narrows="{act} says that what is beneath came with the unit",
        seen_by=(SIGNATURE,),
    ),
    Kind(
        "part.taken_out",
        "part, position",
        "record",
        {"why": TEXT_OR_NOT},
        ("fit", "filled", "taken_out"),
        _taken_out,
        sorts=OF_BOTH,
        says="took it out again",
        there="{part} was taken out there",
        seen_by=(SIGNATURE,),
    ),
    Kind(
        "hardware.counted",
        "hardware positions of one bag",
        "record",
        {"found": WHOLE, "bag": TEXT_OR_NOT, "reference": TEXT_OR_NOT},
        ("found",),
        _counted,
        sorts=OF_PLACES,
        says="counted {found}",
        there="{found} were counted there",
        narrows="{act} counted {found}, less than before or another bag",
    ),
    Kind(
        "hardware.moved",
        "hardware position",
        "record",
        {**dict.fromkeys(MOVES, WHOLE_OR_NOT), **dict.fromkeys(("why", "search", "reference"), TEXT_OR_NOT)},
        MOVES,
        _moved,
        sorts=OF_PLACES,
        says="moved hardware",
        there="its hardware was moved",
        narrows="{missed} (search: {search})",
    ),
    Kind(
        "joint.opened",
        "hardware positions",
        "record",
        {"why": TEXT_OR_NOT},
        ("opened_joint",),
        each("opened_joint", lambda record: True),
        sorts=OF_PLACES,
        says="opened the joint",
        there="its joint was opened",
    ),
    Kind(
        "joint.torqued",
        "hardware positions",
        "record",
        {
            "pass": TEXT,
            "torque": MEASURED_OR_NOT,
            "screws": WHOLE,
            "instrument": TEXT_OR_NOT,
            "note": TEXT_OR_NOT,
            "early": TEXT_OR_NOT,
        },
        ("torque",),
        each("torque", _torque),
        sorts=OF_PLACES,
        says="torqued pass {pass} % on {screws}",
        there="its joint was torqued",
    ),
    Kind(
        "consumable.renewed",
        "consumable positions",
        "record",
        {
            "as": TEXT,
            "lot": TEXT_OR_NOT,
            "expiry": TEXT_OR_NOT,
            "old": TEXT_OR_NOT,
            "part_number": TEXT_OR_NOT,
            "serial": TEXT_OR_NOT,
        },
        ("renewal",),
        _renewed,
        sorts=OF_PLACES,
        says="{as} the consumable",
        there="it was {as}",
    ),
    _temporary("in", says="put it in for a time", there="it was put in", lasting="That something is in for a time"),
    _temporary("out", says="took it out", there="it was taken out"),
)
