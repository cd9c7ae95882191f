"""Records against the true tool: whenever the job is done, whatever is not so was agreed to by somebody who may."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import assume, given

from teardown_app.domain.ledger.record import Record
from tests.open_points.tablets import JOB, SHOP, Tablet
from tests.proof.honest import Honest
from tests.proof.implementations import App, Twin
from tests.proof.random_hands import MANY, NUMBERS, QUICK
from tests.proof.small_tool import bench, bills
from tests.proof.true_finish import shop_of
from tests.proof.true_hands import Liar, Worker
from tests.proof.true_tool import TrueTool

STEPS = 18
"""Deeds and lies before the shop finishes the job."""


class Job:
    """Two tablets at one tool, then somebody who finishes it."""

    def __init__(self, number: int, lying: float, agrees: float) -> None:
        rng = Random(number)
        self.tool, first = TrueTool.as_received(), bench()
        self.tool.pieces[0].straight = rng.random() < 0.7
        second = Tablet("t2~0", first.clock)
        second.sync(first)
        for _ in range(rng.randrange(STEPS)):
            one, other = rng.sample((first, second), 2)
            if rng.random() < 0.3:
                one.sync(other)
            hand = Liar(self.tool, one, rng)
            hand.lies() if rng.random() < lying else hand.works()
        first.sync(second)
        self.tablet = first
        shop_of(Worker(self.tool, first, rng), agrees).finish()

    def named(self, points: Twin | App) -> set[str]:
        """Places and parts about which something was conceded or accepted, as they are called."""
        shop, job = self.tablet.view(SHOP), self.tablet.view(JOB)
        conceded = [each.key for each in points(shop, JOB, job, bills) if each.state == "conceded"]
        return {one for key in conceded for one in key.split("|")[1:]}

    def is_done(self, points: Twin | App) -> bool:
        """Whether no point is open and the job is closed."""
        shop, job = self.tablet.view(SHOP), self.tablet.view(JOB)
        return points.is_closed(shop, JOB, job, bills)

    def released(self) -> set[str]:
        """Names of parts that somebody released who had seen every record about them but where they are."""
        witness = Honest(self.tablet, bills("b" * 64)).witness  # type: ignore[arg-type]
        parts = [each for each in witness.tool.parts if witness.work.is_released(each, witness.parts.is_conceded)]
        return {name for part in parts for name in witness.told.names(part)}


def _lies_of(job: Job) -> list[Record]:
    return [each for each in job.tablet.view(JOB) if each.act == "RR"]


def what_is_not_so_was_agreed_to(points: Twin | App, number: int, lying: float = 0.5, agrees: float = 0.3) -> None:
    """Every difference of the true tool to the bill: somebody who may conceded it, accepted what says so, or released
    the part."""
    job = Job(number, lying, agrees)
    assume(job.is_done(points))
    named, released = job.named(points), job.released()
    for difference, about in job.tool.differences().items():
        of_parts = {each for each in about if ":" in each}
        assert about & named or of_parts & released, (difference, named)


@QUICK
@given(NUMBERS)
def test_what_is_not_so_was_agreed_to(points: Twin | App, number: int) -> None:
    """Honest and lying hands in turn."""
    what_is_not_so_was_agreed_to(points, number)


@QUICK
@given(NUMBERS)
def test_honest_hands_that_agree_to_nothing_leave_the_tool_as_the_bill_has_it(points: Twin | App, number: int) -> None:
    """Nobody lies and nobody concedes: what is done is so, and it is possible."""
    job = Job(number, lying=0.0, agrees=0.0)
    assert job.is_done(points)
    named = job.named(points)
    assert [each for each, about in job.tool.differences().items() if not about & named] == []


@pytest.mark.faults
@MANY
@given(NUMBERS)
def test_what_is_not_so_was_agreed_to_many(points: Twin | App, number: int) -> None:
    """The same many times, where more is lied and less is agreed to."""
    what_is_not_so_was_agreed_to(points, number, lying=0.5 + (number % 3) / 10, agrees=(number % 5) / 10)
