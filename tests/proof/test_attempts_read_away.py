"""Attempts to read a place or part until it is good, by writing something down between, or with another instrument.

Each story says what a shop would have suffered."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Check, Operation, Route
from tests.open_points.story import line
from tests.open_points.tablets import SHOP
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

GUARD = Check("guard", type="interlock", when=("fitted",))
LEAK = Check("leak", type="leak", when=("fitted",))
EARTH = Check("earth", type="bonding", when=("finished",), outlasts=("look",))
DUE = "check due"


def unit(points: Twin | App, check: Check) -> tuple[Tale, str]:
    """A unit with one part and two screws beneath it, all in; its check failed by release. Gives the part."""
    rows = (line("10", "assembly", checks=(check.name,)), line("10.10"), screws("10.20", 2))
    wash = Route("wash", operations=(Operation("look", spoils=("other",)),))
    tale = Tale(points, *rows, checks=(check,), routes=(wash,))
    part = tale.fit_ready("10.10")
    tale.screw_in("10.20", 2)
    tale.read("@10", check.name, "reject", by="EE")
    return tale, part


NOTHING_HAPPENED = {
    "no screw": ("hardware.moved", "@10.20", {"put_in": 0}),
    "fitted where it sits": ("part.fitted", "PART @10.10", {}),
    "noted where it came out": ("part.noted", "PART", {"out_of": "10.10"}),
    "looked at": ("operation.done", "PART", {"route": "wash", "operation": "look", "pass": 2}),
}
"""What was recorded -> kind, what it is about, body."""


@pytest.mark.parametrize("said", NOTHING_HAPPENED)
@pytest.mark.parametrize("check", [GUARD, LEAK])
def test_a_door_switch_is_not_good_because_somebody_tapped(points: Twin | App, check: Check, said: str) -> None:
    """The tool would have run with its door open: a record that changed nothing lay between bad and good."""
    tale, part = unit(points, check)
    kind, about, body = NOTHING_HAPPENED[said]
    tale.say(kind, *about.replace("PART", part).split(), by="RR", **body)
    read = tale.read("@10", check.name, "accept")
    tale.release(part)
    if check is GUARD:
        assert tale.open_now() == ["check due|10|check/guard//fitted"]
    else:
        assert tale.open_now() == [f"{ACCEPTED}|10|{read.ref}"]
    tale.close()
    assert not tale.is_closed()


@pytest.mark.parametrize("check", [GUARD, LEAK])
def test_a_seal_that_was_kept_mends_no_switch(points: Twin | App, check: Check) -> None:
    """Looking at a ring and leaving it in would have made the failed door switch good."""
    ring = line("10.30", "consumable", renew="on condition")
    tale = Tale(points, line("10", "assembly", checks=(check.name,)), line("10.10"), ring, checks=(check,))
    tale.fit_ready("10.10")
    tale.say("consumable.renewed", "@10.30", as_="renewed")
    tale.read("@10", check.name, "reject", by="EE")
    tale.say("consumable.renewed", "@10.30", by="RR", as_="kept")
    read = tale.read("@10", check.name, "accept")
    stands = "check due|10|check/guard//fitted" if check is GUARD else f"{ACCEPTED}|10|{read.ref}"
    assert tale.open_now() == [stands]
    tale.say("consumable.renewed", "@10.30", by="RR", as_="renewed")
    tale.read("@10", check.name, "accept")
    assert stands not in tale.open_now()


def test_a_bonding_that_a_look_does_not_touch_stays_failed(points: Twin | App) -> None:
    """Somebody would have been killed by a housing whose earth was looked at, and not mended."""
    wash = Route("wash", operations=(Operation("look"), Operation("rinse")))
    tale = Tale(points, line("10", checks=("earth",)), checks=(EARTH,), routes=(wash,))
    part = tale.off("10")
    tale.read(part, "earth", "reject", by="EE", when="finished")
    tale.say("operation.done", part, by="RR", route="wash", operation="look", **{"pass": 2})
    tale.read(part, "earth", "accept", when="finished")
    assert tale.subjects(DUE) == [part]
    tale.say("operation.done", part, by="RR", route="wash", operation="rinse", **{"pass": 1})
    tale.read(part, "earth", "accept", when="finished")
    assert tale.subjects(DUE) == [], "what spoils the check makes another state"


def test_a_switch_that_was_mended_is_read_again(points: Twin | App) -> None:
    """A shop that repaired its door switch would never have closed the job."""
    tale, part = unit(points, GUARD)
    tale.out(part, "10.10", by="RR")
    tale.fit(part, "10.10")
    tale.read("@10", "guard", "accept")
    assert tale.open_now() == []


def test_a_fitting_taken_back_and_said_again_changes_nothing(points: Twin | App) -> None:
    """The same switch would have been good because its fitting was written twice."""
    tale, part = unit(points, GUARD)
    fitted = next(each for each in tale.records("J7K3M00012") if each.typ == "part.fitted")
    tale.take_back(fitted, by="RR")
    tale.fit(part, "10.10")
    tale.read("@10", "guard", "accept")
    assert tale.stands(DUE) == ["10|check/guard//fitted"]


BORE = Check("bore", instrument="bore gauge", when=("finished",))
GAUGES = {
    "M7K3M0001A": {"reads": "bore gauge", "due": "2030-01-01"},
    "M7K3M0002C": {"reads": "bore gauge", "due": "2026-01-31"},
    "M7K3M0003E": {"reads": "bore gauge", "due": "2030-01-01", "out": True},
    "M7K3M0004G": {"reads": "ruler", "due": "2030-01-01"},
}
"""The register: one good gauge, one overdue (stories play in March 2026, `tablets.py`), one out of use, a ruler."""


def bored(points: Twin | App) -> tuple[Tale, str]:
    """A part whose bore is read with a gauge, of which the shop has some."""
    tale = Tale(points, line("10", checks=("bore",)), checks=(BORE,))
    for number, body in GAUGES.items():
        given = {"number": number, **body}
        tale.first.write("OO", "instrument.given", (f"instrument:{number}",), given, journal=SHOP)
    return tale, tale.off("10")


@pytest.mark.parametrize("said", ["", " ", "nothing", "M7K3M0009R", *list(GAUGES)[1:]])
def test_a_bore_is_not_read_with_a_ruler(points: Twin | App, said: str) -> None:
    """The rotor would have run in a bore that somebody had held a ruler to, or nothing."""
    tale, part = bored(points)
    tale.read(part, "bore", "accept", when="finished", instrument=said)
    assert tale.subjects(DUE) == [part]
    tale.read(part, "bore", "accept", when="finished", instrument="M7K3M0001A")
    assert tale.stands(DUE) == []


def test_a_clock_that_was_not_set_shows_no_gauge_in_date(points: Twin | App) -> None:
    """A gauge of five years ago would have been in date on a tablet that thinks it is five years ago."""
    tale, part = bored(points)
    tale.first.clk = "unset"
    tale.read(part, "bore", "accept", when="finished", instrument="M7K3M0001A")
    assert tale.subjects(DUE) == [part]


def test_a_shop_without_gauges_reads_with_what_it_has(points: Twin | App) -> None:
    """A shop that keeps no register would never have closed a job."""
    tale = Tale(points, line("10", checks=("bore",)), checks=(BORE,))
    part = tale.off("10")
    tale.read(part, "bore", "accept", when="finished", instrument="the old one")
    assert tale.stands(DUE) == []


def test_a_day_is_not_over_in_a_minute(points: Twin | App) -> None:
    """A leak that shows overnight would have been looked for twice in one minute."""
    leak = Check("leak", type="leak", when=("fitted",), again_h=Decimal(24))
    tale = Tale(points, line("10", checks=("leak",)), checks=(leak,))
    tale.fit_ready("10")
    tale.read("@10", "leak", "accept")
    again = ["10|check/leak//fitted again"]
    for hours in (0, 23.9):
        tale.first.clock.hours = hours
        tale.read("@10", "leak", "accept", when="fitted again")
        assert tale.stands(DUE) == again, hours
    tale.first.clk = "jumped"
    tale.first.clock.hours = 24
    tale.read("@10", "leak", "accept", when="fitted again")
    assert tale.stands(DUE) == again, "a clock that jumped proves no hours"
    tale.first.clk = "ok"
    tale.read("@10", "leak", "accept", when="fitted again")
    assert tale.open_now() == []
