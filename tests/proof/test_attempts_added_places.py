"""Attempts with lines that were added on the job: what the bill asks does not go away by them.

Each story says what a shop would have suffered."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import line, route
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale

EARTH = Check("earth", type="bonding", when=("finished",))
ADDED = "10.+X"


def add(tale: Tale, key: str, parent: str, number: str) -> None:
    """A line that the bill lacks is added by a hand with the right *record*."""
    body = {"parent": parent, "part_number": number, "description": "bolt", "number": "1"}
    tale.say("line.added", f"@{key}", by="RR", **body)


def test_a_gauge_unit_is_not_a_bolt(points: Twin | App) -> None:
    """The tool would have shipped without its gauge unit, for a bolt was added beneath it and put in."""
    tale = Tale(points, line("10", "assembly"), line("20"))
    tale.fit_ready("20")
    assert tale.open_now() == ["missing|10|"]
    add(tale, ADDED, "10", "X")
    assert {*tale.stands("missing")} == {"10", ADDED}
    tale.word("10", "received short", by="EE")
    tale.fit(tale.ready(tale.bring("X", by="RR", meant_for=ADDED)), ADDED)
    assert tale.stands("missing") == ["10"]
    tale.fit_ready("10")
    assert tale.stands("missing") == []


def test_an_assembly_of_the_bill_is_complete_when_all_beneath_is(points: Twin | App) -> None:
    """Nobody looks for a unit that is no unit, because something was added to it."""
    tale = Tale(points, line("10", "assembly"), line("10.10"))
    tale.fit_ready("10.10")
    add(tale, ADDED, "10", "X")
    assert tale.open_now() == [f"missing|{ADDED}|"]
    tale.fit(tale.ready(tale.bring("X", meant_for=ADDED)), ADDED)
    assert tale.open_now() == []


def test_a_part_takes_its_demands_to_an_added_place(points: Twin | App) -> None:
    """A heater that failed its bonding would have gone back in as a line of its own that asks nothing."""
    wash = route("wash", "rinse")
    row = line("10", checks=("earth",), routes=("wash",), write_down=("serial",))
    tale = Tale(points, row, checks=(EARTH,), routes=(wash,))
    part = tale.off("10")
    tale.read(part, "earth", "reject", by="EE", when="finished")
    add(tale, "+PN-10", "", "PN-10")
    tale.say("part.noted", part, by="RR", meant_for="+PN-10")
    due = [f"{part}|check/earth//finished"]
    assert tale.stands("check due") == due
    tale.say("disposition.given", part, by="RR", as_="use as is")
    lines = {part: ["+PN-10", "10"]}
    tale.say("part.released", part, by="EE", covers={part: []}, lines=lines)
    tale.say("part.fitted", part, "@+PN-10", by="RR")
    assert (tale.stands("check due"), tale.stands("not released")) == (due, [part])
    tale.say("part.noted", part, by="RR", written={"serial": "7"})
    tale.say("operation.done", part, by="RR", route="wash", operation="rinse", **{"pass": 1})
    tale.read(part, "earth", "accept", when="finished")
    assert tale.stands("check due") == []
    tale.say("part.released", part, by="EE", covers={part: []}, lines={part: ["+PN-10"]})
    assert tale.stands("not released") == [part], "released for the added line alone it is not"
    tale.say("part.released", part, by="EE", covers={part: []}, lines=lines)
    assert tale.open_now() == ["missing|10|"]


def test_a_part_from_outside_is_asked_by_the_added_line_alone(points: Twin | App) -> None:
    """A bolt from the shelf would have waited for a bonding that nobody can measure on it."""
    tale = Tale(points, line("10", checks=("earth",)), checks=(EARTH,))
    add(tale, "+X", "", "X")
    tale.fit(tale.ready(tale.bring("X", meant_for="+X")), "+X")
    assert tale.open_now() == ["missing|10|"]
