"""Washers: put in again when what they hold came off; counts of one bag that had not heard of one another. Kept current
equals all worked out at once."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Joint, Line
from teardown_app.domain.lacks.lack import HARDWARE, TO_ACCEPT, TWO_ENTRIES
from tests.open_points.story import line
from tests.open_points.watched import Watched


def washers(position: str, *holds: str, **more: object) -> Line:
    """Two of them, of which no torque is asked."""
    return line(position, "hardware", quantity=Decimal(2), joint=Joint("M6", holds=holds) if holds else None, **more)


def lid() -> tuple[Watched, str]:
    """Washers at 20 hold the lid with a ring beneath it, which is in; those at 10 were in one bag with them."""
    lines = line("30", "assembly", routes=("wash",)), line("30.10"), line("40")
    story = Watched(washers("10", "40"), washers("20", "30"), *lines)
    part = story.off("30")
    story.say("hardware.counted", "@10", "@20", found=4)
    story.fit(part, "30")
    for place in ("@10", "@20"):
        story.say("hardware.moved", place, put_in=2)
    assert story.keys(HARDWARE) == []
    return story, part


def test_washers_of_a_lid_that_came_off_are_put_in_again() -> None:
    """Four washers would have stayed in the tray when the lid was lifted without a word about its joint."""
    story, part = lid()
    story.say("part.taken_out", part, "@30")
    assert story.keys(HARDWARE) == ["10", "20"], "the place, and its bag at the first place"
    story.fit(part, "30")
    assert story.keys(HARDWARE) == ["10", "20"]
    said = [one.wrong for one in story.live.open_points() if one.kind == HARDWARE]
    assert "2 still to put in, opened since." in said[1]
    story.say("hardware.moved", "@20", put_in=2)
    assert story.keys(HARDWARE) == []


def test_what_comes_off_beneath_asks_for_them_too_and_what_comes_off_beside_does_not() -> None:
    """A ring in the lid comes off with the lid."""
    story, _ = lid()
    story.off("40")
    assert story.keys(HARDWARE) == ["10"]
    story.say("hardware.moved", "@10", put_in=2)
    ring = story.off("30.10")
    assert story.keys(HARDWARE) == ["10", "20"]
    back = story.take_back(ring)
    assert story.keys(HARDWARE) == ["10", "20"]
    key = f"{TO_ACCEPT}|{ring}|{back.ref}"
    story.say("point.conceded", ring, key=key, why="slip", reference="A-1", covers=[], lines=[])
    assert story.keys(HARDWARE) == [], "it never came off, and what was put in counts"


def test_a_fitting_that_is_taken_back_is_a_coming_off() -> None:
    """Nobody knows whether the lid was in."""
    story, part = lid()
    story.take_back(next(one for one in story.first.own(story.job.number) if one.typ == "part.fitted"))
    assert story.keys(HARDWARE) == ["10", "20"]
    story.fit(part, "30")
    assert story.keys(HARDWARE) == ["10", "20"]


def test_washers_beneath_which_a_seat_came_off() -> None:
    """A line without a joint that goes in after the seat closes over it."""
    story = Watched(line("10"), washers("20", fit_after=("10",)))
    part = story.fit(story.off("10"), "10")
    story.say("hardware.counted", "@20", found=2)
    story.say("hardware.moved", "@20", put_in=2)
    assert story.keys(HARDWARE) == []
    story.say("part.taken_out", part, "@10")
    assert story.keys(HARDWARE) == ["20"]


def test_screws_with_a_torque_are_not_put_in_again() -> None:
    """Their torque asks."""
    joint = Joint("M6", torque_nm=Decimal(6), holds=("10",))
    story = Watched(line("10"), line("20", "hardware", quantity=Decimal(2), joint=joint))
    part = story.fit(story.off("10"), "10")
    story.say("hardware.counted", "@20", found=2)
    story.say("hardware.moved", "@20", put_in=2)
    story.say("part.taken_out", part, "@10")
    assert story.keys(HARDWARE) == []


# -- counts -------------------------------------------------------------------------------------------------


def bag() -> Watched:
    """Three places for two washers each."""
    return Watched(washers("10"), washers("20"), washers("30"))


@pytest.mark.parametrize("whole_last", [True, False])
def test_a_count_of_fewer_places_beside_one_of_the_whole_bag_differs(whole_last: bool) -> None:
    """The store counted three flanges, the bench one of them: the bench's number would have been silenced."""
    story = bag()
    other = story.second()
    counts = [{"on": other, "ent": ("@10",), "found": 1}, {"on": story.first, "ent": ("@10", "@20", "@30"), "found": 6}]
    for one in counts if whole_last else counts[::-1]:
        story.say("hardware.counted", *one["ent"], on=one["on"], found=one["found"])
    assert story.keys(TWO_ENTRIES) == ["10", "20", "30"], "the whole bag is in question"
    story.carry()
    story.say("hardware.counted", "@10", "@20", "@30", found=6)
    assert story.keys(TWO_ENTRIES) == [], "who had seen both counted once more"


def test_a_count_by_somebody_who_had_seen_the_one_of_fewer_places_settles() -> None:
    """One place was counted, then all three together."""
    story = bag()
    story.say("hardware.counted", "@10", found=2)
    whole = story.say("hardware.counted", "@10", "@20", "@30", found=6)
    assert story.keys(TWO_ENTRIES) == []
    story.say("hardware.counted", "@20", found=1)
    assert story.keys(TWO_ENTRIES) == ["10", "20", "30"], "a recount of one place replaces nothing, and is not silenced"
    story.take_back(whole)
    assert story.keys(TWO_ENTRIES) == [], "no count holds: the bag is not counted"


def test_bags_that_hang_together_through_one_place_are_told_of_each_other() -> None:
    """10 with 20, 20 with 30: what is put in at the last place shows at the first."""
    story = bag()
    for keys in (("@10", "@20"), ("@20", "@30"), ("@10", "@20", "@30")):
        story.say("hardware.counted", *keys, found=2 * len(keys))
    for place in ("@10", "@20", "@30"):
        story.say("hardware.moved", place, put_in=2)
    assert story.keys(HARDWARE) == []
    story.say("hardware.moved", "@30", added=1)
    assert story.keys(HARDWARE) == ["10"]
