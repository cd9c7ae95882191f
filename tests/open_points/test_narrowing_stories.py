"""Stories of narrowings: each row of the table, what it is measured against, who accepts it, and when it opens again.

Told to the witness alone, so that what it makes of the document can be read here.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import Story, line
from tests.open_points.tablets import JOB

KIND = "to be accepted"
SEAT = Check("seat", type="leak", when=("fitted",))
GUARD = Check("guard", type="interlock", when=("fitted",))


def shop(*lines: object, checks: tuple[Check, ...] = ()) -> Story:
    """A job, and people with one right beside *record* each."""
    story = Story(*lines, checks=checks)  # type: ignore[arg-type]
    for code, rights in {"RR": [], "EE": ["release"], "OO": ["office"], "KK": ["concede"]}.items():
        story.person(code, ["record", *rights])
    return story


def received(story: Story, key: str, word: str, by: str = "RR", **more: str) -> str:
    """What was received of a place is said; gives the record's name."""
    return story.say("configuration.received", f"@{key}", by=by, as_=word, **more).ref


def test_a_scope_word_works_at_once_and_waits_for_the_office() -> None:
    """The place is not asked for any more; the word is a point until the office says yes."""
    story = shop(line("10"), line("20"))
    assert story.stands("missing") == ["10", "20"]
    word = received(story, "10", "not on this tool")
    assert (story.stands("missing"), story.stands(KIND)) == (["20"], [f"10|{word}"])
    story.concede(f"{KIND}|10|{word}", by="EE")
    assert story.stands("record by someone without the right") == []
    assert story.stands(KIND) == [f"10|{word}"], "release is not the second right of a scope word"
    story.concede(f"{KIND}|10|{word}", by="OO")
    assert (story.stands(KIND), story.stands(KIND, "conceded")) == ([], [f"10|{word}"])


@pytest.mark.parametrize(
    ("by", "reference", "accepted"), [("OO", "A-1", True), ("OO", " ", False), ("RR", "A-1", False)]
)
def test_an_author_with_the_second_right_accepts_by_his_reference(by: str, reference: str, accepted: bool) -> None:
    """Not by a blank one, and nobody else."""
    story = shop(line("10"))
    received(story, "10", "out of scope", by=by, reference=reference)
    assert bool(story.stands(KIND, "conceded")) == accepted


def test_saying_it_twice_does_not_help() -> None:
    """A word over an unaccepted one is measured against the bill; over an accepted one it says nothing new."""
    story = shop(line("10"))
    first = received(story, "10", "left fitted")
    second = received(story, "10", "left fitted")
    assert story.stands(KIND) == [f"10|{second}"]
    story.concede(f"{KIND}|10|{second}", by="OO")
    received(story, "10", "left fitted")
    assert (story.stands(KIND), story.stands(KIND, "conceded")) == ([], [])
    milder = received(story, "10", "out of scope")
    assert story.stands(KIND) == [f"10|{milder}"]
    assert first != second


def test_a_word_on_a_touched_place_changes_nothing() -> None:
    """It is in scope, and the word is no point."""
    story = shop(line("10"))
    story.off("10")
    before = {each.key for each in story.seen()}
    received(story, "10", "not on this tool")
    assert {each.key for each in story.seen()} == before


def test_a_fact_of_a_part_is_free_when_first_said_and_then_narrows() -> None:
    """The release accepts it, but not an owner."""
    story = shop(line("10"), line("20"))
    part = story.off("10")
    story.say("part.noted", part, by="RR", set_mark="I")
    assert story.stands(KIND) == []
    second = story.say("part.noted", part, by="RR", set_mark="II")
    assert story.stands(KIND) == [f"{part}|{second.ref}"]
    story.release(part, by="EE")
    assert story.stands(KIND, "conceded") == [f"{part}|{second.ref}"]
    story.say("part.noted", part, by="RR", owner="customer")
    other = story.say("part.noted", part, by="RR", owner="other job")
    story.release(part, by="EE")
    assert story.stands(KIND) == [f"{part}|{other.ref}"]


def test_the_number_of_a_part_off_a_line_was_said_by_the_bill() -> None:
    """Nobody wrote it down, and still another one is another; of a piece out of no place the first word is free."""
    story = shop(line("10"))
    part, loose = story.off("10"), story.off("")
    story.say("part.noted", part, by="RR", part_number="PN-10")
    story.say("part.noted", loose, by="RR", part_number="X1")
    assert story.stands(KIND) == []
    other = story.say("part.noted", part, by="RR", part_number="X1")
    assert story.stands(KIND) == [f"{part}|{other.ref}"]


def test_an_origin_that_nobody_gave_is_as_received() -> None:
    """Another one narrows; of a part that came off this tool only *repaired* fits."""
    story = shop(line("10"))
    part = story.off("10")
    repaired = story.say("part.noted", part, by="RR", origin="repaired")
    assert story.stands(KIND) == [f"{part}|{repaired.ref}"]
    story.say("part.noted", part, by="RR", origin="new")
    assert len(story.stands("record kept that does not fit")) == 1


def test_an_accept_over_a_reject_in_one_state_waits_unless_something_changed() -> None:
    """A fitting between makes it another state."""
    story = shop(line("10", checks=("seat",)), checks=(SEAT,))
    part = story.fit(story.off("10"), "10")
    story.say("check.read", "@10", by="RR", check="seat", when="fitted", verdict="reject")
    accept = story.say("check.read", "@10", by="RR", check="seat", when="fitted", verdict="accept")
    assert (story.stands("check due"), story.stands(KIND)) == ([], [f"10|{accept.ref}"])
    story.say("check.read", "@10", by="RR", check="seat", when="fitted", verdict="reject")
    story.say("part.taken_out", part, "@10")
    story.fit(part, "10")
    story.say("check.read", "@10", by="RR", check="seat", when="fitted", verdict="accept")
    assert (story.stands("check due"), story.stands(KIND)) == ([], [])


def test_an_accept_of_a_protective_check_over_a_reject_counts_for_nothing() -> None:
    """Nobody accepts it; the reject is taken back by release with a reference."""
    story = shop(line("10", checks=("guard",)), checks=(GUARD,))
    reject = story.say("check.read", "@10", by="RR", check="guard", when="fitted", verdict="reject")
    story.say("check.read", "@10", by="EE", check="guard", when="fitted", verdict="accept", reference="A-1")
    assert (story.stands("check due"), story.stands(KIND)) == (["10|check/guard//fitted"], [])
    story.take_back(reject, by="EE")
    assert len(story.stands("record kept that does not fit")) == 1
    assert story.stands("check due") == ["10|check/guard//fitted"]
    story.take_back(reject, by="EE", reference="A-1")
    assert story.stands("check due") == []


def test_an_unaccepted_word_does_not_reach_a_protective_reading() -> None:
    """An accepted one does."""
    story = shop(line("10", checks=("guard", "seat")), checks=(GUARD, SEAT))
    word = received(story, "10", "not on this tool")
    assert story.stands("check due") == ["10|check/guard//fitted"]
    story.concede(f"{KIND}|10|{word}", by="OO")
    assert story.stands("check due") == []


def test_a_lower_count_and_what_is_lost_wait() -> None:
    """First counted is free; a count of fewer replaces and waits, what is found short waits by itself."""
    story = shop(line("10", "hardware", quantity=Decimal(4)))
    story.say("hardware.counted", "@10", by="RR", found=4)
    assert story.stands(KIND) == []
    lower = story.say("hardware.counted", "@10", by="RR", found=3)
    short = story.say("hardware.moved", "@10", by="RR", found_short=1, search="drip tray")
    assert sorted(story.stands(KIND)) == sorted([f"10|{lower.ref}", f"10|{short.ref}"])
    story.say("hardware.moved", "@10", by="RR", added=1)
    story.say("hardware.moved", "@10", by="RR", put_in=4)
    assert story.stands("hardware does not balance") == []


def test_what_is_added_never_pays_for_what_is_lost() -> None:
    """Three of four were found; one is added, and nobody says what became of the fourth."""
    story = shop(line("10", "hardware", quantity=Decimal(4)))
    story.say("hardware.counted", "@10", found=3)
    story.say("hardware.moved", "@10", added=1)
    story.say("hardware.moved", "@10", put_in=4)
    assert story.stands("hardware does not balance") == ["10"]


def test_places_once_counted_together_are_counted_together() -> None:
    """A count of fewer places replaces nothing and holds for nothing."""
    story = shop(line("10", "hardware"), line("20", "hardware"))
    story.say("hardware.counted", "@10", "@20", found=2)
    for key in ("@10", "@20"):
        story.say("hardware.moved", key, put_in=1)
    assert story.stands("hardware does not balance") == []
    story.say("hardware.counted", "@10", found=0)
    assert story.stands("hardware does not balance") == []


def test_one_come_off_twice_is_joined_freely() -> None:
    """Where two tablets recorded it, neither having seen the other; else it waits."""
    story = shop(line("10"))
    other = story.second()
    one, two = story.off("10"), story.off("10", on=other)
    story.carry()
    story.say("part.same_as", one, two, by="RR")
    assert (story.stands(KIND), story.stands("two different entries")) == ([], [])
    third = story.off("10")
    joined = story.say("part.same_as", one, third, by="RR")
    assert story.stands(KIND) == [f"{min(one, two, third)}|{joined.ref}"]


def test_done_again_over_two_done_waits_once() -> None:
    """Two had done it without having seen each other."""
    story = shop(line("10"))
    part, other = story.off("10"), story.second()
    for tablet in (story.first, other):
        story.say("operation.done", part, on=tablet, route="wipe", operation="rinse", **{"pass": 1})
    story.carry()
    assert story.stands("two different entries") == [f"{part}|operation/wipe/rinse/1/twice"]
    again = story.say("operation.done", part, by="RR", route="wipe", operation="rinse", **{"pass": 1})
    assert (story.stands("two different entries"), story.stands(KIND)) == ([], [f"{part}|{again.ref}"])


def test_a_finding_said_to_be_covered_waits_for_the_office() -> None:
    """Until the office answers."""
    story = shop(line("10"))
    part = story.off("10")
    finding = story.say("finding.noted", part, by="RR", word="scored", cause="wear", covered=True)
    assert (story.stands("approval waiting"), story.stands(KIND)) == ([], [f"{part}|{finding.ref}"])
    story.say("approval.given", finding.thing(), by="OO", as_="approved")
    assert story.stands(KIND) == []


def test_taking_back_what_asked_waits_and_what_did_not_ask_does_not() -> None:
    """A reading of reject; a fitting."""
    story = shop(line("10", checks=("seat",)), checks=(SEAT,))
    part = story.off("10")
    reject = story.say("check.read", "@10", by="RR", check="seat", when="fitted", verdict="reject")
    back = story.take_back(reject, by="RR")
    assert story.stands(KIND) == [f"10|{back.ref}"]
    story.take_back(story.say("part.fitted", part, "@10", by="RR"), by="RR")
    assert story.stands(KIND) == [f"10|{back.ref}"]
    again = story.take_back(reject, by="EE", reference="A-1")
    assert story.stands(KIND, "conceded") == [f"10|{again.ref}"]


@pytest.mark.parametrize(("by", "stays"), [("EE", True), ("OO", False)])
def test_an_owner_said_when_the_part_came_off_is_taken_back_by_the_office(by: str, stays: bool) -> None:
    """Whose a part is, is no matter of who looks at it: it would be billed to somebody it does not belong to."""
    story = shop(line("10"))
    story.off("10", owner="other job")
    story.take_back(story.first.own(JOB)[1], by=by, reference="NC-1")
    stands = [point.key.partition("|")[0] for point in story.points() if point.state == "open"]
    assert (KIND in stands) is stays


def test_what_is_recorded_again_is_no_point_but_is_measured_against_it() -> None:
    """A count taken back and made again, lower."""
    story = shop(line("10", "hardware", quantity=Decimal(4)))
    first = story.say("hardware.counted", "@10", by="RR", found=4)
    story.take_back(first, by="RR")
    assert len(story.stands(KIND)) == 1
    again = story.say("hardware.counted", "@10", by="RR", found=3)
    assert story.stands(KIND) == [f"10|{again.ref}"]
