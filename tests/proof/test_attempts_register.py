"""Attempts by a tablet that had not heard of the shop's register: what was written on an earlier day asks all the same.

Each story says what a shop would have suffered."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import line
from tests.open_points.tablets import SHOP, Tablet
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale, screws

BORE = Check("bore", when=("finished",), instrument="bore gauge")
GAUGE, WRENCH = "M7K3M0001A", "M7K3M0003E"
DAY = 24.0
"""Hours."""


class Bench:
    """One job, whose work is done at a tablet that has not heard of the shop since the first morning."""

    def __init__(self, tale: Tale, number: str, reads: str, point: str, work: Callable[[Tale, Tablet, str], Any]):
        self.tale, self.number, self.reads, self.point, self._work = tale, number, reads, point, work
        self.other = tale.second()

    def given(self, due: str = "2030-01-01") -> None:
        """The office writes an instrument into the register."""
        body = {"number": self.number, "reads": self.reads, "due": due}
        self.tale.first.write("OO", "instrument.given", (f"instrument:{self.number}",), body, journal=SHOP)

    def work(self, with_: str = "") -> None:
        """It is read or tightened at the other tablet, with an instrument or without a word."""
        self._work(self.tale, self.other, with_)
        self.tale.carry()

    @property
    def is_due(self) -> bool:
        """Whether it is still to be done."""
        return self.point in self.tale.open_now()


def bore(points: Twin | App) -> Bench:
    """A bore that is read with a gauge."""
    tale = Tale(points, line("10", checks=("bore",)), checks=(BORE,))
    part = tale.ready(tale.off("10"))

    def work(tale: Tale, on: Tablet, with_: str) -> object:
        said: dict[str, Any] = {"instrument": with_} if with_ else {}
        return tale.read(part, "bore", "accept", when="finished", on=on, **said)

    return Bench(tale, GAUGE, "bore gauge", f"check due|{part}|check/bore//finished", work)


def lid(points: Twin | App) -> Bench:
    """A lid that is tightened with a wrench."""
    tale = Tale(points, line("10"), screws("20", 1, torque=6, holds=("10",)))
    tale.fit_ready("10")
    tale.screw_in("20", 1)

    def work(tale: Tale, on: Tablet, with_: str) -> object:
        said: dict[str, Any] = {"instrument": with_} if with_ else {}
        return tale.tighten("20", on=on, **said)

    return Bench(tale, WRENCH, "torque wrench", "joint not torqued or due again|20|", work)


BENCHES: dict[str, Callable[[Twin | App], Bench]] = {"bore": bore, "lid": lid}
each = pytest.mark.parametrize("what", BENCHES)


@each
def test_a_register_of_yesterday_asks_whoever_had_not_heard_of_it(points: Twin | App, what: str) -> None:
    """A rotor would have run in a bore that somebody felt with his thumb; a lid have held by a feeling in the wrist."""
    bench = BENCHES[what](points)
    bench.given()
    bench.tale.first.clock.hours += DAY
    bench.work()
    assert bench.is_due
    bench.work("M7K3M0009R")
    assert bench.is_due, "a number that is in no register is none"
    bench.work(bench.number)
    assert not bench.is_due, "its number stands on it, whatever the tablet had heard"


@each
def test_what_is_bought_later_lapses_nothing(points: Twin | App, what: str) -> None:
    """Every lid that was tightened before the shop had a wrench would have been opened again."""
    bench = BENCHES[what](points)
    bench.work()
    bench.tale.first.clock.hours += DAY
    bench.given()
    assert not bench.is_due


@each
@pytest.mark.parametrize("has_heard", [True, False])
def test_a_register_of_this_very_day_asks_only_who_had_heard_of_it(
    points: Twin | App, what: str, has_heard: bool
) -> None:
    """Which was first on one day, nobody can tell but by who had seen what: what was bought at noon lapses nothing."""
    bench = BENCHES[what](points)
    bench.given()
    if has_heard:
        bench.other.sync(bench.tale.first)
    bench.work()
    assert bench.is_due == has_heard
    bench.work(bench.number)
    assert not bench.is_due


@each
@pytest.mark.parametrize("whose", ["the bench's", "the office's"])
def test_a_clock_that_was_not_set_is_on_no_earlier_day(points: Twin | App, what: str, whose: str) -> None:
    """A tablet that thinks it is last year would have been asked for no instrument."""
    bench = BENCHES[what](points)
    unsure = bench.other if whose == "the bench's" else bench.tale.first
    unsure.clk = "unset"
    bench.given()
    bench.work()
    assert bench.is_due
    bench.other.clk = "ok"
    bench.work(bench.number)
    assert not bench.is_due


@each
def test_an_instrument_that_came_back_from_calibration_yesterday_serves(points: Twin | App, what: str) -> None:
    """The bench that had not heard would have waited for the news with the certificate in its hand."""
    bench = BENCHES[what](points)
    bench.given(due="2026-03-01")
    bench.other.sync(bench.tale.first)
    bench.work(bench.number)
    assert bench.is_due, "it was due the day before"
    bench.given(due="2027-03-01")
    bench.work(bench.number)
    assert bench.is_due, "on the same day nobody knows that but who has heard"
    bench.tale.first.clock.hours += DAY
    bench.work(bench.number)
    assert not bench.is_due
