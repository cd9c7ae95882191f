"""What two tablets say of one part: which holds. Words in quotes are the table's in `docs/formats/records.md`."""

from __future__ import annotations

from typing import Any

from tests.state.two_tablets import Case, Said, alike, pair


def _answer(word: str, **more: str) -> Said:
    return "approval.given", "{finding}", {"as": word, **more}


def _answered(one: str, other: str, holds: str) -> Case:
    which = "{part}|approval/{finding}"
    return Case("approval", "{finding}", _answer(one), _answer(other), {"as": holds}, which)


def _disposed(mild: str, severe: str) -> Case:
    said = pair("disposition.given", "{part}", {"as": mild}, {"as": severe})
    return Case("disposition", "{part}", *said, severe, "{part}|disposition")


RUNOUT = "check/runout//finished"


def _read(word: str, **more: Any) -> Said:
    body = {"check": "runout", "when": "finished", **more}
    if word == "not possible":
        return "check.not_possible", "{part}", {**body, "why": "no gauge"}
    return "check.read", "{part}", {**body, "verdict": word}


def _judged(mild: str, severe: str) -> Case:
    return Case(RUNOUT, "{part}", _read(mild), _read(severe), {"verdict": severe}, "{part}|" + RUNOUT)


def _um(text: str) -> dict[str, str]:
    return {"text": text, "unit": "um"}


def _work(word: str) -> Said:
    body = {"route": "clean", "operation": "rinse", "pass": 1}
    return f"operation.{word}", "{part}", body | ({"why": "clean"} if word == "skipped" else {})


def _worked(less: str, more: str) -> Case:
    facet = "operation/clean/rinse/1"
    return Case(facet, "{part}", _work(less), _work(more), less, "{part}|" + facet)


def _noted(facet: str, one: str, other: str) -> Case:
    """Of two texts none is safer: the first in text order holds."""
    said = pair("part.noted", "{part}", {facet: one}, {facet: other})
    return Case(facet, "{part}", *said, min(one, other), f"{{part}}|{facet}")


OF_A_PART = [
    # approval: "declined, asked, approved, covered"; "by: the answer"
    _answered("approved", "declined", holds="declined"),
    _answered("asked", "declined", holds="declined"),
    _answered("covered", "declined", holds="declined"),
    _answered("asked", "approved", holds="asked"),
    _answered("asked", "covered", holds="asked"),
    _answered("approved", "covered", holds="approved"),
    alike(
        "approval",
        "{finding}",
        (_answer("declined", reference="K-2"), _answer("declined", reference="K-1")),
        {"as": "declined"},
    ),
    # disposition: "the more severe" of "use as is, rework, repair, spare, return unrepaired, scrap"
    _disposed("use as is", "rework"),
    _disposed("rework", "repair"),
    _disposed("repair", "spare"),
    _disposed("spare", "return unrepaired"),
    _disposed("return unrepaired", "scrap"),
    _disposed("use as is", "scrap"),
    # check: "reject, inconclusive, not possible, accept"; "by: the verdict"
    _judged("accept", "not possible"),
    _judged("not possible", "inconclusive"),
    _judged("inconclusive", "reject"),
    _judged("accept", "reject"),
    _judged("accept", "inconclusive"),
    _judged("not possible", "reject"),
    alike(
        RUNOUT, "{part}", (_read("accept", value=_um("0.3")), _read("accept", value=_um("0.2"))), {"verdict": "accept"}
    ),
    # operation: "started, stopped, skipped, done"
    _worked("started", "stopped"),
    _worked("stopped", "skipped"),
    _worked("skipped", "done"),
    _worked("started", "done"),
    # "-": none is safer
    _noted("out_of", "11", "10"),
    _noted("meant_for", "11", "10"),
    _noted("part_number", "PN-2", "PN-1"),
    _noted("owner", "other job", "customer"),
    _noted("origin", "repaired", "as received"),
    _noted("condition", "worn", "good"),
    _noted("place", "RACK 2", "RACK 1"),
    _noted("set_mark", "II", "I"),
    Case(
        "written/serial",
        "{part}",
        *pair("part.noted", "{part}", {"written": {"serial": "2"}}, {"written": {"serial": "1"}}),
        "1",
        "{part}|written/serial",
    ),
    # number: settles nothing; open points: "two numbers on one part do not: both answer"
    Case(
        "number",
        "{part}",
        *pair("part.tagged", "{part}", {"number": "P7K3M0002C"}, {"number": "P7K3M0001A"}),
        "P7K3M0001A",
    ),
]
