"""Stories of readings that count for nothing: unfit, looked at once only, or taken with a gauge found out later."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.ledger.record import Record
from tests.open_points.story import Story, line
from tests.open_points.tablets import SHOP

GAUGE = "M7K3M0001A"
SEAT = Check("seat", limit=Limit("max 0.4 um", max=Decimal("0.4"), unit="um"), when=("fitted",))
KEY = "20|check/seat//fitted"


def seat(*, again_h: Decimal | None = None) -> Story:
    """A place with a check in numbers, and one beside it without."""
    check = Check("seat", limit=SEAT.limit, when=SEAT.when, again_h=again_h)
    return Story(
        line("10", "temporary"), line("20", "consumable", renew="if opened", checks=("seat",)), checks=(check,)
    )


def read(story: Story, key: str = "@20", **body: object) -> Record:
    """Somebody reads 0.38 um with the gauge and accepts it."""
    usual = {"check": "seat", "when": "fitted", "verdict": "accept", "instrument": GAUGE}
    return story.say("check.read", key, **{**usual, "value": {"text": "0.38", "unit": "um"}, **body})


def write(story: Story, word: str, **body: object) -> Record:
    """The shop writes something of the gauge."""
    known = {"number": GAUGE, **body}
    return story.first.write("AA", f"instrument.{word}", (f"instrument:{GAUGE}",), known, journal=SHOP)


def find_out(story: Story, by: str, last_good: str = "2026-03-01") -> Record:
    """The gauge is found out."""
    return write(story, "found_out", by=by, last_good=last_good, why="dropped")


@pytest.mark.parametrize(
    ("by", "doubtful"),
    [("+0.05 um", False), ("-0.02 um", False), ("-0.03 um", True), ("0.03 um", True), ("-0.00003 mm", True),
     ("-2 %", False), ("2 %", False), ("-6 %", True), ("6 %", True), ("-5 %", False), ("3 ohm", True), ("a lot", True),
     ("0 um", False), ("0 %", False)],
)  # fmt: skip
def test_a_reading_is_in_doubt_when_the_error_could_change_its_verdict(by: str, doubtful: bool) -> None:
    """On the limit is accepted; what nobody can compute is in doubt."""
    story = seat()
    read(story)
    assert story.open("check due") == []
    find_out(story, by)
    assert story.open("check due") == ([KEY] if doubtful else [])


def test_one_reading_of_several_is_enough() -> None:
    """All are corrected."""
    story = seat()
    read(story, readings=["0.30 um", "0.39 um", "310 nm"])
    find_out(story, "-0.02 um")
    assert story.open("check due") == [KEY]


def test_a_reading_of_the_last_good_day_stands_unless_its_clock_was_wrong() -> None:
    """A clock that is not right proves no day."""
    story = seat()
    read(story)
    find_out(story, "a lot", "2026-03-02")
    assert story.open("check due") == []
    story.first.clk = "unset"
    read(story)
    assert story.open("check due") == [KEY]


def test_a_last_good_day_that_is_none_proves_nothing() -> None:
    """Then every reading with the gauge is touched."""
    story = seat()
    read(story)
    find_out(story, "a lot", "soon")
    assert story.open("check due") == [KEY]


def test_a_later_calibration_by_somebody_who_had_seen_it_ends_the_doubt() -> None:
    """Readings before its day stay in doubt, those from its day on do not."""
    story = seat()
    write(story, "given", reads="length", calibrated="2026-03-03")
    find_out(story, "a lot")
    story.first.clock.hours = 48
    read(story)
    assert story.open("check due") == [KEY]
    write(story, "given", reads="length", calibrated="2026-03-05")
    assert story.open("check due") == [KEY]
    write(story, "given", reads="length", calibrated="2026-03-04")
    assert story.open("check due") == []


def test_a_finding_out_by_mistake_is_cleared() -> None:
    """By somebody who had seen it and has the right; a correction in the shop's journal is not known."""
    story = seat()
    read(story)
    found = find_out(story, "a lot")
    story.first.write("AA", "record.voided", ("job",), {"record": found.ref, "why": "slip"}, journal=SHOP)
    assert story.open("check due") == [KEY]
    write(story, "cleared", record=found.ref, why="other gauge")
    assert story.open("check due") == []


def test_a_concession_and_a_signature_last_until_something_is_found_out() -> None:
    """Both cover what was found out before; the next finding out opens them again."""
    story = seat()
    read(story)
    story.say("work.signed", "@20", meaning="reviewed", covers=[])
    assert story.open("sign again") == []
    found = find_out(story, "a lot")
    assert story.open("sign again") == ["20"]
    story.concede(f"check due|{KEY}")
    assert story.conceded("check due") == [f"check due|{KEY}"]
    assert found.ref in next(each for each in story.points() if each.key == f"check due|{KEY}").behind
    find_out(story, "3 ohm")
    assert story.open("check due") == [KEY]


def test_a_reading_that_was_not_fit_counts_for_nothing() -> None:
    """Until it is read again."""
    story = seat()
    read(story, unfit="the gauge was not calibrated")
    assert story.open("check due") == [KEY]
    read(story)
    assert story.open("check due") == []


def test_a_second_look_has_to_come_after_the_first() -> None:
    """When the first is read anew, the second is due again."""
    story = seat(again_h=Decimal(4))
    assert story.open("check due") == [KEY, f"{KEY} again"]
    read(story)
    story.first.clock.hours = 5
    read(story, when="fitted again")
    assert story.open("check due") == []
    read(story)
    assert story.open("check due") == [f"{KEY} again"]


@pytest.mark.parametrize("by", ["100 %", "-100 %"])
def test_an_error_of_the_whole_reading_is_in_doubt(by: str) -> None:
    """Nobody can divide by nothing."""
    story = seat()
    read(story)
    find_out(story, by)
    assert story.open("check due") == [KEY]


def test_a_signature_covers_doubts_of_readings_that_the_line_does_not_ask_for() -> None:
    """It covers the reading, so also what makes it doubtful."""
    story = seat()
    read(story, "@10")
    story.say("work.signed", "@10", meaning="reviewed", covers=[])
    assert story.open("sign again") == []
    find_out(story, "a lot")
    assert story.open("sign again") == ["10"]


def test_what_is_done_with_a_part_for_a_time_is_no_bringing_in() -> None:
    """A record of a hose under the name of a part of the set spoils no reading of the other part."""
    look = Check("look", when=("finished",))
    pair = {"matched_set": "pair", "checks": ("look",)}
    story = Story(line("10", **pair), line("20", **pair), line("30"), checks=(look,))
    one, stray = story.off("10"), story.off("30")
    story.fit(stray, "20")
    for part in (one, stray):
        story.say("check.read", part, check="look", when="finished", verdict="accept")
    assert story.open("check due") == []
    story.say("temporary.in", stray, what="hose")
    assert story.open("check due") == []
