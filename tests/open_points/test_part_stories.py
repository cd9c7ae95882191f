"""One story for each kind of open point about a part: how it comes about, and what clears it."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import Story, line, route

LOOK = Check("look")
SEAT = Check("seat", when=("fitted",))
GUARD = Check("guard", type="interlock", when=("power on",))


def test_a_check_is_due_until_it_is_accepted_and_again_after_work_on_the_part() -> None:
    """A later operation makes the earlier reading worthless."""
    story = Story(line("10", checks=("look",)), checks=(LOOK,), routes=(route("any", "polish"),))
    part = story.off("10")
    assert story.open("check due") == [f"{part}|check/look//finished"]
    story.say("check.read", part, check="look", when="finished", verdict="accept")
    assert story.open("check due") == []
    story.say("operation.done", part, route="any", operation="polish", pass_=1)
    assert story.open("check due") == [f"{part}|check/look//finished"]
    story.say("check.read", part, check="look", when="finished", verdict="accept")
    assert story.open("check due") == []


def test_a_check_where_it_is_fitted_is_due_again_after_the_next_fitting() -> None:
    """What was tight before the part came out is not known to be tight now."""
    story = Story(line("10", checks=("seat",)), checks=(SEAT,))
    part = story.fit(story.off("10"), "10")
    story.say("check.read", "@10", check="seat", when="fitted", verdict="accept")
    assert story.open("check due") == []
    story.say("part.taken_out", part, "@10")
    story.fit(part, "10")
    assert story.open("check due") == ["10|check/seat//fitted"]


def test_an_interlock_is_never_conceded() -> None:
    """Only the reading clears it; the point stands at the gate that the check names."""
    story = Story(line("10", checks=("guard",)), checks=(GUARD,))
    story.concede("check due|10|check/guard//power on")
    assert story.open("check due") == ["10|check/guard//power on"]
    assert [each.gate for each in story.points() if each.kind == "check due"] == ["power on"]
    story.say("check.read", "@10", check="guard", when="power on", verdict="accept")
    assert story.open("check due") == []


def test_a_hold_stands_until_somebody_who_had_seen_it_lifts_it() -> None:
    """A lifting by a tablet that had not heard of the hold does not count."""
    story = Story(line("10"))
    part = story.off("10")
    second = story.second()
    hold = story.say("hold.placed", part, why="looks bent").thing()
    story.say("hold.lifted", hold, on=second, why="guessed")
    assert story.open("hold") == [f"{part}|{hold}"]
    story.say("hold.lifted", hold, why="measured: straight")
    assert story.open("hold") == []


def test_a_finding_waits_until_the_customer_approves() -> None:
    """Nobody asked, then asked, then approved."""
    story = Story(line("10"))
    part = story.off("10")
    finding = story.say("finding.noted", part, word="scored", cause="wear", covered=False).thing()
    assert story.open("approval waiting") == [f"{part}|{finding}"]
    story.say("approval.given", finding, as_="asked", reference="Q-1")
    assert story.open("approval waiting") == [f"{part}|{finding}"]
    story.say("approval.given", finding, as_="approved", reference="Q-1")
    assert story.open("approval waiting") == []


def test_a_declined_finding_is_open_until_conceded_and_again_when_the_answer_changes() -> None:
    """The concession covers the finding and this one answer."""
    story = Story(line("10"))
    part = story.off("10")
    finding = story.say("finding.noted", part, word="scored", cause="wear", covered=False).thing()
    story.say("approval.given", finding, as_="declined", reference="Q-1")
    assert story.open("declined by the customer") == [f"{part}|{finding}"]
    story.concede(f"declined by the customer|{part}|{finding}")
    assert story.conceded("declined by the customer") == [f"declined by the customer|{part}|{finding}"]
    story.say("approval.given", finding, as_="declined", reference="Q-2")
    assert story.open("declined by the customer") == [f"{part}|{finding}"]


def test_a_part_is_not_released_until_its_route_is_done_and_a_person_says_so() -> None:
    """And it lapses when a new operation comes."""
    story = Story(line("10", routes=("clean",)), routes=(route("clean", "degrease", "polish"),))
    part = story.fit(story.off("10"), "10")
    story.say("disposition.given", part, as_="use as is")
    story.release(part)
    assert story.open("not released") == [part]
    for step in ("degrease", "polish"):
        story.say("operation.done", part, route="clean", operation=step, pass_=1)
    story.release(part)
    assert story.points() == []
    story.say("operation.started", part, route="clean", operation="polish", pass_=2)
    story.release(part)
    assert story.open("not released") == [part]
    story.say("operation.done", part, route="clean", operation="polish", pass_=2)
    story.release(part)
    assert story.points() == []


def test_a_tagged_part_is_unaccounted_for_until_it_is_fitted_or_gone_with_a_reason() -> None:
    """Also when it came back from another job."""
    story = Story(line("10"))
    part = story.off("10")
    assert story.open("tagged but unaccounted for") == [part]
    story.say("disposition.given", part, as_="scrap")
    assert story.open("tagged but unaccounted for") == []
    other = story.off("10")
    story.say("goods.handed_over", other, to="J7K3M00024", consent="C-1")
    assert story.open("tagged but unaccounted for") == []
    story.say("goods.given_back", other, job="J7K3M00012", consent="C-1")
    assert story.open("tagged but unaccounted for") == [other]


def test_a_piece_that_belongs_nowhere_is_foreign_until_it_is_dispositioned() -> None:
    """It lay in the bottom of the tool."""
    story = Story(line("10", "hardware"))
    piece = story.say("part.taken_off", story.first.thing(), note="lay in the drip tray").ent[0]
    assert story.open("foreign piece") == [piece]
    story.say("disposition.given", piece, as_="return unrepaired")
    assert story.open("foreign piece") == []


def test_what_another_job_owes_is_a_debt_until_given_back() -> None:
    """A pump lent for a day."""
    story = Story(line("10"))
    part = story.off("10")
    story.say("goods.handed_over", part, to="J7K3M00024", consent="C-1")
    assert story.open("debt") == [part]
    story.say("goods.given_back", part, job="J7K3M00012", consent="C-1")
    assert story.open("debt") == []


def test_one_number_on_two_parts_is_a_point_until_they_are_said_to_be_one() -> None:
    """Scanned twice by two benches."""
    story = Story(line("10"))
    one = story.off("10", number="P7K3M0001A")
    other = story.off("10", number="P7K3M0001A")
    assert story.open("label of two parts") == ["P7K3M0001A"]
    assert story.open("two different entries") == ["10|came_out"]
    story.say("part.same_as", one, other)
    assert story.open("label of two parts") == []
    assert story.open("two different entries") == []


def test_two_different_dispositions_wait_for_a_person_who_saw_both() -> None:
    """The severe one holds until then."""
    story = Story(line("10"))
    part = story.off("10")
    second = story.second()
    story.say("disposition.given", part, as_="use as is")
    story.say("disposition.given", part, on=second, as_="scrap")
    assert story.open("two different entries") == [f"{part}|disposition"]
    story.carry()
    story.say("disposition.given", part, as_="rework")
    assert story.open("two different entries") == []
