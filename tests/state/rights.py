"""Which right each kind of record needs, and what taking one back needs.

Transcribed by hand from `docs/formats/records.md` (*Kinds*, *Taking back*), never from the code: a right that is
changed in the code has to be changed here and there too.
"""

from __future__ import annotations

from typing import Any, NamedTuple

IN_A_JOB = {
    # the job
    "job.opened": "office",
    "job.amended": "office",
    "job.closed": "sign",
    "job.reopened": "office",
    "configuration.received": "record",
    "line.added": "record",
    "photo.taken": "record",
    "point.conceded": "concede",
    "work.signed": "sign",
    "record.voided": "record",
    # a part
    "part.taken_off": "record",
    "part.brought_in": "record",
    "part.tagged": "record",
    "part.renumbered": "record",
    "part.same_as": "record",
    "part.noted": "record",
    "thing.put": "record",
    "finding.noted": "record",
    "approval.given": "office",
    "disposition.given": "record",
    "hold.placed": "record",
    "hold.lifted": "release",
    "goods.handed_over": "office",
    "goods.taken_over": "record",
    "goods.given_back": "office",
    # work on it
    "check.read": "record",
    "check.not_possible": "record",
    "operation.started": "record",
    "operation.done": "record",
    "operation.stopped": "record",
    "operation.skipped": "release",
    "wait.over": "release",
    "part.released": "release",
    # putting together
    "part.fitted": "record",
    "part.taken_out": "record",
    "hardware.counted": "record",
    "hardware.moved": "record",
    "joint.opened": "record",
    "joint.torqued": "record",
    "consumable.renewed": "record",
    "temporary.in": "record",
    "temporary.out": "record",
}
"""Column *right* of the kinds of a job."""

OF_THE_SHOP = {
    "person.given": "office",
    "place.given": "record",
    "carrier.given": "record",
    "instrument.given": "office",
    "instrument.found_out": "release",
    "instrument.cleared": "release",
    "pin.enrolled": "record",
    "founding.joined": "office",
    "tablet.retired": "office",
    "clock.confirmed": "release",
    "numbers.issued": "record",
    "label.queued": "record",
    "label.sent": "record",
    "label.printed": "record",
    "label.dropped": "record",
    "label.voided": "record",
}
"""The same of the shop's."""

HEAVIER = {
    ("disposition.given", ("as", "scrap")): "scrap",  # "record; scrap for *scrap*"
    ("joint.torqued", ("early", "leaves today")): "release",  # "record; release with `early`"
    ("hardware.moved", ("added", -1)): "office",  # "record; office with `added` below zero"
}
"""Kind and a field that asks for more -> the right it then needs."""

WORDS: dict[str, dict[str, Any]] = {
    "configuration.received": {"as": "received short"},
    "approval.given": {"as": "approved"},
    "disposition.given": {"as": "rework"},
    "check.read": {"verdict": "accept"},
    "consumable.renewed": {"as": "renewed"},
}
"""Fields that take certain words only."""


class TakenBack(NamedTuple):
    """A record, and the rights that taking it back needs, whoever made it; None where it is not taken back."""

    typ: str
    more: dict[str, Any]
    rights: tuple[str, ...] | None


def _same(*kinds: str) -> list[TakenBack]:
    """Column *taken back*: same, or asks: "the right of making"."""
    return [TakenBack(typ, {}, (IN_A_JOB[typ],)) for typ in kinds]


def _never(*kinds: str) -> list[TakenBack]:
    """no."""
    return [TakenBack(typ, {}, None) for typ in kinds]


CASES = [
    *_never("job.opened", "work.signed", "job.closed", "job.reopened", "temporary.in"),
    TakenBack("job.amended", {"options": ["heater"]}, ("office",)),
    TakenBack("job.amended", {"order": "A-2"}, ("office",)),
    TakenBack("job.amended", {"rules": 2}, None),
    TakenBack("job.amended", {"rules": 2, "order": "A-2"}, None),  # "for every row ... that the target falls under"
    TakenBack("configuration.received", {"as": "received complete"}, ("record",)),
    TakenBack("configuration.received", {"as": "not on this tool"}, ("record",)),
    *_same("line.added", "photo.taken", "point.conceded", "part.taken_off", "part.brought_in", "part.tagged",
           "part.renumbered", "part.same_as", "thing.put", "finding.noted", "approval.given", "hold.lifted",
           "goods.handed_over", "goods.given_back", "check.not_possible", "operation.started", "operation.done",
           "operation.stopped", "operation.skipped", "wait.over", "part.released", "part.fitted", "part.taken_out",
           "hardware.counted", "joint.opened", "consumable.renewed", "temporary.out"),
    TakenBack("part.noted", {"condition": "worn"}, ("record",)),
    TakenBack("part.noted", {"owner": "customer"}, ("office", "record")),
    TakenBack("disposition.given", {"as": "scrap"}, ("scrap",)),
    TakenBack("disposition.given", {"as": "return unrepaired"}, ("release",)),
    TakenBack("disposition.given", {"as": "use as is"}, ("release",)),
    TakenBack("hold.placed", {}, ("release",)),
    TakenBack("goods.taken_over", {}, ("office",)),
    *(TakenBack("check.read", {"verdict": word}, ("record",)) for word in ("reject", "inconclusive", "accept")),
    TakenBack("hardware.moved", {"put_in": -1}, ("record",)),
    TakenBack("hardware.moved", {"added": 1}, ("record",)),
    TakenBack("hardware.moved", {"added": -1}, ("office",)),
    TakenBack("hardware.moved", {"added": -1, "put_in": -1}, ("office", "record")),
    TakenBack("hardware.moved", {"lost": 1, "search": "drip tray"}, ("record",)),
    TakenBack("joint.torqued", {}, ("record",)),
    TakenBack("joint.torqued", {"early": "leaves today"}, ("release",)),
]  # fmt: skip
"""Column *taken back* of the table of acts."""
