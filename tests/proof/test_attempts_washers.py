"""Attempts on joints without a torque: washers left on the bench. Each story says what a shop would have suffered."""

from __future__ import annotations

import pytest

from tests.open_points.story import line
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws
from tests.proof.test_attempts_hardware import BALANCE, move


def washers(points: Twin | App) -> Tale:
    """Four washers beneath a cover, of which no torque is asked; they are counted and in."""
    tale = Tale(points, line("20"), screws("10", 4, holds=("20",)))
    tale.fit_ready("20")
    tale.screw_in("10", 4)
    assert tale.open_now() == []
    return tale


def test_an_opened_joint_asks_for_its_washers_again(points: Twin | App) -> None:
    """Four washers would have stayed in the tray when the cover was lifted once more."""
    tale = washers(points)
    tale.say("joint.opened", "@10", by="RR")
    assert tale.open_now() == [f"{BALANCE}|10|"]
    tale.say("hardware.counted", "@10", by="RR", found=4)
    assert tale.open_now() == [f"{BALANCE}|10|"], "counted is not put in"
    move(tale, put_in=3)
    assert tale.open_now() == [f"{BALANCE}|10|"]
    move(tale, put_in=1)
    assert tale.open_now() == []


def test_a_place_without_any_joint_asks_too(points: Twin | App) -> None:
    """A port whose row names no joint would have been closed with its seal washers on the bench."""
    tale = Tale(points, screws("10", 2))
    tale.screw_in("10", 2)
    tale.say("joint.opened", "@10", by="RR")
    assert tale.open_now() == [f"{BALANCE}|10|"]


def test_washers_put_in_by_who_had_not_heard_of_the_opening_are_not_those(points: Twin | App) -> None:
    """The first shift's washers would have counted for what the second shift took out."""
    tale = Tale(points, screws("10", 4, holds=("20",)), line("20"))
    tale.fit_ready("20")
    other = tale.second()
    tale.say("joint.opened", "@10", by="RR", on=other)
    tale.screw_in("10", 4)
    tale.carry()
    assert tale.open_now() == [f"{BALANCE}|10|"]
    move(tale, put_in=4)
    assert tale.open_now() == []


def test_an_opening_that_is_taken_back_asks_until_somebody_accepts_it(points: Twin | App) -> None:
    """A helper would have un-opened the joint on the screen, with the washers in his pocket."""
    tale = washers(points)
    opened = tale.say("joint.opened", "@10", by="RR")
    back = tale.take_back(opened, by="RR")
    assert sorted(tale.open_now()) == sorted([f"{BALANCE}|10|", f"{ACCEPTED}|10|{back.ref}"])
    tale.accept("10", back, "EE")
    assert tale.open_now() == [], "it was never opened, and what was put in counts"


def test_taking_back_the_opening_after_the_washers_went_in_again_asks_nothing_more(points: Twin | App) -> None:
    """Nobody opens a cover a third time for a word."""
    tale = washers(points)
    opened = tale.say("joint.opened", "@10", by="RR")
    move(tale, put_in=4)
    assert tale.open_now() == []
    back = tale.take_back(opened, by="RR")
    assert tale.open_now() == [f"{ACCEPTED}|10|{back.ref}"], "he knew of a demand, he did not rest on it"


def test_screws_with_a_torque_are_asked_by_their_torque_alone(points: Twin | App) -> None:
    """The bench would have counted every screw of every flange a second time."""
    tale = Tale(points, line("20"), screws("10", 4, torque=6, holds=("20",)))
    tale.fit_ready("20")
    tale.screw_in("10", 4)
    tale.tighten("10", count=4)
    assert tale.open_now() == []
    tale.say("joint.opened", "@10", by="RR")
    assert tale.open_now() == ["joint not torqued or due again|10|"]
    tale.tighten("10", count=4)
    assert tale.open_now() == []


@pytest.mark.parametrize("key", ["10", "30"])
def test_what_was_agreed_of_a_bag_is_not_agreed_of_what_was_opened_since(points: Twin | App, key: str) -> None:
    """One washer short was agreed; then the joint was opened, and four more would have been short by the same word."""
    tale = Tale(points, screws("10", 4), screws("30", 4))
    tale.say("hardware.counted", "@10", "@30", by="RR", found=8)
    for place, count in (("10", 3), ("30", 4)):
        move(tale, key=place, put_in=count)
    tale.concede(f"{BALANCE}|10|", by="KK")
    assert tale.open_now() == []
    tale.say("joint.opened", f"@{key}", by="RR")
    assert f"{BALANCE}|10|" in tale.open_now()


def test_one_bag_of_two_places_is_short_of_what_one_of_them_opened(points: Twin | App) -> None:
    """The other flange's washers would have paid for those on the bench."""
    tale = Tale(points, screws("10", 4), screws("30", 4))
    tale.say("hardware.counted", "@10", "@30", by="RR", found=8)
    for place in ("10", "30"):
        move(tale, key=place, put_in=4)
    assert tale.open_now() == []
    tale.say("joint.opened", "@30", by="RR")
    assert tale.stands(BALANCE) == ["10", "30"], "the place itself, and its bag at the first place"
    move(tale, key="30", put_in=4)
    assert tale.open_now() == []


def test_washers_taken_out_before_the_opening_are_not_asked_twice(points: Twin | App) -> None:
    """Out, opened, in: the bench would have had to put in eight of four."""
    tale = washers(points)
    move(tale, put_in=-4)
    tale.say("joint.opened", "@10", by="RR")
    assert tale.open_now() == [f"{BALANCE}|10|"]
    move(tale, put_in=4)
    assert tale.open_now() == []


def test_who_had_not_seen_the_opening_put_nothing_in_after_it(points: Twin | App) -> None:
    """The other tablet, in the store room, would have vouched for washers that came out at the bench."""
    tale = washers(points)
    other = tale.second()
    tale.say("joint.opened", "@10", by="RR")
    tale.say("hardware.moved", "@10", by="RR", on=other, put_in=4)
    assert tale.stands(BALANCE) == ["10"]
    tale.say("hardware.moved", "@10", by="RR", on=other, put_in=-4)
    assert tale.stands(BALANCE) == ["10"], "what does not count is taken out of nothing"
    other.sync(tale.first)
    tale.say("hardware.moved", "@10", by="RR", on=other, put_in=4)
    assert tale.stands(BALANCE) == []


def test_a_balance_that_was_conceded_is_open_again_when_the_joint_was_opened(points: Twin | App) -> None:
    """The customer would have agreed to three washers, and got a lid without any."""
    tale = Tale(points, screws("10", 4))
    tale.screw_in("10", 3)
    tale.concede(f"{BALANCE}|10|", by="KK")
    assert tale.stands(BALANCE) == []
    tale.say("joint.opened", "@10", by="RR")
    assert tale.stands(BALANCE) == ["10"]


# -- the cover itself ----------------------------------------------------------------------------------


def covered(points: Twin | App, how: str = "holds") -> tuple[Tale, str, str]:
    """Four washers are in that hold a cover, or go in after it. Gives what is beneath, and the cover."""
    row = screws("10", 4, holds=("20",)) if how == "holds" else screws("10", 4, fit_after=("20",))
    tale = Tale(points, line("20", "assembly"), line("20.10"), row)
    inner, cover = (tale.fit_ready(key) for key in ("20.10", "20"))
    tale.screw_in("10", 4)
    assert tale.open_now() == []
    return tale, inner, cover


@pytest.mark.parametrize("key", ["20", "20.10"], ids=["the cover", "what sits beneath it"])
@pytest.mark.parametrize("how", ["holds", "goes in after"])
def test_washers_of_a_cover_are_put_in_once_more(points: Twin | App, how: str, key: str) -> None:
    """The cover was lifted and put back, or what sits beneath it, which does not come out through it; and nobody said
    that its washers lie on the bench."""
    tale, inner, cover = covered(points, how)
    part = cover if key == "20" else inner
    tale.out(part, key, by="RR")
    tale.fit(part, key)
    assert tale.open_now() == [f"{BALANCE}|10|"]
    move(tale, put_in=4)
    assert tale.open_now() == []


def test_washers_that_went_in_before_their_cover_are_in(points: Twin | App) -> None:
    """A fitting opens nothing: who puts the washers in first and the cover then is not asked twice."""
    tale, _, cover = covered(points)
    tale.out(cover, "20", by="RR")
    move(tale, put_in=4)
    tale.fit(cover, "20")
    assert tale.open_now() == []


def test_a_cover_said_not_to_have_been_fitted_lets_its_washers_out(points: Twin | App) -> None:
    """A fitting taken back is a taking out until release accepts that it was a slip."""
    tale, _, cover = covered(points)
    tale.fit(cover, "20")
    fitted = tale.records("J7K3M00012")[-1]
    tale.take_back(fitted, by="RR")
    assert f"{BALANCE}|10|" in tale.open_now()
    tale.take_back(fitted, by="EE", reference="NC-1")
    assert tale.open_now() == []
