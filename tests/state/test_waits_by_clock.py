"""No wait is over by a clock that jumped or was never set, at its start or at its end. `records.md`, *State*, 5:
"judged by the record's own day (`wall`); a clock that is unset or has jumped takes the stricter answer".
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from attrs import evolve

from teardown_app.domain.bill.bill import Operation, Route
from tests.open_points.story import Story, joint, line

WAIT_H = 4
YEAR_H = 24 * 365

CLOCKS = [
    # clock when it began, clock when it is judged, hours by the wall, is it over?
    ("ok", "ok", WAIT_H, True),
    ("ok", "ok", WAIT_H - 0.01, False),
    ("ok", "ok", -1, False),
    ("jumped", "ok", YEAR_H, False),
    ("ok", "jumped", YEAR_H, False),
    ("jumped", "jumped", YEAR_H, False),
    ("unset", "ok", YEAR_H, False),
    ("ok", "unset", YEAR_H, False),
]


@pytest.mark.parametrize(("began", "judged", "hours", "over"), CLOCKS)
def test_a_part_rests_until_two_good_clocks_say_so(began: str, judged: str, hours: float, over: bool) -> None:
    """Open points: a release holds while "every wait was over by the clock of the tablet that released"."""
    dry = Route("dry", operations=(Operation("dry", wait_h=Decimal(WAIT_H)),))
    story = Story(line("10", routes=("dry",)), routes=(dry,))
    part = story.off("10")
    story.first.clk = began
    story.say("operation.done", part, route="dry", operation="dry", pass_=1)
    story.first.clk, story.first.clock.hours = judged, hours
    story.fit(story.ready(part), "10")
    assert story.open("not released") == ([] if over else [part])


@pytest.mark.parametrize(("began", "judged", "hours", "over"), CLOCKS)
def test_a_joint_rests_until_two_good_clocks_say_so(began: str, judged: str, hours: float, over: bool) -> None:
    """Open points: a pass *again* counts where, "by clocks that are *ok*, `retighten_h` lay after every torque of the
    last pass"; each has to be near its target, which a value says."""
    resting = evolve(joint(), retighten_h=Decimal(WAIT_H))
    story = Story(line("10", "hardware", joint=resting))
    story.say("hardware.counted", "@10", found=1)
    story.say("hardware.moved", "@10", put_in=1)
    story.first.clk = began
    six = {"text": "6", "unit": "N m"}  # the target of `joint()`
    story.say("joint.torqued", "@10", pass_="100", screws=1, torque=six)
    story.first.clk, story.first.clock.hours = judged, hours
    story.say("joint.torqued", "@10", pass_="again", screws=1, torque=six)
    assert story.open("joint not torqued or due again") == ([] if over else ["10"])


@pytest.mark.parametrize(("hours", "over"), [(WAIT_H + 1, False), (WAIT_H + 3, True)])
def test_of_two_beginnings_the_later_counts(hours: float, over: bool) -> None:
    """Two tablets each say done, two hours apart, and neither had seen the other."""
    dry = Route("dry", operations=(Operation("dry", wait_h=Decimal(WAIT_H)),))
    story = Story(line("10", routes=("dry",)), routes=(dry,))
    part, second = story.off("10"), story.second()
    story.say("operation.done", part, route="dry", operation="dry", pass_=1)
    story.first.clock.hours = 2
    story.say("operation.done", part, on=second, route="dry", operation="dry", pass_=1)
    story.carry()
    story.first.clock.hours = hours
    story.fit(story.ready(part), "10")
    assert story.open("not released") == ([] if over else [part])


def test_a_person_ends_a_wait_that_no_clock_can_end() -> None:
    """The document goes on: "or ended by somebody who had seen the operation done"."""
    dry = Route("dry", operations=(Operation("dry", wait_h=Decimal(WAIT_H)),))
    story = Story(line("10", routes=("dry",)), routes=(dry,))
    part = story.off("10")
    story.first.clk = "jumped"
    early = {"route": "dry", "operation": "dry", "pass_": 1}
    story.say("wait.over", part, why="not begun", **early)
    story.say("operation.done", part, **early)
    story.fit(story.ready(part), "10")
    assert story.open("not released") == [part]
    story.say("wait.over", part, why="dry to the touch", **early)
    story.release(part)
    assert story.open("not released") == []
