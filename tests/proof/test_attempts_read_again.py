"""Attempts to read a part or place good by something that changed nothing, or by an hour that began too early.

Each story says what a shop would have suffered."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from teardown_app.domain.bill.bill import Check, Operation, Route
from tests.open_points.story import line
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale

GUARD = Check("guard", type="interlock", when=("fitted",))
EARTH = Check("earth", type="bonding", when=("finished",))
RUNOUT = Check("runout", when=("finished",))
WASH = Route("wash", operations=(Operation("degrease", time="10 min", record=("bath",)),))
DUE = "check due"
HOURS = 24
"""Between the first reading and *again*, as these bills ask."""


# -- in one state: what is fitted where it sits --------------------------------------------------------


def housing(points: Twin | App, check: Check) -> tuple[Tale, str, str]:
    """A housing with a new motor in it fails its reading, by release. Gives both."""
    tale = Tale(points, line("20", "assembly", checks=(check.name,)), line("20.10"), checks=(check,))
    unit = tale.off("20")
    motor = tale.fit(tale.ready(tale.bring("PN-20.10", meant_for="20.10")), "20.10")
    tale.read(unit, check.name, "reject", by="EE", when="finished")
    return tale, unit, motor


@pytest.mark.parametrize("check", [EARTH, RUNOUT], ids=["earth", "runout"])
def test_a_motor_fitted_where_it_sits_mends_no_housing(points: Twin | App, check: Check) -> None:
    """Somebody would have been killed by a housing whose bonding failed: its motor was said to be in once more."""
    tale, unit, motor = housing(points, check)
    tale.say("part.fitted", motor, "@20.10", by="RR")
    read = tale.read(unit, check.name, "accept", when="finished")
    if check is EARTH:
        assert tale.subjects(DUE) == [unit]
    else:
        assert tale.waits(unit, read)


def test_a_housing_whose_motor_came_out_is_read_anew(points: Twin | App) -> None:
    """A shop that cleaned the seat beneath its motor would never have closed the job."""
    tale, unit, motor = housing(points, EARTH)
    tale.out(motor, "20.10", by="RR")
    tale.fit(motor, "20.10")
    tale.read(unit, "earth", "accept", by="RR", when="finished")
    tale.fit(tale.ready(unit), "20")
    assert tale.open_now() == []


# -- in one state: a second pass -----------------------------------------------------------------------

HALF: dict[str, dict[str, Any]] = {
    "no beginning": {"values": {"bath": "B2"}},
    "no bath": {"began": "2026-03-02T07:00:00+01:00"},
    "a blank bath": {"began": "2026-03-02T07:00:00+01:00", "values": {"bath": " "}},
}
"""A second pass of an operation of ten minutes, whose bath is written down, that says too little."""


def wash(tale: Tale, part: str, number: int) -> None:
    """A part is degreased, begun and done."""
    more: dict[str, Any] = {"route": "wash", "operation": "degrease", "pass_": number}
    tale.say("operation.started", part, by="RR", **more)
    tale.say("operation.done", part, by="RR", values={"bath": "B2"}, **more)


def washed(points: Twin | App) -> tuple[Tale, str]:
    """A part that was degreased fails its bonding, by release."""
    tale = Tale(points, line("10", checks=("earth",), routes=("wash",)), checks=(EARTH,), routes=(WASH,))
    part = tale.off("10")
    wash(tale, part, 1)
    tale.read(part, "earth", "reject", by="EE", when="finished")
    return tale, part


@pytest.mark.parametrize("said", HALF)
def test_a_bath_that_nobody_began_cleans_no_contact(points: Twin | App, said: str) -> None:
    """A bonding that failed would have been good, because somebody typed that the part was washed again."""
    tale, part = washed(points)
    tale.say("operation.done", part, by="RR", route="wash", operation="degrease", pass_=2, **HALF[said])
    tale.read(part, "earth", "accept", when="finished")
    assert tale.subjects(DUE) == [part]


def test_a_part_that_was_washed_again_is_read_anew(points: Twin | App) -> None:
    """The contact was greasy, and is not any more."""
    tale, part = washed(points)
    wash(tale, part, 2)
    tale.read(part, "earth", "accept", when="finished")
    tale.fit(tale.ready(part), "10")
    assert tale.open_now() == []


def switch(points: Twin | App) -> tuple[Tale, str]:
    """A motor that was degreased is in; the door switch of its unit fails, by release."""
    rows = (line("20", "assembly", checks=("guard",)), line("20.10", routes=("wash",)))
    tale = Tale(points, *rows, checks=(GUARD,), routes=(WASH,))
    motor = tale.off("20.10")
    wash(tale, motor, 1)
    tale.fit(tale.ready(motor), "20.10")
    tale.read("@20", "guard", "reject", by="EE")
    return tale, motor


@pytest.mark.parametrize("said", HALF)
def test_a_bath_of_a_part_that_sits_in_the_tool_mends_no_switch(points: Twin | App, said: str) -> None:
    """The tool would have run with its door open."""
    tale, motor = switch(points)
    tale.say("operation.done", motor, by="RR", route="wash", operation="degrease", pass_=2, **HALF[said])
    tale.release(motor, by="EE")
    tale.read("@20", "guard", "accept")
    assert tale.open_now() == ["check due|20|check/guard//fitted"]


# -- in one state: readings; again by the clock --------------------------------------------------------


def test_a_first_reading_is_no_repair(points: Twin | App) -> None:
    """A bonding that failed after a day would have been good after another one, with the same corroded strap."""
    earth = Check("earth", type="bonding", when=("finished",), again_h=Decimal(HOURS))
    tale = Tale(points, line("10", checks=("earth",), routes=("wash",)), checks=(earth,), routes=(WASH,))
    part = tale.off("10")
    wash(tale, part, 1)
    tale.read(part, "earth", "accept", when="finished")
    tale.first.clock.hours += HOURS
    tale.read(part, "earth", "reject", by="EE", when="finished again")

    def twice() -> None:
        tale.read(part, "earth", "accept", when="finished")
        tale.first.clock.hours += HOURS
        tale.read(part, "earth", "accept", when="finished again")

    twice()
    assert tale.stands(DUE) == [f"{part}|check/earth//finished again"]
    wash(tale, part, 2)
    twice()
    tale.fit(tale.ready(part), "10")
    assert tale.open_now() == [], "washed and waited for it is read anew"


AGAIN = ["10|check/leak//fitted again"]


def flange(points: Twin | App) -> tuple[Tale, str]:
    """A flange that is looked at for leaks, and once more after a day."""
    leak = Check("leak", type="leak", when=("fitted",), again_h=Decimal(HOURS))
    tale = Tale(points, line("10", "assembly", checks=("leak",)), line("10.10"), checks=(leak,))
    return tale, tale.fit_ready("10.10")


def test_a_day_begins_with_the_reading_that_holds(points: Twin | App) -> None:
    """A valve that came out and went back would have been tight overnight after one minute."""
    tale, valve = flange(points)
    for when in ("fitted", "fitted again"):
        tale.read("@10", "leak", "accept", when=when)
        tale.first.clock.hours += HOURS
    assert tale.open_now() == []
    tale.out(valve, "10.10", by="RR")
    tale.fit(valve, "10.10")
    tale.read("@10", "leak", "accept")
    for hours in (0, HOURS - 1):
        tale.first.clock.hours += hours
        tale.read("@10", "leak", "accept", when="fitted again")
        assert tale.stands(DUE) == AGAIN, hours
    tale.first.clock.hours += 1
    tale.read("@10", "leak", "accept", when="fitted again")
    assert tale.open_now() == []


def test_a_day_begins_with_the_last_of_two_readings(points: Twin | App) -> None:
    """Two benches looked at one flange; by the earlier of them the day would have been over too soon."""
    tale, _ = flange(points)
    other = tale.second()
    tale.read("@10", "leak", "accept")
    tale.first.clock.hours += HOURS - 1
    tale.read("@10", "leak", "accept", on=other)
    tale.carry()
    for hours, stands in ((1, AGAIN), (HOURS - 1, [])):
        tale.first.clock.hours += hours
        tale.read("@10", "leak", "accept", when="fitted again")
        assert tale.stands(DUE) == stands, hours


def test_who_looks_once_more_without_need_waits_another_day(points: Twin | App) -> None:
    """The later first reading is the one that holds, so what was read after the earlier one is read anew."""
    tale, _ = flange(points)
    tale.read("@10", "leak", "accept")
    tale.first.clock.hours += HOURS
    tale.read("@10", "leak", "accept")
    tale.read("@10", "leak", "accept", when="fitted again")
    assert tale.stands(DUE) == AGAIN
    tale.first.clock.hours += HOURS
    tale.read("@10", "leak", "accept", when="fitted again")
    assert tale.open_now() == []
