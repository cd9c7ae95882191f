"""Attempts on counted hardware: screws that are lost in the tool. Each story says what a shop would have suffered."""

from __future__ import annotations

import pytest

from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

BALANCE = "hardware does not balance"
MISFIT = "record kept that does not fit"
OTHER = {"of": "J7K3M00024", "goods": "@10", "consent": "mail 3"}


def bag(points: Twin | App, found: int = 3) -> Tale:
    """Four washers belong here, and this many were found."""
    tale = Tale(points, screws("10", 4))
    tale.say("hardware.counted", "@10", by="RR", found=found)
    return tale


def move(tale: Tale, by: str = "RR", key: str = "10", **more: object) -> object:
    """Something becomes of hardware."""
    return tale.say("hardware.moved", f"@{key}", by=by, **more)


def test_what_is_added_does_not_pay_for_what_is_lost(points: Twin | App) -> None:
    """The fourth washer would have been under the impeller at 20,000 rounds a minute."""
    tale = bag(points)
    move(tale, added=1)
    move(tale, put_in=4)
    assert tale.open_now() == [f"{BALANCE}|10|"]
    for more in ({"left_over": 1, "why": "spare"}, {"scrapped": 1, "why": "bent"}):
        move(tale, **more)
        assert tale.open_now() == [f"{BALANCE}|10|"], more


def test_who_says_lost_names_the_search_and_is_not_his_own_judge(points: Twin | App) -> None:
    """*Lost* would have been a word for *I did not look*."""
    tale = bag(points)
    move(tale, lost=1, search=" ")
    assert len(tale.stands("record kept that does not fit")) == 1
    tale = bag(points)
    lost = move(tale, lost=1, search="drip tray")
    move(tale, added=1)
    move(tale, put_in=4)
    assert tale.open_now() == [f"{ACCEPTED}|10|{lost.ref}"]
    tale.accept("10", lost, "EE")
    assert tale.open_now() == []


def test_lost_in_pieces_is_lost(points: Twin | App) -> None:
    """Two halves would have been too small for anybody to accept."""
    tale = bag(points, found=2)
    records = [move(tale, found_short=1, search="drip tray") for _ in range(2)]
    move(tale, added=2)
    move(tale, put_in=4)
    assert sorted(tale.stands(ACCEPTED)) == sorted(f"10|{each.ref}" for each in records)


def test_a_lower_count_does_not_hide_one_that_was_over(points: Twin | App) -> None:
    """A fifth washer that came out would have belonged to the bearing next door."""
    tale = bag(points, found=5)
    move(tale, put_in=4)
    assert tale.stands(BALANCE) == ["10"]
    lower = tale.say("hardware.counted", "@10", by="RR", found=4)
    assert tale.open_now() == [f"{ACCEPTED}|10|{lower.ref}"]
    again = tale.say("hardware.counted", "@10", by="RR", found=4)
    assert tale.open_now() == [f"{ACCEPTED}|10|{again.ref}"], "counted so twice it still waits"


def test_a_bag_is_not_split_until_it_fits(points: Twin | App) -> None:
    """Six of seven would have been four of four and two of two."""
    tale = Tale(points, screws("10", 4), screws("20", 3))
    tale.say("hardware.counted", "@10", "@20", by="RR", found=6)
    move(tale, put_in=4)
    move(tale, key="20", put_in=3)
    assert tale.stands(BALANCE) == ["10"]
    tale.say("hardware.counted", "@10", by="RR", found=4)
    tale.say("hardware.counted", "@20", by="RR", found=3)
    assert tale.stands(BALANCE) == ["10"]


def test_two_bags_are_not_put_together_unseen(points: Twin | App) -> None:
    """One that was over in one bag would have paid for one that was lost from the other."""
    tale = Tale(points, screws("10", 4), screws("20", 3))
    for key, found in (("10", 3), ("20", 4)):
        tale.say("hardware.counted", f"@{key}", by="RR", found=found)
    both = tale.say("hardware.counted", "@10", "@20", by="RR", found=7)
    move(tale, put_in=4)
    move(tale, key="20", put_in=3)
    assert tale.open_now() == [f"{ACCEPTED}|10|{both.ref}"]


def test_hardware_that_nobody_counted_is_not_there(points: Twin | App) -> None:
    """Four screws in their holes say nothing of the fifth."""
    tale = Tale(points, screws("10", 4))
    move(tale, put_in=4)
    assert tale.stands(BALANCE) == ["10"]


@pytest.mark.parametrize("word", ["scrapped", "lost", "found_short", "left_over"])
def test_nothing_is_lost_below_zero(points: Twin | App, word: str) -> None:
    """A sum would have been made right with a minus."""
    tale = bag(points, found=4)
    move(tale, put_in=4)
    move(tale, added=1)
    move(tale, **{word: -1}, why="so", search="so")
    assert tale.stands(BALANCE) == ["10"]
    assert len(tale.stands("record kept that does not fit")) == 1


def test_only_the_office_takes_away_what_was_added(points: Twin | App) -> None:
    """A handful from the drawer would have vanished again on paper."""
    tale = bag(points, found=4)
    move(tale, put_in=4)
    move(tale, added=1)
    move(tale, added=-1)
    assert tale.stands(BALANCE) == ["10"]
    move(tale, by="OO", added=-1)
    assert tale.open_now() == []


def test_a_washer_that_turns_up_is_counted_again(points: Twin | App) -> None:
    """Nobody is stuck with a search that was successful."""
    tale = bag(points)
    tale.say("hardware.counted", "@10", by="RR", found=4)
    move(tale, put_in=4)
    assert tale.open_now() == []


def test_two_places_of_one_bag_balance_together(points: Twin | App) -> None:
    """One bag for two flanges is how it is done."""
    tale = Tale(points, screws("10", 4), screws("20", 2))
    tale.say("hardware.counted", "@10", "@20", by="RR", found=6)
    move(tale, put_in=4)
    assert tale.stands(BALANCE) == ["10", "20"]
    move(tale, key="20", put_in=2)
    assert tale.open_now() == []


def test_fewer_than_one_are_not_taken_over(points: Twin | App) -> None:
    """Two screws from the drawer would have stayed in the tool: minus two of them came from the job next door."""
    tale = bag(points, found=4)
    move(tale, added=2)
    move(tale, put_in=4)
    assert tale.open_now() == [f"{BALANCE}|10|"]
    for quantity in (-2, 0):
        tale.say("goods.taken_over", "@10", by="RR", quantity=quantity, **OTHER)
    assert tale.stands(BALANCE) == ["10"]
    assert len(tale.stands(MISFIT)) == 2


def test_what_another_job_lent_is_owed_whatever_is_said_of_fewer_than_none(points: Twin | App) -> None:
    """The job next door would have waited for its screws for ever; a part would have come for nothing."""
    tale = bag(points, found=4)
    tale.say("goods.taken_over", "@10", by="RR", quantity=2, **OTHER)
    tale.say("goods.taken_over", "@10", by="RR", quantity=-2, **OTHER)
    assert tale.stands("debt") == ["10"]
    tale.say("goods.taken_over", tale.first.thing(), by="RR", quantity=0, part_number="PN", **OTHER)
    assert len(tale.stands(MISFIT)) == 2


def test_one_screw_is_taken_over_where_nobody_says_how_many(points: Twin | App) -> None:
    """A screw that was lent would have been nobody's for want of a number."""
    tale = bag(points, found=4)
    tale.say("goods.taken_over", "@10", by="RR", **OTHER)
    move(tale, put_in=4)
    assert tale.stands(MISFIT) == []
    assert (tale.stands("debt"), tale.stands(BALANCE)) == (["10"], ["10"]), "one is over, and owed"
