"""Attempts on what was left in a unit, or came with it: it goes where its unit goes, and is left nowhere else.

Each story says what a shop would have suffered."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from teardown_app.domain.ledger.record import Record
from tests.open_points.story import line
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws
from tests.proof.test_attempts_units import INSULATION

OVER = "fitted over an empty position"
BARE = f"{OVER}|20/1|20/1.10"
ALL = ("10", "20", "30")
AGREED: dict[str, Any] = {"by": "OO", "reference": "A-1"}


def left_in_two(points: Twin | App) -> tuple[Tale, str, str]:
    """Two equal pumps come off with their motors left in them, as the office agreed. Gives both."""
    tale = Tale(points, line("20", "assembly", quantity=Decimal(2)), line("20.10"))
    for n in (1, 2):
        tale.word(f"20/{n}.10", "left fitted", **AGREED)
    assert tale.open_now() == []
    one, two = (tale.ready(tale.off(f"20/{n}")) for n in (1, 2))
    return tale, one, two


def new_motor(tale: Tale, key: str) -> str:
    """A motor out of its box goes in."""
    return tale.fit(tale.ready(tale.bring("PN-20.10", meant_for=key)), key)


# -- what an option puts out ---------------------------------------------------------------------------


@pytest.mark.parametrize("by", ["RR", "OO"])
def test_a_heater_that_was_there_is_put_out_by_no_option_when_its_pump_is_fitted_once_more(
    points: Twin | App, by: str
) -> None:
    """A pump would have run with bare leads: its heater went into the bin, and nobody measured the insulation."""
    tale = Tale(
        points, line("20", "assembly"), line("20.10", option="HEAT", checks=("insulation",)), checks=(INSULATION,)
    )
    pump, heater = tale.off("20"), tale.off("20.10")
    tale.say("disposition.given", heater, as_="scrap")
    tale.fit(tale.ready(pump), "20")
    asked = tale.open_now()
    assert f"{OVER}|20|20.10" in asked and "check due|20.10|check/insulation//fitted" in asked
    reference = AGREED if by == "OO" else {}
    again = tale.say("part.fitted", pump, "@20", **{"by": by, **reference}, came_with=["20.10"])
    waiting = [f"{ACCEPTED}|20|{again.ref}"] if by == "RR" else []
    assert [one for one in tale.open_now() if one.startswith(ACCEPTED)] == waiting
    assert "check due|20.10|check/insulation//fitted" in tale.open_now(), "a protective reading is asked all the same"


# -- left fitted ---------------------------------------------------------------------------------------


def moved(points: Twin | App) -> tuple[Tale, str]:
    """The second pump is scrap and the first takes its place. Gives the first."""
    tale, one, two = left_in_two(points)
    tale.say("disposition.given", two, as_="scrap")
    tale.fit(one, "20/2")
    assert tale.stands("missing") == ["20/1"], "its motor went along; where it was, the pump itself is missing"
    return tale, one


@pytest.mark.parametrize("is_said", [True, False], ids=["said of where it is now", "not said again"])
def test_one_motor_is_not_left_in_two_pumps(points: Twin | App, is_said: bool) -> None:
    """A pump out of its box would have been shipped without a motor: that of its twin counted for both."""
    tale, _ = moved(points)
    if is_said:
        tale.word("20/2.10", "left fitted", **AGREED)
    tale.fit(tale.ready(tale.bring("PN-20", meant_for="20/1")), "20/1")
    assert tale.open_now() == [BARE]
    tale.close()
    assert not tale.is_closed()


def test_the_new_pump_gets_a_motor_of_its_own(points: Twin | App) -> None:
    """The way out: a motor goes in, and of the twin it is said where its own motor is."""
    tale, _ = moved(points)
    tale.fit(tale.ready(tale.bring("PN-20", meant_for="20/1")), "20/1")
    new_motor(tale, "20/1.10")
    assert tale.open_now() == [f"{OVER}|20/2|20/2.10"], "what was left at the first place was put in there since"
    tale.word("20/2.10", "left fitted", **AGREED)
    assert tale.open_now() == []


def test_a_place_whose_pump_went_to_its_twin_may_stay_empty(points: Twin | App) -> None:
    """A tool that runs on one pump for a while would have waited for a motor in the air."""
    tale, _ = moved(points)
    tale.concede("missing|20/1|")
    assert tale.open_now() == []
    tale.close()
    assert tale.is_closed()


def test_twins_that_change_places_take_along_what_was_left_in_them(points: Twin | App) -> None:
    """Two good pumps would have been opened to look for motors that nobody touched."""
    tale, one, two = left_in_two(points)
    tale.fit(one, "20/2")
    tale.fit(two, "20/1")
    assert tale.open_now() == []
    tale.close()
    assert tale.is_closed()


def test_of_twins_that_changed_places_one_is_opened(points: Twin | App) -> None:
    """A motor on the bench would have been left in the pump that went to the other place."""
    tale, one, two = left_in_two(points)
    tale.fit(one, "20/2")
    tale.fit(two, "20/1")
    motor = tale.off("20/1.10")
    assert BARE in tale.open_now()
    tale.fit(tale.ready(motor), "20/1.10")
    tale.word("20/2.10", "left fitted", **AGREED)
    assert tale.open_now() == []


# -- came with the unit --------------------------------------------------------------------------------


def came_with(tale: Tale, unit: str, key: str, *beneath: str) -> Record:
    """A unit goes in with what came with it; by a hand with the right *record*."""
    return tale.say("part.fitted", unit, f"@{key}", by="RR", came_with=[f"{key}.{each}" for each in beneath])


def test_what_came_with_a_unit_is_not_in_two(points: Twin | App) -> None:
    """The same, of an exchange pump that was first tried in one place and then put into the other."""
    tale = Tale(points, line("20", "assembly", quantity=Decimal(2)), line("20.10"))
    unit = tale.ready(tale.bring("PN-20", meant_for="20/1"))
    tale.say("disposition.given", tale.off("20/2"), as_="scrap")
    for key in ("20/1", "20/2"):
        tale.accept(key, came_with(tale, unit, key, "10"), "OO")
        if key == "20/1":
            tale.out(unit, key)
    tale.release(unit)
    tale.fit(tale.ready(tale.bring("PN-20", meant_for="20/1")), "20/1")
    assert tale.open_now() == [BARE]
    new_motor(tale, "20/1.10")
    assert tale.open_now() == []


def exchange_unit(points: Twin | App) -> tuple[Tale, str]:
    """An exchange pump is in with all that came with it: the office accepted that. Gives it."""
    rows = (line("20.10"), line("20.20", "consumable", fit_after=("20.10",), renew="if opened"))
    screw = screws("20.30", 4, torque=6, holds=("20.10",))
    tale = Tale(points, line("20", "assembly"), *rows, screw)
    unit = tale.ready(tale.bring("PN-20", meant_for="20"))
    tale.accept("20", came_with(tale, unit, "20", *ALL), "OO")
    assert tale.open_now() == []
    return tale, unit


@pytest.mark.parametrize("is_out", [True, False], ids=["out and in", "said to be fitted once more"])
def test_what_was_opened_in_a_unit_did_not_come_with_it(points: Twin | App, is_out: bool) -> None:
    """The burnt motor was on the bench, three screws in the tray, and the pump shipped as it came: complete."""
    tale, unit = exchange_unit(points)
    tale.say("joint.opened", "@20.30", by="EE")
    tale.say("hardware.counted", "@20.30", by="EE", found=3)
    tale.say("disposition.given", tale.off("20.10"), as_="scrap")
    if is_out:
        tale.out(unit, "20", by="RR")
    again = came_with(tale, unit, "20", *ALL)
    tale.close()
    assert not tale.is_closed()
    tale.accept("20", again, "EE")
    assert tale.waits("20", again), "the office agreed to the unit as it came, not to this"


def test_the_office_agrees_once_more_or_the_motor_goes_in(points: Twin | App) -> None:
    """A pump that went back to who had built it, and came again complete, waits for one yes."""
    for is_agreed in (True, False):
        tale, unit = exchange_unit(points)
        tale.say("disposition.given", tale.off("20.10"), as_="scrap")
        again = came_with(tale, unit, "20", *ALL)
        assert tale.open_now() == [f"{ACCEPTED}|20|{again.ref}"]
        if is_agreed:
            tale.accept("20", again, "OO")
        else:
            new_motor(tale, "20.10")
            tale.screw_in("20.30", 4)
            tale.tighten("20.30", count=4)
            tale.say("consumable.renewed", "@20.20", as_="renewed")
        assert tale.open_now() == [], is_agreed


def test_a_unit_that_nobody_opened_goes_back_as_it_came(points: Twin | App) -> None:
    """The office would have been asked every time a pump was lifted out."""
    tale, unit = exchange_unit(points)
    tale.out(unit, "20", by="RR")
    came_with(tale, unit, "20", *ALL)
    assert tale.open_now() == []


def test_a_unit_that_was_opened_and_says_nothing_more_is_missing_its_motor(points: Twin | App) -> None:
    """Who fits it without the word is asked for the motor itself."""
    tale, unit = exchange_unit(points)
    tale.say("disposition.given", tale.off("20.10"), as_="scrap")
    tale.out(unit, "20", by="RR")
    tale.fit(unit, "20")
    assert tale.stands(OVER) == ["20|20.10"]
