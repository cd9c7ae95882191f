"""Kinds about putting together: fitted, hardware, joints, consumables, what is in only for a time."""

from __future__ import annotations

from teardown_app.domain.ledger.kinds.kind import (
    LIST_OR_NOT,
    MEASURED_OR_NOT,
    TEXT,
    TEXT_OR_NOT,
    WHOLE,
    WHOLE_OR_NOT,
    Kind,
    Write,
    each,
    new_thing,
    whole_body,
)
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.ledger.times import is_day

MOVES = ("added", "put_in", "scrapped", "lost", "found_short", "left_over")
"""What can become of counted hardware; numbers that add up. The first two can be below zero."""

EXPLAINED_BY = {"scrapped": "why", "left_over": "why", "lost": "search", "found_short": "search"}
"""What became of hardware -> the field that says more of it; these are never below zero."""

RENEWALS = ("renewed", "kept")


def _part_and_place(record: Record) -> tuple[str, str]:
    if len(record.ent) != 2 or is_position(record.ent[0]) or not is_position(record.ent[1]):
        raise ValueError(f"{record.typ} names a part and then its place")
    return record.ent[0], record.ent[1]


def _fitted(record: Record) -> list[Write]:
    part, place = _part_and_place(record)
    writes: list[Write] = [(part, "fit", place), (place, "filled", part)]
    unit = {"as": "came with the unit", "why": part}
    return writes + [(position_thing(key), "scope", unit) for key in record.body.get("came_with", ())]


def _taken_out(record: Record) -> list[Write]:
    part, place = _part_and_place(record)
    return [(part, "fit", ""), (place, "filled", ""), (place, "taken_out", part)]


def _counted(record: Record) -> list[Write]:
    """One bag may hold the hardware of several positions: it is counted, and balances, as one."""
    value = {"found": record.body["found"], "with": tuple(sorted(set(record.ent)))}
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
    if "expiry" in record.body and not is_day(record.body["expiry"]):
        raise ValueError("its expiry is no day")
    return [(thing, "renewal", record.body) for thing in record.ent]


def _temporary(word: str) -> Kind:
    def write(record: Record) -> list[Write]:
        writes: list[Write] = [(thing, "temporary", word) for thing in record.ent]
        if "what" in record.body:
            thing = new_thing(record)
            writes += [(thing, "made", "temporary"), (thing, "what", record.body["what"])]
        return writes

    fields = {"what": TEXT_OR_NOT, "note": TEXT_OR_NOT}
    about = "temporary positions, or what was added on the job"
    return Kind(f"temporary.{word}", about, "record", fields, ("temporary", "made", "what"), write)


KINDS = (
    Kind(
        "part.fitted",
        "part, position",
        "record",
        {"came_with": LIST_OR_NOT, "note": TEXT_OR_NOT, "reference": TEXT_OR_NOT},
        ("fit", "filled", "scope"),
        _fitted,
    ),
    Kind(
        "part.taken_out",
        "part, position",
        "record",
        {"why": TEXT_OR_NOT},
        ("fit", "filled", "taken_out"),
        _taken_out,
    ),
    Kind(
        "hardware.counted",
        "hardware positions of one bag",
        "record",
        {"found": WHOLE, "bag": TEXT_OR_NOT, "reference": TEXT_OR_NOT},
        ("found",),
        _counted,
    ),
    Kind(
        "hardware.moved",
        "hardware position",
        "record",
        {**dict.fromkeys(MOVES, WHOLE_OR_NOT), **dict.fromkeys(("why", "search", "reference"), TEXT_OR_NOT)},
        MOVES,
        _moved,
    ),
    Kind(
        "joint.opened",
        "hardware positions",
        "record",
        {"why": TEXT_OR_NOT},
        ("opened_joint",),
        each("opened_joint", lambda record: True),
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
        each("torque", whole_body),
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
    ),
    _temporary("in"),
    _temporary("out"),
)
