"""What two tablets say of the job or of one place: which holds. Words in quotes are those of the documents."""

from __future__ import annotations

from typing import Any

from tests.state.two_tablets import Case, Said, alike, pair


def _amended(facet: str, one: Any, other: Any) -> Case:
    """None is safer: of the two `other` is first in text order."""
    said = pair("job.amended", "job", {facet: one, "why": "asked"}, {facet: other, "why": "asked"})
    return Case(facet, "job", *said, other, f"job|{facet}")


OF_THE_JOB = [
    _amended("order", "A-3", "A-2"),
    _amended("name", "PUMP", "FAN"),
    _amended("serial", "1003", "1002"),
    _amended("due", "2026-06-01", "2026-05-01"),
    # options: "all that are named"
    Case("options", "job", *pair("job.amended", "job", {"options": ["n2", "ups"], "why": "asked"},
                                 {"options": ["heater", "n2"], "why": "asked"}), ["heater", "n2", "ups"],
         "job|options"),
    # end: "open"; "several that differ are no point"
    Case("end", "job", ("job.reopened", "job", {"why": "came back"}), ("job.closed", "job", {}), "open"),
]  # fmt: skip


def _received(word: str, **more: str) -> Said:
    return "configuration.received", "@10", {"as": word, **more}


def _scoped(safer: str, other: str) -> Case:
    return Case("scope", "@10", _received(other), _received(safer), {"as": safer}, "10|scope")


def _counted(number: int, about: str = "@20") -> Said:
    return "hardware.counted", about, {"found": number}


def _renewed(word: str, **more: str) -> Said:
    return "consumable.renewed", "@30", {"as": word, **more}


def _due(one: Said, other: Said) -> Case:
    return Case("renewal", "@30", one, other, None, "30|renewal")


def _fitted(part: str, place: str) -> Said:
    return "part.fitted", f"{part} {place}", {}


def _moved(facet: str, one: int, other: int) -> Case:
    """Numbers add up; some can be below zero."""
    said = pair("hardware.moved", "@20", {facet: one, **EXPLAINED}, {facet: other, **EXPLAINED})
    return Case(facet, "@20", *said, one + other, differ=False)


EXPLAINED = {"why": "bent", "search": "drip tray"}


OF_A_PLACE = [
    # scope: "*in scope* wins over *left*, and *left* over *out*"; "by: the word"
    _scoped("received complete", "left fitted"),
    _scoped("received complete", "not received"),
    _scoped("received short", "not on this tool"),
    _scoped("left fitted", "out of scope"),
    _scoped("left fitted", "not received"),
    alike("scope", "@10", (_received("not received", why="seen"), _received("not received", why="told")), {
        "as": "not received",
    }),
    # found: "the smaller count"; "by: count and bag"; "several that differ" of those that name the whole bag; "where
    # one holds and an unreplaced count of fewer places is there", for every place of the bag
    Case("found", "@20", _counted(3), _counted(4), {"found": 3}, "20|found"),
    Case("found", "@20", _counted(3, "@20 @21"), _counted(4), {"found": 3}, "20|found 21|found"),
    Case("found", "@20", _counted(4), _counted(4, "@20 @21"), {"found": 4}, "20|found 21|found"),
    # renewal: "due"; "by: renewed or kept, lot, expiry"
    _due(_renewed("renewed"), _renewed("kept")),
    _due(_renewed("renewed", lot="L1"), _renewed("renewed", lot="L2")),
    _due(_renewed("renewed", expiry="2026-03-04"), _renewed("renewed", expiry="2026-03-05")),
    alike("renewal", "@30", (_renewed("renewed", lot="L1", old="torn"), _renewed("renewed", lot="L1", old="flat")), {
        "as": "renewed", "lot": "L1",
    }),
    # temporary: "wrong for running and for shipping"; its own points say so
    Case("temporary", "@40", ("temporary.in", "@40", {}), ("temporary.out", "@40", {}), None),
    # fit: "fitted nowhere"; filled: "not filled"; the place's own points say so
    Case("fit", "{part}", _fitted("{part}", "@10"), _fitted("{part}", "@11"), None),
    Case("filled", "@10", _fitted("{part}", "@10"), _fitted("{other}", "@10"), None),
    # sum; the last four "are not below zero"
    _moved("added", 2, -5),
    _moved("put_in", 2, -5),
    *(_moved(facet, 2, 5) for facet in ("scrapped", "lost", "found_short", "left_over")),
]  # fmt: skip
