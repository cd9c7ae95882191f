"""Attempts by saying something once more: one record for two that were taken back, another part for the one that
came out, a count by somebody who had not heard of the first.

Each story says what a shop would have suffered."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tests.open_points.story import line
from tests.open_points.tablets import JOB
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws
from tests.proof.test_attempts_hardware import BALANCE, move

DIFFERENT = "two different entries"


def counted(points: Twin | App, *pieces: int) -> Tale:
    """Four screws are counted and in; so many more were taken new, and each of these records is taken back."""
    tale = Tale(points, screws("10", 4))
    tale.say("hardware.counted", "@10", by="EE", found=4)
    added = [tale.say("hardware.moved", "@10", by="EE", added=each) for each in pieces]
    move(tale, put_in=4)
    for each in added:
        tale.take_back(each, by="RR")
    assert len(tale.stands(ACCEPTED)) == len(pieces)
    return tale


@pytest.mark.parametrize(
    ("back", "again", "waiting"),
    [
        ((2, 2), (2,), 1),
        ((2, 2), (3,), 1),
        ((2, 2), (1, 1), 1),
        ((2, 2), (1,), 2),
        ((3, 1), (2,), 1),
        ((2, 2), (2, 2), 0),
        ((2, 2), (4,), 0),
        ((2, 2), (1, 1, 2), 0),
        ((2, 2), (5,), 0),
    ],
)
def test_screws_taken_new_are_said_again_piece_by_piece(
    points: Twin | App, back: tuple[int, ...], again: tuple[int, ...], waiting: int
) -> None:
    """Two of four screws would have stayed in the chamber: one record answered for both that were taken back."""
    tale = counted(points, *back)
    for each in again:
        move(tale, added=each)
    assert len(tale.stands(ACCEPTED)) == waiting


def test_what_is_not_said_again_is_accepted_by_release(points: Twin | App) -> None:
    """Two boxes were two, and one of them a slip: who has looked says so."""
    tale = counted(points, 2, 2)
    move(tale, added=2)
    move(tale, left_over=2, why="back in the drawer")
    (waiting,) = tale.stands(ACCEPTED)
    back = next(each for each in tale.records(JOB) if waiting.endswith(each.ref))
    tale.accept("10", back, "EE")
    assert tale.open_now() == []
    tale.close()
    assert tale.is_closed()


def _line(tale: Tale, n: int) -> object:
    body: dict[str, Any] = {"parent": "10", "part_number": "X", "description": "bracket", "number": "1"}
    return tale.say("line.added", f"@10.+X{n}", by="RR", **body)


def _finding(tale: Tale, n: int) -> object:
    return tale.say("finding.noted", tale.records(JOB)[1].ent[0], by="RR", **SCRATCH, cause=CAUSES[n])


SCRATCH: dict[str, Any] = {"word": "scratched", "covered": False}
CAUSES = ("wear", "freight", "", "")
TWICE: dict[str, Callable[[Tale, int], Any]] = {
    "two brackets": _line,
    "two findings": _finding,
    "two rings out of one place": lambda t, n: t.say("part.taken_off", t.first.thing(), by="RR", out_of="10.20"),
    "two spares for one place": lambda t, n: t.say(
        "part.brought_in", t.first.thing(), by="RR", out_of="10.20", origin="exchanged", part_number="PN-10.20"
    ),
}
"""What was recorded -> the n-th record of it."""


@pytest.mark.parametrize("what", TWICE)
def test_of_two_things_one_said_again_is_one(points: Twin | App, what: str) -> None:
    """The second bracket would have stayed in the tool, the second scratch unpaid, the second ring on the bench."""
    say = TWICE[what]
    tale = Tale(points, line("10", "assembly"), line("10.10"), line("10.20"))
    tale.off("10.10")
    both = [say(tale, n) for n in (0, 1)]
    for each in both:
        tale.take_back(each, by="EE")
    assert len(tale.stands(ACCEPTED)) == 2
    say(tale, 2)
    assert len(tale.stands(ACCEPTED)) == 1
    say(tale, 3)
    assert tale.stands(ACCEPTED) == []


def test_a_part_that_came_out_is_not_another_one(points: Twin | App) -> None:
    """A pump on the bench would have been back in its place, because its neighbour was said to have come out there."""
    tale = Tale(points, line("10"), line("20"))
    pump, other = tale.fit_ready("10"), tale.fit_ready("20")
    back = tale.take_back(tale.out(pump, "10", by="EE"), by="RR")
    tale.out(other, "10", by="RR")
    assert tale.waits("10", back)
    tale.out(pump, "10", by="RR")
    assert not tale.waits("10", back), "the same part out of the same place says what was taken back"


# -- counts --------------------------------------------------------------------------------------------


def two_counts(points: Twin | App, found: int) -> Tale:
    """One flange is counted at the bench; a tablet that had not heard of it counts two flanges as one bag."""
    tale = Tale(points, screws("10", 4), screws("20", 4))
    other = tale.second()
    tale.say("hardware.counted", "@10", by="EE", found=found)
    tale.say("hardware.counted", "@10", "@20", by="RR", on=other, found=8)
    tale.carry()
    for key in ("10", "20"):
        move(tale, key=key, put_in=4)
    return tale


@pytest.mark.parametrize("found", [3, 4, 5])
def test_a_count_that_nobody_had_heard_of_is_not_silenced(points: Twin | App, found: int) -> None:
    """The fourth screw would have been in the pump: a bag of eight, counted elsewhere, made the three forgotten."""
    tale = two_counts(points, found)
    assert "10|found" in tale.stands(DIFFERENT)
    tale.say("hardware.counted", "@10", by="RR", found=4)
    assert "10|found" in tale.stands(DIFFERENT), "one flange alone says nothing of the bag"
    tale.close()
    assert not tale.is_closed()


def test_who_had_seen_both_counts_once_more(points: Twin | App) -> None:
    """The screw was under the bench: the shop counts all eight, and release says yes to that."""
    tale = two_counts(points, 3)
    last = tale.say("hardware.counted", "@10", "@20", by="RR", found=8)
    assert tale.open_now() == [f"{ACCEPTED}|10|{last.ref}"], "it names another bag than the first count"
    tale.accept("10", last, "EE")
    assert tale.open_now() == []
    tale.close()
    assert tale.is_closed()


def test_who_had_seen_both_counts_one_too_few(points: Twin | App) -> None:
    """The screw is gone: the shop says so and does not wait for ever."""
    tale = two_counts(points, 3)
    tale.say("hardware.counted", "@10", "@20", by="EE", found=7, reference="NC-1")
    assert (tale.stands(DIFFERENT), tale.stands(BALANCE)) == ([], ["10"])
    tale.say("hardware.moved", "@10", by="EE", added=1, lost=1, search="tray", reference="NC-1")
    assert tale.open_now() == []


@pytest.mark.parametrize(
    ("out", "again", "waiting"), [((3,), (1,), 1), ((2, 2), (2,), 1), ((3,), (3,), 0), ((2, 2), (1, 3), 0)]
)
def test_screws_that_were_taken_out_are_said_again_piece_by_piece(
    points: Twin | App, out: tuple[int, ...], again: tuple[int, ...], waiting: int
) -> None:
    """Three screws came out: their record was a slip, it was said, one came out and went back. Two lay on the bench."""
    tale = counted(points)
    gone = [tale.say("hardware.moved", "@10", by="EE", put_in=-each) for each in out]
    for each in gone:
        tale.take_back(each, by="RR")
    for pieces in again:
        move(tale, put_in=-pieces)
    assert len(tale.stands(ACCEPTED)) == waiting
