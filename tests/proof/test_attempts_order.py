"""Attempts by order, and honest jobs that must not be stuck; one fault is one point.

Each story says what a shop would have suffered."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Check, Operation, Route
from tests.open_points.story import line
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

RUNNING = "temporary in or out wrongly"
OVER = "fitted over an empty position"


# -- order ---------------------------------------------------------------------------------------------


def bath(points: Twin | App, *operations: Operation) -> tuple[Tale, str]:
    """A part that goes through baths."""
    tale = Tale(points, line("10", routes=("wash",)), routes=(Route("wash", operations=operations),))
    part = tale.off("10")
    tale.say("disposition.given", part, as_="use as is")
    return tale, tale.fit(part, "10")


def done(tale: Tale, part: str, operation: str, word: str = "done", **more: object) -> None:
    """Something happens to a part in a bath."""
    tale.say(f"operation.{word}", part, by="RR", route="wash", operation=operation, **{"pass": 1}, **more)


def released(tale: Tale, part: str) -> bool:
    """Whether a release by somebody who may stands."""
    tale.release(part, by="EE")
    return tale.stands("not released") == []


def test_a_bath_takes_its_time(points: Twin | App) -> None:
    """A ten-minute pickle would have been one tap."""
    tale, part = bath(points, Operation("pickle", time="10 min"))
    done(tale, part, "pickle")
    assert not released(tale, part)
    for said in (" ", "-", "08:00", "2026-03-02 08:00"):
        done(tale, part, "pickle", began=said)
        assert not released(tale, part), f"{said} is no time"
    done(tale, part, "pickle", began="2026-03-02T08:00:00+01:00")
    assert released(tale, part), "who forgot to tap says afterwards when it began"


def test_a_bath_that_was_begun_needs_no_second_word(points: Twin | App) -> None:
    """Nobody types a time that the tablet knows."""
    tale, part = bath(points, Operation("pickle", time="10 min"))
    done(tale, part, "pickle", word="started")
    assert not released(tale, part), "begun is not done"
    done(tale, part, "pickle")
    assert released(tale, part)


@pytest.mark.parametrize("said", ["", " ", None, 3])
def test_a_bath_that_is_not_named_is_not_written_down(points: Twin | App, said: object) -> None:
    """Nobody would have known which bath had etched the part: its name was a blank."""
    tale, part = bath(points, Operation("pickle", record=("bath",)))
    done(tale, part, "pickle", word="started", values={"bath": said})
    done(tale, part, "pickle", values={"bath": said})
    assert not released(tale, part)
    done(tale, part, "pickle", values={"bath": "B2"})
    assert released(tale, part)


@pytest.mark.parametrize("said", ["", " ", None])
def test_a_blank_is_no_serial(points: Twin | App, said: object) -> None:
    """A pump of unknown serial would have gone to a customer who traces each one; a blank wiped none out either."""
    tale = Tale(points, line("10", write_down=("serial",)))
    part = tale.off("10")
    tale.say("part.noted", part, by="RR", written={"serial": said})
    tale.say("disposition.given", part, as_="use as is")
    tale.fit(part, "10")
    assert not released(tale, part)
    tale.say("part.noted", part, by="RR", written={"serial": "7"})
    tale.say("part.noted", part, by="RR", written={"serial": said})
    assert released(tale, part)


def test_baths_in_the_wrong_order_do_not_count(points: Twin | App) -> None:
    """Passivated and then degreased: the layer would have been oil."""
    tale, part = bath(points, Operation("degrease"), Operation("passivate"))
    done(tale, part, "passivate")
    done(tale, part, "degrease")
    assert not released(tale, part)
    done(tale, part, "passivate")
    assert released(tale, part)


def test_a_part_is_not_released_before_it_is_dry(points: Twin | App) -> None:
    """Water would have been closed up in a vacuum."""
    tale, part = bath(points, Operation("bake", wait_h=Decimal(4)))
    done(tale, part, "bake")
    tale.first.clock.hours += 3.9
    assert not released(tale, part)
    tale.first.clock.hours += 0.1
    assert released(tale, part)


def test_a_clock_that_was_not_set_dries_nothing(points: Twin | App) -> None:
    """A tablet that thinks it is next year would have dried every part."""
    tale, part = bath(points, Operation("bake", wait_h=Decimal(4)))
    done(tale, part, "bake")
    tale.first.clock.hours += 9
    tale.first.clk = "unset"
    assert not released(tale, part)
    tale.say("wait.over", part, by="EE", route="wash", operation="bake", why="dry to the touch", **{"pass": 1})
    assert released(tale, part), "somebody may look, and say so"


def test_a_lid_over_a_screw_over_a_hole_is_said_at_the_lid(points: Twin | App) -> None:
    """The hole would have been said beneath a lid that nobody takes off for it."""
    rows = (line("10"), screws("20", 1, fit_after=("10",)), line("30", fit_after=("20",)))
    tale = Tale(points, *rows)
    tale.screw_in("20", 1)
    tale.fit_ready("30")
    assert tale.open_now() == [f"{OVER}|30|10"]


# -- nobody honest is stuck ----------------------------------------------------------------------------


def test_a_label_that_moved_on_is_on_one_part(points: Twin | App) -> None:
    """A label peeled off scrap would have been a point for ever."""
    tale = Tale(points, line("10"))
    old, new = tale.off("10", number="P7K3M0001A"), tale.bring("PN-10", meant_for="10", number="P7K3M0001A")
    assert tale.stands("label of two parts") == ["P7K3M0001A"]
    tale.say("part.renumbered", old, by="RR", number="P7K3M0002C", why="label on the new one")
    assert tale.stands("label of two parts") == []
    tale.say("disposition.given", old, by="AA", as_="scrap")
    tale.fit(tale.ready(new), "10")
    assert tale.open_now() == []


def test_a_scrapped_part_owes_no_answer(points: Twin | App) -> None:
    """The job would have waited for the customer's word on a part in the skip."""
    tale = Tale(points, line("10"))
    old = tale.off("10")
    finding = tale.say("finding.noted", old, by="RR", word="cracked", cause="fatigue", covered=False)
    tale.say("hold.placed", old, by="RR", why="show it first")
    tale.say("approval.given", finding.thing(), by="OO", as_="declined")
    tale.say("disposition.given", old, as_="scrap")
    tale.fit(tale.ready(tale.bring("PN-10", meant_for="10")), "10")
    assert tale.open_now() == []


def test_a_scrapped_part_that_goes_in_all_the_same_owes_them_again(points: Twin | App) -> None:
    """The cracked one would have been taken out of the skip, with nothing to answer for."""
    tale = Tale(points, line("10"))
    old = tale.off("10")
    tale.say("finding.noted", old, by="RR", word="cracked", cause="fatigue", covered=False)
    tale.say("hold.placed", old, by="RR", why="show it first")
    tale.say("disposition.given", old, as_="scrap")
    tale.fit(old, "10")
    kinds = {key.partition("|")[0] for key in tale.open_now()}
    assert kinds == {"approval waiting", "hold", "not released"}


def test_two_done_of_one_bath_are_said_once_again(points: Twin | App) -> None:
    """Two benches that both tapped would have had to wash it a third time for the paper."""
    tale, part = bath(points, Operation("rinse"))
    other = tale.second()
    for tablet in (tale.first, other):
        tale.say("operation.done", part, on=tablet, by="RR", route="wash", operation="rinse", **{"pass": 1})
    tale.carry()
    assert tale.stands("two different entries") == [f"{part}|operation/wash/rinse/1/twice"]
    done(tale, part, "rinse")
    assert len(tale.stands(ACCEPTED)) == 1
    tale.release(part, by="EE")
    assert tale.open_now() == []


def test_a_place_that_came_apart_and_stays_empty_is_conceded(points: Twin | App) -> None:
    """The customer keeps his old valve: no word reaches a place that was touched, a signature does."""
    tale = Tale(points, line("10"))
    part = tale.off("10")
    tale.say("disposition.given", part, as_="return unrepaired")
    tale.word("10", "not on this tool", by="OO", reference="A-1")
    assert tale.open_now() == ["missing|10|"]
    tale.concede("missing|10|", by="KK")
    assert tale.open_now() == []


def test_a_mask_that_is_out_is_out(points: Twin | App) -> None:
    """A forgotten mask would have run with the tool; one that came out lets it run."""
    tale = Tale(points, line("10"))
    tale.fit_ready("10")
    masks = [tale.say("temporary.in", tale.first.thing(), by="RR", what="mask").ent[0] for _ in range(2)]
    tale.say("temporary.out", masks[0], by="RR")
    assert tale.open_now() == [f"{RUNNING}|{masks[1]}|running", f"{RUNNING}|{masks[1]}|shipping"]
    tale.say("temporary.out", masks[1], by="RR")
    assert tale.open_now() == []


def test_a_reject_read_on_the_wrong_part_is_taken_back_by_release(points: Twin | App) -> None:
    """A good heater would have been scrap because of a slip of the finger on what protects people."""
    earth = Check("earth", type="bonding", when=("finished",))
    tale = Tale(points, line("10", checks=("earth",)), checks=(earth,))
    part = tale.fit(tale.ready(tale.off("10")), "10")
    reject = tale.read(part, "earth", "reject", when="finished")
    tale.take_back(reject, by="EE", reference="wrong part")
    tale.read(part, "earth", "accept", when="finished")
    tale.release(part, by="EE")
    assert tale.open_now() == []
