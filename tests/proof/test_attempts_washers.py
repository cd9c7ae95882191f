"""Attempts on joints without a torque: washers left on the bench. Each story says what a shop would have suffered."""

from __future__ import annotations

from tests.open_points.story import line
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale, screws

BALANCE = "hardware does not balance"


def moved(tale: Tale, **more: object) -> None:
    """Something becomes of the washers."""
    tale.say("hardware.moved", "@10", by="RR", **more)


def plain_joint(points: Twin | App, torque: int | None = None) -> Tale:
    """A lid that four washers lie under; they are in, everything is closed up."""
    tale = Tale(points, line("20"), screws("10", 4, torque=torque, holds=("20",)))
    tale.fit_ready("20")
    tale.screw_in("10", 4)
    if torque:
        tale.tighten("10", count=4)
    assert tale.open_now() == []
    return tale


def test_washers_of_an_opened_joint_are_put_in_again(points: Twin | App) -> None:
    """The four washers would have stayed on the bench, and the lid gone on without them."""
    tale = plain_joint(points)
    tale.say("joint.opened", "@10", by="RR")
    assert tale.open_now() == [f"{BALANCE}|10|"]
    moved(tale, put_in=3)
    assert tale.open_now() == [f"{BALANCE}|10|"]
    moved(tale, put_in=1)
    assert tale.open_now() == []


def test_who_had_not_seen_the_opening_put_nothing_in_after_it(points: Twin | App) -> None:
    """The other tablet, in the store room, would have vouched for washers that came out at the bench."""
    tale = plain_joint(points)
    other = tale.second()
    tale.say("joint.opened", "@10", by="RR")
    tale.say("hardware.moved", "@10", by="RR", on=other, put_in=4)
    assert tale.stands(BALANCE) == ["10"]
    tale.say("hardware.moved", "@10", by="RR", on=other, put_in=-4)
    assert tale.stands(BALANCE) == ["10"], "what does not count is taken out of nothing"
    other.sync(tale.first)
    tale.say("hardware.moved", "@10", by="RR", on=other, put_in=4)
    assert tale.stands(BALANCE) == []


def test_an_opening_taken_back_puts_nothing_in(points: Twin | App) -> None:
    """*It was never opened* would have been quicker than four washers."""
    tale = plain_joint(points)
    opened = tale.say("joint.opened", "@10", by="RR")
    back = tale.take_back(opened, by="RR")
    assert tale.stands(BALANCE) == ["10"] and tale.waits("10", back)
    tale.accept("10", back, "EE")
    assert tale.open_now() == []


def test_a_balance_that_was_conceded_is_open_again_when_the_joint_was_opened(points: Twin | App) -> None:
    """The customer would have agreed to three washers, and got a lid without any."""
    tale = Tale(points, screws("10", 4))
    tale.screw_in("10", 3)
    tale.concede(f"{BALANCE}|10|", by="KK")
    assert tale.stands(BALANCE) == []
    tale.say("joint.opened", "@10", by="RR")
    assert tale.stands(BALANCE) == ["10"]


def test_screws_with_a_torque_are_tightened_again_and_not_counted_again(points: Twin | App) -> None:
    """Every screw would have been asked for twice, once in its place and once with its torque."""
    tale = plain_joint(points, torque=6)
    tale.say("joint.opened", "@10", by="RR")
    assert tale.open_now() == ["joint not torqued or due again|10|"]
    tale.tighten("10", count=4)
    assert tale.open_now() == []
