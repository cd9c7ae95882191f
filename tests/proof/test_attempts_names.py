"""Attempts to stop a job, or all of them, with names that cannot be told apart again.

Each story says what a shop would have suffered."""

from __future__ import annotations

import pytest

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import line
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale

LOOK = Check("look", when=("fitted",), spots=("rim",))
MISFIT = "record kept that does not fit"


@pytest.mark.parametrize(
    "named",
    [{"spot": "inlet/outlet"}, {"spot": "a|b"}, {"check": "look/rim"}, {"check": "look|rim"}],
    ids=lambda named: "".join(named.values()),
)
@pytest.mark.parametrize("kind", ["check.read", "check.not_possible"])
def test_a_stroke_in_a_name_stops_nobody(points: Twin | App, kind: str, named: dict[str, str]) -> None:
    """No job of the shop could have been listed or closed, by one reading that nobody could take back."""
    tale = Tale(points, line("10", checks=("look",)), checks=(LOOK,))
    tale.fit_ready("10")
    body = {"check": "look", "when": "fitted", "verdict": "accept", "why": "no light", **named}
    record = tale.say(kind, "@10", by="RR", **body)
    due = "check due|10|check/look/rim/fitted"
    assert tale.open_now() == [due, f"{MISFIT}|job|{record.ref}"]
    tale.take_back(record, by="RR")
    assert tale.open_now() == [due]
    tale.read("@10", "look", "accept", spot="rim")
    assert tale.open_now() == []


@pytest.mark.parametrize("when", ["fitted/rim", "a/b/c again", "x|y"])
def test_a_moment_that_no_bill_has_binds_nothing(points: Twin | App, when: str) -> None:
    """The same, by a moment that was made up."""
    tale = Tale(points, line("10"))
    tale.fit_ready("10")
    tale.read("@10", "look", "reject", by="EE", when=when)
    tale.read("@10", "look", "accept", when=when)
    assert [each for each in tale.open_now() if not each.startswith("to be accepted|10|")] == []


def test_a_key_that_names_nothing_concedes_nothing(points: Twin | App) -> None:
    """The same, by a concession of a point that is none."""
    tale = Tale(points, line("10"))
    body = {"why": "agreed", "reference": "A-1", "lines": [], "covers": []}
    tale.say("point.conceded", "@10", by="KK", key="to be accepted|10", **body)
    assert tale.open_now() == ["missing|10|"]
