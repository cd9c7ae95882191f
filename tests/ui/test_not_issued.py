"""A number that nobody here issued goes on a part only when a person says so, once a series and job; it is marked."""

from __future__ import annotations

import pytest

from teardown_app.domain.parts.parts import came_from, number_of
from teardown_app.domain.tags.tag import issue
from teardown_app.ui.not_issued import NO, SAYS, YES
from tests.ui.hands import Hand, answer_tag, at, taken_off
from tests.ui.test_watching import Eyes

STRANGE = issue("P", "ZZ9A", 5, 3)[0]
OTHER_SERIES = issue("P", "ZZ9C", 5, 1)[0][0]


@pytest.fixture
def bench(hand: Hand) -> Hand:
    """At the teardown bench of the rinser-dryer, a place in hand."""
    at(hand, "BRD-25")
    hand.desk.row("choose", "10.10")
    return hand


def asked(hand: Hand) -> str:
    """What is asked now."""
    return hand.view.field.asks if hand.view.field else ""


@pytest.mark.parametrize("by", ["scanner", "camera"])
def test_it_is_asked_first_and_no_puts_nothing_on(bench: Hand, by: str) -> None:
    """By a scanner as by the camera, while the place is in hand; nothing is recorded."""
    desk, before = bench.desk, len(bench.desk.job.records)
    bench.scan(STRANGE[0]) if by == "scanner" else Eyes(bench).see(STRANGE[0])
    assert "was not issued here" in asked(bench) and len(desk.job.records) == before
    bench.enter(NO)
    assert desk.asking.entry is None and len(desk.job.records) == before and "Not put on" in bench.view.scan.says


def test_yes_counts_for_the_series_in_this_job_and_the_part_is_marked(bench: Hand) -> None:
    """The second label of the series is not asked about, one of another series is; ours is not marked."""
    desk = bench.desk
    bench.scan(STRANGE[0])
    bench.enter(YES)
    (part,) = came_from(desk.job, "10.10")
    assert number_of(desk.job, part) == STRANGE[0]
    desk.go("part", part=part)
    assert SAYS in [fact.says for fact in bench.view.card.facts]
    bench.touch("Teardown")
    desk.row("choose", "10.20")
    bench.scan(STRANGE[1])
    assert number_of(desk.job, came_from(desk.job, "10.20")[0]) == STRANGE[1]
    desk.row("choose", "30.40")
    bench.scan(OTHER_SERIES)
    assert OTHER_SERIES in asked(bench)
    bench.enter(NO)
    own = taken_off(desk, "30.40")
    desk.go("part", part=own)
    assert SAYS not in [fact.says for fact in bench.view.card.facts]


def test_a_new_label_that_was_asked_for_is_asked_for_again(bench: Hand) -> None:
    """No takes the number away and asks for another; a number that was issued goes on without a question."""
    desk = bench.desk
    part = taken_off(desk, "10.10")
    bench.scan(number_of(desk.job, part))
    bench.touch("New label")
    bench.scan(STRANGE[2])
    assert "was not issued here" in asked(bench)
    bench.enter(NO)
    assert bench.view.field and bench.view.field.name == "number"
    number = answer_tag(desk)
    bench.scan(number)
    assert bench.view.field and bench.view.field.name == "why"
