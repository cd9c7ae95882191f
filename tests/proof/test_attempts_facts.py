"""Attempts by what is said of a part where it is brought in, noted first, or recorded again; and by what was added.

Each story says what a shop would have suffered."""

from __future__ import annotations

import pytest

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import line, route
from tests.open_points.tablets import JOB
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

RUNOUT = Check("runout", when=("finished",))
LABEL = "P7K3M0001A"


def washed(points: Twin | App) -> Tale:
    """A part that is washed and read before it goes back."""
    row = line("10", routes=("wash",), checks=("runout",))
    return Tale(points, row, checks=(RUNOUT,), routes=(route("wash", "degrease"),))


# -- recorded again --------------------------------------------------------------------------------------


def borrowed(points: Twin | App) -> tuple[Tale, str]:
    """A part of another job comes in, borrowed, and that is taken back."""
    tale = Tale(points, line("10"))
    body = {"number": LABEL, "part_number": "PN-10", "meant_for": "10"}
    part = tale.say("part.brought_in", tale.first.thing(), by="EE", origin="borrowed", owner="other job", **body).ent[0]
    return tale, f"{part}|{tale.take_back(part, by='RR').ref}"


@pytest.mark.parametrize(
    "said",
    [
        {"origin": "stock"},
        {"origin": "borrowed"},
        {"origin": "borrowed", "owner": "shop"},
        {"origin": "borrowed", "owner": "other job", "part_number": "PN-11"},
    ],
    ids=["as stock", "as nobody's", "as the shop's", "as another number"],
)
def test_a_borrowed_part_does_not_come_back_as_ours(points: Twin | App, said: dict[str, str]) -> None:
    """The neighbour's pump would have been shipped to our customer, and nobody would have asked for it."""
    tale, point = borrowed(points)
    assert tale.stands(ACCEPTED) == [point]
    body = {"number": LABEL, "part_number": "PN-10", "meant_for": "10", **said}
    tale.say("part.brought_in", tale.first.thing(), by="RR", **body)
    assert point in tale.stands(ACCEPTED)


def test_who_brings_it_in_again_as_it_was_waits_for_nobody(points: Twin | App) -> None:
    """A slip in the place it is meant for is put right by recording it anew."""
    tale, _ = borrowed(points)
    body = {"number": LABEL, "part_number": "PN-10", "origin": "borrowed", "owner": "other job"}
    tale.say("part.brought_in", tale.first.thing(), by="RR", **body)
    assert tale.stands(ACCEPTED) == []


def test_what_came_off_does_not_come_back_as_new(points: Twin | App) -> None:
    """The old rotor would have gone in unwashed and unread, as one from the box."""
    tale = washed(points)
    part = tale.off("10")
    back = tale.take_back(part, by="RR")
    tale.bring("PN-10", by="RR", out_of="10")
    assert f"{part}|{back.ref}" in tale.stands(ACCEPTED)


# -- where it is brought in ------------------------------------------------------------------------------


def test_taken_off_as_repaired_waits_for_release(points: Twin | App) -> None:
    """A part would have been released unwashed, because somebody said that it had been mended elsewhere."""
    tale = washed(points)
    part = tale.say("part.taken_off", tale.first.thing(), by="RR", out_of="10", origin="repaired").ent[0]
    off = next(each for each in tale.records(JOB) if each.typ == "part.taken_off")
    assert tale.waits(part, off)
    tale.read(part, "runout", "accept", when="finished")
    tale.ready(part)
    assert not tale.waits(part, off), "who releases it has seen that"
    tale.fit(part, "10")
    assert tale.open_now() == []


def test_a_second_name_brings_no_other_origin(points: Twin | App) -> None:
    """The same by a second tablet, whose name for the part was joined to the first."""
    tale = washed(points)
    other, part = tale.second(), tale.off("10")
    twice = tale.say("part.taken_off", other.thing(), by="RR", on=other, out_of="10", origin="repaired")
    tale.carry()
    tale.say("part.same_as", part, twice.ent[0], by="RR")
    assert tale.waits(part, twice)


def test_saying_repaired_twice_does_not_help(points: Twin | App) -> None:
    """Nor by a note that only says what was said before."""
    tale = washed(points)
    part = tale.say("part.taken_off", tale.first.thing(), by="RR", out_of="10", origin="repaired").ent[0]
    note = tale.say("part.noted", part, by="RR", origin="repaired")
    assert tale.waits(part, note)


def test_who_takes_off_what_the_bill_says_waits_for_nobody(points: Twin | App) -> None:
    """Every part of the tool would have waited for the foreman."""
    tale = washed(points)
    tale.off("10", origin="as received", part_number="PN-10")
    assert tale.stands(ACCEPTED) == []


def test_a_part_brought_in_says_what_it_is(points: Twin | App) -> None:
    """New parts would have waited at the door."""
    tale = Tale(points, line("10"))
    for origin in ("new", "stock", "exchanged"):
        tale.bring("PN-11", by="RR", origin=origin, meant_for="10", owner="shop", set_mark="A")
    assert tale.stands(ACCEPTED) == []


# -- first said ------------------------------------------------------------------------------------------


def in_wrong_place(points: Twin | App) -> tuple[Tale, str]:
    """A pump's rotor sits in the place of another one."""
    tale = Tale(points, line("10", number="PN-P"), line("20", number="PN-Q"))
    part = tale.off("10")
    tale.say("disposition.given", tale.off("20"), by="RR", as_="return unrepaired")
    tale.say("part.noted", part, by="EE", meant_for="20")
    tale.fit(tale.ready(part), "20")
    assert tale.stands("wrong component") == ["20"]
    return tale, part


def test_a_part_off_a_line_has_the_number_of_its_line(points: Twin | App) -> None:
    """A rotor of the wrong stage would have run, because somebody wrote the right number on its card."""
    tale, part = in_wrong_place(points)
    note = tale.say("part.noted", part, by="RR", part_number="PN-Q")
    assert (tale.stands("wrong component"), tale.waits(part, note)) == ([], True)
    tale.release(part, by="EE")
    assert not tale.waits(part, note), "who has release has looked at it"


def test_the_number_of_its_line_is_written_down_freely(points: Twin | App) -> None:
    """Whoever reads the plate of what came off would have waited."""
    tale, part = in_wrong_place(points)
    tale.take_back(tale.say("part.noted", part, by="RR", part_number="PN-P"), by="RR")
    assert tale.stands(ACCEPTED) == []


def test_a_part_that_goes_away_may_have_any_number(points: Twin | App) -> None:
    """Of scrap nobody is asked."""
    tale = Tale(points, line("10"))
    part = tale.off("10")
    tale.say("part.noted", part, by="RR", part_number="PN-11")
    tale.say("disposition.given", part, as_="scrap")
    assert tale.stands(ACCEPTED) == []


# -- hardware added --------------------------------------------------------------------------------------


def two_over(points: Twin | App) -> tuple[Tale, str]:
    """Four screws are in their place, two more were taken new."""
    tale = Tale(points, screws("10", 4))
    tale.say("hardware.counted", "@10", by="EE", found=4)
    added = tale.say("hardware.moved", "@10", by="EE", added=2)
    tale.say("hardware.moved", "@10", by="EE", put_in=4)
    assert tale.stands("hardware does not balance") == ["10"]
    return tale, f"10|{tale.take_back(added, by='RR').ref}"


def test_screws_taken_new_are_not_talked_back_into_the_drawer(points: Twin | App) -> None:
    """Two screws would have stayed in the tool, and the drawer would have been right on paper."""
    tale, point = two_over(points)
    assert tale.open_now() == [f"{ACCEPTED}|{point}"]
    tale.accept("10", next(each for each in tale.records(JOB) if each.typ == "record.voided"), "EE")
    assert tale.open_now() == []


@pytest.mark.parametrize(("again", "waits"), [(1, True), (2, False), (3, False)])
def test_as_many_are_added_again(points: Twin | App, again: int, waits: bool) -> None:
    """Who took a slip back says how many there really were; fewer is the drawer again."""
    tale, point = two_over(points)
    tale.say("hardware.moved", "@10", by="RR", added=again)
    assert tale.stands(ACCEPTED) == ([point] if waits else [])
