"""Records against the true tool: whenever the job is done, whatever is not so was agreed to by somebody who may."""

from __future__ import annotations

from functools import lru_cache
from random import Random

import pytest
from hypothesis import assume, given

from tests.open_points.tablets import JOB, SHOP, Tablet
from tests.proof.honest import Honest
from tests.proof.implementations import App, Twin
from tests.proof.random_hands import LONG, MANY, NUMBERS
from tests.proof.small_tool import bench, bills
from tests.proof.true_finish import shop_of
from tests.proof.true_hands import Liar, Worker
from tests.proof.true_tool import BENEATH_UNIT, Difference, TrueTool

STEPS = 10
"""Deeds and lies, up to so many, before the shop works the job off, and again before it finishes it."""


class Job:
    """Two tablets at one tool, and somebody who works off what is open, twice."""

    def __init__(self, number: int, lying: float, agrees: float) -> None:
        self.rng, self.lying = Random(number), lying
        self.tool, first = TrueTool.as_received(), bench()
        self.tool.pieces[0].straight = self.rng.random() < 0.7
        second = Tablet("t2~0", first.clock)
        second.sync(first)
        self.tablets = (first, second)
        self.tablet, shop = first, shop_of(Worker(self.tool, first, self.rng), agrees)
        self._hands()
        shop.works_off()
        second.sync(first)
        self._hands()
        shop.finish()

    def _hands(self) -> None:
        """Deeds and lies on both tablets, which hear of each other now and then, and in the end."""
        for _ in range(self.rng.randrange(STEPS)):
            one, other = self.rng.sample(self.tablets, 2)
            if self.rng.random() < 0.3:
                one.sync(other)
            hand = Liar(self.tool, one, self.rng)
            hand.lies() if self.rng.random() < self.lying else hand.works()
        self.tablets[0].sync(self.tablets[1])

    def unnamed(self, points: Twin | App) -> list[Difference]:
        """Differences that nobody who may conceded, accepted what hides, or released the part with."""
        shop, job = self.tablet.view(SHOP), self.tablet.view(JOB)
        standing = [each for each in points(shop, JOB, job, bills) if each.state == "conceded"]
        released, agreed = self.released(), [(each.kind, set(each.key.split("|")[1:])) for each in standing]
        return [
            each
            for each in self.tool.differences()
            if not any(_is_named(each, kind, about) for kind, about in agreed)
            and not (each.released and each.about & released)
        ]

    def is_done(self, points: Twin | App) -> bool:
        """Whether no point is open and the job is closed."""
        shop, job = self.tablet.view(SHOP), self.tablet.view(JOB)
        return points.is_closed(shop, JOB, job, bills)

    def released(self) -> set[str]:
        """Names of parts that somebody released who had seen every record about them but where they are."""
        witness = Honest(self.tablet, bills("b" * 64)).witness  # type: ignore[arg-type]
        parts = [each for each in witness.tool.parts if witness.work.is_released(each, witness.parts.is_conceded)]
        return {name for part in parts for name in witness.told.names(part)}


@lru_cache(maxsize=256)
def worked(number: int, lying: float, agrees: float) -> Job:
    """The job of a number, once for all programs that are asked of it."""
    return Job(number, lying, agrees)


def _is_named(difference: Difference, kind: str, about: set[str]) -> bool:
    """Whether this is what was agreed to; a word on the unit also says what is beneath it."""
    if kind == "to be accepted":
        above = {"10"} if difference.about & set(BENEATH_UNIT) else set()
        return bool(about & (difference.about | above))
    return kind in difference.kinds and bool(about & difference.about)


def what_is_not_so_was_agreed_to(points: Twin | App, number: int, lying: float = 0.5, agrees: float = 0.3) -> None:
    """Every difference of the true tool to the bill: somebody who may conceded it, accepted what says so, or released
    the part."""
    job = worked(number, lying, agrees)
    assume(job.is_done(points))
    assert job.unnamed(points) == []


@LONG
@given(NUMBERS)
def test_what_is_not_so_was_agreed_to(points: Twin | App, number: int) -> None:
    """Honest and lying hands in turn."""
    what_is_not_so_was_agreed_to(points, number)


@LONG
@given(NUMBERS)
def test_honest_hands_that_agree_to_nothing_leave_the_tool_as_the_bill_has_it(points: Twin | App, number: int) -> None:
    """Nobody lies and nobody concedes: what is done is so, and it is possible."""
    job = worked(number, lying=0.0, agrees=0.0)
    assert job.is_done(points)
    assert [each.what for each in job.tool.differences() if "lost" not in each.what] == []
    assert job.unnamed(points) == []


@pytest.mark.faults
@MANY
@given(NUMBERS)
def test_what_is_not_so_was_agreed_to_many(points: Twin | App, number: int) -> None:
    """The same many times, where more is lied and less is agreed to."""
    what_is_not_so_was_agreed_to(points, number, lying=0.5 + (number % 3) / 10, agrees=(number % 5) / 10)
