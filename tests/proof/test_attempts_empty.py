"""Attempts at places that stay empty: who agrees that a switch is gone, and that nobody is stuck with reading it.

Each story says what a shop would have suffered."""

from __future__ import annotations

import pytest

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import line
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale

GUARD = Check("guard", type="interlock", when=("fitted",))
LEAK = Check("leak", type="leak", when=("fitted",))
OFFICE = "PP"
"""Somebody who concedes and does office work."""


def broken(points: Twin | App, check: Check) -> Tale:
    """What is read at its place came off broken, and is scrap."""
    tale = Tale(points, line("10", checks=(check.name,)), line("20"), checks=(check,))
    tale.person(OFFICE, ["record", "concede", "office"])
    tale.fit_ready("20")
    tale.say("disposition.given", tale.off("10"), as_="scrap")
    assert sorted(tale.open_now()) == [f"check due|10|check/{check.name}//fitted", "missing|10|"]
    return tale


def test_a_door_switch_is_not_away_because_somebody_concedes_a_part(points: Twin | App) -> None:
    """The tool would have run with its door open, by one tap beside a list of missing covers."""
    tale = broken(points, GUARD)
    tale.concede("missing|10|", by="KK")
    assert tale.open_now() == ["check due|10|check/guard//fitted"]
    tale.concede("check due|10|check/guard//fitted", by=OFFICE)
    assert tale.open_now() == ["check due|10|check/guard//fitted"], "the reading itself nobody concedes"
    tale.close()
    assert not tale.is_closed()


@pytest.mark.parametrize("is_first", [True, False], ids=["at once", "after somebody else"])
def test_the_office_concedes_that_the_door_stays_off(points: Twin | App, is_first: bool) -> None:
    """Nobody could have closed the job: there is no switch to read, and no true word for that."""
    tale = broken(points, GUARD)
    if not is_first:
        tale.concede("missing|10|", by="KK")
    tale.concede("missing|10|", by=OFFICE)
    assert tale.open_now() == []
    tale.close()
    assert tale.is_closed()


def test_what_protects_nobody_is_not_read_where_nothing_is(points: Twin | App) -> None:
    """The customer agreed that the valve is gone, and its leak would have been to be conceded beside it."""
    tale = broken(points, LEAK)
    tale.concede("missing|10|", by="KK")
    assert tale.open_now() == []


@pytest.mark.parametrize("check", [GUARD, LEAK], ids=["guard", "leak"])
def test_a_switch_that_goes_in_after_all_is_read(points: Twin | App, check: Check) -> None:
    """What was agreed of an empty place would have held for the switch that somebody found."""
    tale = broken(points, check)
    tale.concede("missing|10|", by=OFFICE)
    part = tale.fit(tale.ready(tale.bring("PN-10", meant_for="10")), "10")
    due = f"check due|10|check/{check.name}//fitted"
    assert tale.open_now() == [due]
    tale.out(part, "10", by="RR")
    assert {due, "missing|10|"} <= {*tale.open_now()}, "nor does it come back when that one comes out"
    tale.fit(part, "10")
    tale.read("@10", check.name, "accept")
    assert tale.open_now() == []


def test_a_place_that_nobody_concedes_is_read(points: Twin | App) -> None:
    """An empty place alone says nothing: the switch may be on the bench."""
    tale = broken(points, GUARD)
    tale.read("@10", "guard", "not possible")
    assert tale.stands("check due") == ["10|check/guard//fitted"]
