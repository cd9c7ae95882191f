"""Which right each kind of record needs, and what taking one back needs.

Transcribed by hand from `docs/formats/records.md` (*Kinds*; *State*, 2), never from the code: a right that is changed
in the code has to be changed here and there too.
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
    """A record, and the rights that taking it back needs beside *record*."""

    typ: str
    more: dict[str, Any]
    of_another: str
    own: str = ""


WEIGHTY = [
    # "for somebody else's disposition scrap (of *scrap*) or release"
    TakenBack("disposition.given", {"as": "scrap"}, "scrap"),
    TakenBack("disposition.given", {"as": "return unrepaired"}, "release"),
    TakenBack("disposition.given", {"as": "use as is"}, "release"),
    # "for his hold or reject release"
    TakenBack("hold.placed", {}, "release"),
    TakenBack("check.read", {"verdict": "reject"}, "release"),
    # "for his declined answer office"
    TakenBack("approval.given", {"as": "declined"}, "office"),
    # "for a closing office and for a reopening sign, whoever made them"
    TakenBack("job.closed", {}, "office", own="office"),
    TakenBack("job.reopened", {}, "sign", own="sign"),
]
LIGHT = [
    TakenBack("check.read", {"verdict": "inconclusive"}, ""),
    TakenBack("check.read", {"verdict": "accept"}, ""),
    TakenBack("approval.given", {"as": "asked"}, ""),
    *(
        TakenBack(typ, {}, "")
        for typ in IN_A_JOB
        if typ not in {each.typ for each in WEIGHTY} | {"record.voided", "job.opened"}
    ),
]
"""All others: only these are named as needing more. Taking back a correction is another matter,
and without its opening there is no job."""
