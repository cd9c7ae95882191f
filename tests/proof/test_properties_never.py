"""What nobody concedes goes only by a record of the thing itself; a part that moves meets its new line's demands."""

from __future__ import annotations

from collections.abc import Callable
from itertools import permutations
from typing import Any

import pytest

from teardown_app.domain.bill.bill import Check
from tests.open_points.acts import opening
from tests.open_points.story import line, route
from tests.open_points.tablets import JOB, OTHER_JOB, SHOP
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale

EARTH = Check("earth", type="bonding", when=("finished",))
GUARD = Check("guard", type="interlock", when=("fitted",))
NUMBER = "P7K3M0001A"


class Never(Tale):
    """A job in which each sort of point stands that nobody concedes."""

    def __init__(self, points: Twin | App) -> None:
        rows = (line("10", checks=("earth", "guard")), line("20", "temporary", ships="in"), line("30"))
        super().__init__(points, *rows, checks=(EARTH, GUARD))
        self.part = self.fit(self.ready(self.off("10", number=NUMBER)), "10")
        self.hose = self.say("temporary.in", self.first.thing(), by="RR", what="hose").ent[0]
        self.other = self.second()
        self.lost = self.say("thing.put", self.part, by="RR", on=self.other, place="RACK 1")
        self.say("thing.put", self.part, by="RR", on=self.other, place="RACK 2")
        self.carry()
        self.withheld.add(self.lost.ref)
        self.first.write("AA", "job.opened", ("job",), opening(number=OTHER_JOB), journal=OTHER_JOB)
        theirs = self.first.thing(journal=OTHER_JOB)
        self.first.write("AA", "part.taken_off", (theirs,), {"number": NUMBER}, journal=OTHER_JOB)

    def keys(self) -> dict[str, str]:
        """Each of them by a name."""
        return {
            "bonding": f"check due|{self.part}|check/earth//finished",
            "interlock": "check due|10|check/guard//fitted",
            "bracket": "temporary in or out wrongly|20|running",
            "hose": f"temporary in or out wrongly|{self.hose}|running",
            "label": f"label of two parts|{NUMBER}|{OTHER_JOB}",
            "not here": f"record not here|job|t2~0:{self.lost.seq}",
        }

    def open_now(self) -> list[str]:
        """Keys of all open points; the other job is here too."""
        others = {OTHER_JOB: self.first.own(OTHER_JOB)}
        found = self.program(self.records(SHOP), JOB, self.records(JOB), self.bills, others)
        return [each.key for each in found if each.state == "open"]


def retire(tale: Never) -> None:
    """The office gives the second tablet up, of which a record above is here."""
    body: dict[str, Any] = {"tablet": "t2~0", "journal": JOB, "last": 0, "reference": "A-1"}
    tale.first.write("OO", "tablet.retired", ("tablet:t2~0",), body, journal=SHOP)


NOT_OF_IT: dict[str, Callable[[Never], object]] = {
    "scope words": lambda t: [t.word(key, "not on this tool", by="OO", reference="A-1") for key in ("10", "20", "30")],
    "options": lambda t: t.say("job.amended", "job", options=[], why="asked"),
    "a release": lambda t: t.release(t.part),
    "a covered finding": lambda t: t.say("finding.noted", t.part, word="so", cause="so", covered=True, reference="A-1"),
    "a condition": lambda t: t.say("part.noted", t.part, condition="good"),
    "another origin": lambda t: t.say("part.noted", t.part, origin="repaired", reference="A-1"),
    "taken back: hose in": lambda t: t.say("record.voided", t.hose, record=_in(t), why="slip", reference="A-1"),
    "signed and closed": lambda t: t.close(by="AA"),
    "opened again": lambda t: t.say("job.reopened", "job", why="asked"),
    "another part there": lambda t: t.bring("PN-30", meant_for="30"),
    "a tablet given up that went on": retire,
    "a photograph": lambda t: t.say("photo.taken", t.part, photos=["0" * 64]),
}


def _in(tale: Never) -> str:
    return next(each.ref for each in tale.records(JOB) if each.typ == "temporary.in")


@pytest.mark.parametrize("deed", list(NOT_OF_IT))
def test_what_nobody_concedes_stands_whatever_else_is_recorded(points: Twin | App, deed: str) -> None:
    """All six stand before and after, and a concession of each changes nothing."""
    tale = Never(points)
    wanted = set(tale.keys().values())
    assert wanted <= set(tale.open_now())
    NOT_OF_IT[deed](tale)
    assert wanted <= set(tale.open_now())
    for key in sorted(wanted):
        about = key.split("|")[1]
        ent = f"@{about}" if about in ("10", "20") else about if ":" in about else "job"
        lines = ["10"] if about == tale.part else []
        body = {"key": key, "why": "so", "reference": "A-1", "covers": [], "lines": lines}
        tale.say("point.conceded", ent, **body)
    assert wanted <= set(tale.open_now())


OF_IT: dict[str, Callable[[Never], object]] = {
    "bonding": lambda t: t.read(t.part, "earth", "accept", when="finished"),
    "interlock": lambda t: t.read("@10", "guard", "accept"),
    "bracket": lambda t: [t.say(f"temporary.{word}", "@20", by="RR") for word in ("out", "in")],
    "hose": lambda t: t.say("temporary.out", t.hose, by="RR"),
    "label": lambda t: t.say("part.renumbered", t.part, by="RR", number="P7K3M0002C", why="two of them"),
    "not here": lambda t: t.withheld.clear(),
}


@pytest.mark.parametrize("name", list(OF_IT))
def test_a_record_of_the_thing_itself_is_enough(points: Twin | App, name: str) -> None:
    """By anybody who records; the others stay."""
    tale = Never(points)
    OF_IT[name](tale)
    open_now = set(tale.open_now())
    assert {each for each, key in tale.keys().items() if key not in open_now} == {name}


# -- a part that moves ---------------------------------------------------------------------------------

DEMANDS: dict[str, Callable[[Tale, str], object]] = {
    "reading": lambda t, part: t.read(part, "look", "accept", when="finished"),
    "what protects people": lambda t, part: t.read(part, "earth", "accept", when="finished"),
    "serial": lambda t, part: t.say("part.noted", part, by="RR", written={"serial": "7"}),
}
"""What the second line asks beside a route, which comes first, as it spoils readings."""


@pytest.mark.parametrize("order", list(permutations(DEMANDS)))
def test_a_part_moved_to_another_line_meets_all_its_demands_or_has_a_point(
    points: Twin | App, order: tuple[str, ...]
) -> None:
    """Released before for a line that asks nothing; after each demand it is still not done, until the last."""
    look = Check("look", when=("finished",))
    more = {"checks": ("look", "earth"), "routes": ("wash",), "write_down": ("serial",)}
    rows = (line("10", number="P"), line("20", number="P", **more))
    tale = Tale(points, *rows, checks=(look, EARTH), routes=(route("wash", "rinse"),))
    part = tale.fit(tale.ready(tale.off("10")), "20")
    steps = [lambda t, p: t.say("operation.done", p, by="RR", route="wash", operation="rinse", **{"pass": 1})]
    steps += [DEMANDS[name] for name in order]
    for step in steps:
        about = [key for key in tale.open_now() if key.split("|")[1] == part]
        tale.release(part)
        assert about and [key for key in tale.open_now() if key.split("|")[1] == part], "released too early"
        step(tale, part)
    tale.release(part)
    assert tale.open_now() == ["missing|10|"]


def test_a_part_moved_into_another_set_is_swapped(points: Twin | App) -> None:
    """Its new line wants it to be matched to what is beside it."""
    rows = (line("10", number="P"), line("20", number="P", matched_set="pair"))
    tale = Tale(points, *rows, line("30", number="P", matched_set="pair"))
    part = tale.ready(tale.off("10"))
    tale.fit(part, "20")
    tale.release(part)
    assert tale.stands("swapped within a matched set") == ["20"]
