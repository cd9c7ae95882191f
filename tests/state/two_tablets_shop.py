"""What two tablets say of people, registers and labels: which holds. Words in quotes are the document's."""

from __future__ import annotations

from typing import Any

from tests.open_points.tablets import JOB
from tests.state.two_tablets import Case, Said, alike


def _person(**more: Any) -> Said:
    return "person.given", "person:CC", {"code": "CC", "rights": ["record", "release"], **more}


def _judged(one: Said, other: Said, **holds: Any) -> Case:
    return Case("person", "person:CC", one, other, holds)


def _place(**more: Any) -> Said:
    return "place.given", "place:RACK", {"name": "RACK", **more}


def _carrier(**more: Any) -> Said:
    return "carrier.given", "carrier:C1", {"name": "basket", **more, "number": "C1"}


def _retired(last: int) -> Said:
    return "tablet.retired", "tablet", {"tablet": "t7~0", "journal": JOB, "last": last, "reference": "lost"}


def _gauge(**more: Any) -> Said:
    return "instrument.given", "instrument:M1", {"number": "M1", "reads": "length", **more}


def _gauged(one: Said, other: Said, **holds: Any) -> Case:
    return Case("instrument", "instrument:M1", one, other, holds)


NUMBER = "P7K3M0001A"


def _label(word: str, **more: str) -> Said:
    return f"label.{word}", "labels", {"numbers": [NUMBER], **more}


def _perhaps(one: Said, other: Said) -> Case:
    return Case("label", f"number:{NUMBER}", one, other, {"as": "sent"})


OF_THE_SHOP = [
    # person: "fewest rights, earliest end, revoked"
    _judged(
        _person(rights=["record", "release", "sign"]),
        _person(rights=["sign", "office", "record"]),
        rights=["record", "sign"],
        until="",
        revoked=False,
    ),
    _judged(_person(until="2026-05-01"), _person(until="2026-04-01"), until="2026-04-01", rights=["record", "release"]),
    _judged(_person(until="2026-05-01"), _person(), until="2026-05-01", revoked=False),
    _judged(_person(revoked=True), _person(), revoked=True),
    # retired: "the highest"
    Case("retired", f"tablet:t7~0/{JOB}", _retired(4), _retired(7), {"last": 7, "without": []}),
    # known_place, carrier: "out of use"
    Case("known_place", "known_place:RACK", _place(note="by the door"), _place(out=True), {"out": True}),
    Case("carrier", "carrier:C1", _carrier(), _carrier(name="tray", out=True), {"out": True}),
    # instrument: "out of use, then due first"; a day that nobody gave is the first
    _gauged(_gauge(due="2026-04-01", out=True), _gauge(due="2026-03-01"), out=True),
    _gauged(_gauge(due="2027-01-01", name="A"), _gauge(due="2026-05-01", name="B"), due="2026-05-01"),
    _gauged(_gauge(name="B"), _gauge(due="2026-05-01", name="A"), name="B"),
    # label: "perhaps printed (sent)"; "by: how far it is"
    _perhaps(_label("queued"), _label("printed", where="printer")),
    _perhaps(_label("dropped", why="spare"), _label("printed", where="printer")),
    alike(
        "label",
        f"number:{NUMBER}",
        (_label("printed", where="printer"), _label("printed", where="file")),
        {"as": "printed"},
    ),
]
