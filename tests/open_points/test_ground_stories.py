"""Stories of grounds: what lapses a verdict, what does not, what a taking back leaves behind.

Told to the witness alone, so that what it makes of the document can be read here.
"""

from __future__ import annotations

from decimal import Decimal

from teardown_app.domain.bill.bill import Check, Joint
from teardown_app.domain.ledger.record import Record
from tests.open_points.story import Story, joint, line, route
from tests.open_points.tablets import JOB, SHOP

LOOK = Check("look", when=("finished",))


def tighten(story: Story, key: str, value: str = "6", **more: object) -> Record:
    """A joint is tightened to so many newton metres."""
    body = {"pass": "100", "screws": 1, "torque": {"text": value, "unit": "N m"}, **more}
    return story.say("joint.torqued", key, **body)  # type: ignore[arg-type]


def test_a_release_lapses_by_a_fact_and_not_by_a_label() -> None:
    """It is given again; the fact that changed it is accepted by that."""
    story = Story(line("10"))
    part = story.fit(story.ready(story.off("10")), "10")
    assert story.seen() == []
    story.say("part.tagged", part, number="P7K3M0001A")
    story.say("thing.put", part, place="RACK 1")
    assert story.stands("not released") == []
    story.say("part.noted", part, written={"serial": "1"})
    assert story.stands("not released") == [part]
    story.release(part)
    assert story.seen() == []


def test_a_part_moved_to_another_line_is_released_for_there() -> None:
    """The release names the lines of the seat."""
    story = Story(line("10", number="P1"), line("20", number="P1"))
    part = story.fit(story.ready(story.off("10")), "20")
    assert story.stands("not released") == [part]
    story.release(part)
    assert story.stands("not released") == []


def test_a_taken_back_record_stays_on_the_ground_until_that_is_accepted() -> None:
    """A finding, which asked: it lapses the release, and still does when it was taken back."""
    story = Story(line("10"))
    part = story.fit(story.ready(story.off("10")), "10")
    other = story.second()
    finding = story.say("finding.noted", part, on=other, word="scored", cause="wear", covered=False)
    story.carry()
    story.take_back(finding)
    assert len(story.stands("to be accepted")) == 1
    assert story.stands("not released") == [], "one fault, one point: it waits for the acceptance"
    story.concede(f"to be accepted|{story.stands('to be accepted')[0]}")
    assert story.stands("not released") == []


def test_a_verdict_that_rested_on_what_was_taken_back_lapses() -> None:
    """An operation that was done and seen by the release, and then was not."""
    story = Story(line("10", routes=("wipe",)), routes=(route("wipe", "rinse"),))
    part = story.off("10")
    done = story.say("operation.done", part, route="wipe", operation="rinse", **{"pass": 1})
    story.fit(story.ready(part), "10")
    assert story.seen() == []
    story.take_back(done)
    story.say("operation.done", part, route="wipe", operation="rinse", **{"pass": 1})
    assert story.stands("not released") == [part]
    story.release(part)
    assert story.seen() == []


def test_a_torque_counts_by_its_value_its_wrench_and_its_ground() -> None:
    """Near enough is 10 percent; where the register has wrenches, one of them and in date; a fitting lapses it."""
    story = Story(line("10"), line("20", "hardware", joint=joint("10")))
    story.say("hardware.counted", "@20", found=1)
    story.say("hardware.moved", "@20", put_in=1)
    part = story.fit(story.ready(story.off("10")), "10")
    tighten(story, "@20", "5.3")
    assert story.stands("joint not torqued or due again") == ["20"]
    tighten(story, "@20", "5.4")
    assert story.seen() == []
    wrench = {"number": "M7K3M0003E", "reads": "torque wrench", "due": "2026-03-01"}
    story.first.write("AA", "instrument.given", ("instrument:M7K3M0003E",), wrench, journal=SHOP)
    assert story.seen() == [], "a wrench bought later lapses nothing"
    story.say("part.taken_out", part, "@10")
    story.fit(part, "10")
    tighten(story, "@20")
    tighten(story, "@20", instrument="M7K3M0003E")
    assert story.stands("joint not torqued or due again") == ["20"]
    story.first.write("AA", "instrument.given", ("instrument:M7K3M0003E",), {**wrench, "due": ""}, journal=SHOP)
    tighten(story, "@20", instrument="M7K3M0003E")
    assert story.seen() == []


def test_a_screw_taken_back_counts_as_taken_out() -> None:
    """The torque lapses, also when the screw was not in its place by mistake."""
    story = Story(line("10"), line("20", "hardware", quantity=Decimal(1), joint=Joint("M6", torque_nm=Decimal(6))))
    story.say("hardware.counted", "@20", found=1)
    put_in = story.say("hardware.moved", "@20", put_in=1)
    tighten(story, "@20")
    assert story.stands("joint not torqued or due again") == []
    story.take_back(put_in)
    story.say("hardware.moved", "@20", put_in=1)
    assert story.stands("joint not torqued or due again") == ["20"]


def test_a_concession_lapses_with_any_record_on_its_ground() -> None:
    """A missing place is conceded; then something is fitted there and taken out again."""
    story = Story(line("10"), line("20"))
    story.concede("missing|10|")
    assert story.stands("missing", "conceded") == ["10"]
    part = story.fit(story.off("20"), "10")
    story.say("part.taken_out", part, "@10")
    assert story.stands("missing") == ["10", "20"]


def test_a_hole_is_said_once_at_the_nearest_thing_over_it() -> None:
    """An assembly that is in its place, with an empty one beneath it."""
    story = Story(line("10", "assembly"), line("10.20"), line("10.30", fit_after=("10.20",)))
    unit = story.fit(story.ready(story.off("10")), "10")
    lid = story.fit(story.ready(story.off("10.30")), "10.30")
    assert story.stands("fitted over an empty position") == ["10|10.20"], "both are one step up; the first in order"
    assert story.stands("missing") == []
    story.say("part.taken_out", unit, "@10")
    assert story.stands("fitted over an empty position") == ["10.30|10.20"]
    story.say("part.taken_out", lid, "@10.30")
    assert "10.20" in story.stands("missing")


def test_a_double_fitting_is_one_point() -> None:
    """Two parts in one place; one part in two."""
    story = Story(line("10", number="P1"), line("20", number="P1"))
    one, two, other = story.off("10"), story.off("20"), story.second()
    story.fit(one, "10")
    story.fit(two, "10", on=other)
    story.carry()
    assert (story.stands("fitted twice"), story.stands("missing")) == (["10"], ["20"])
    assert story.stands("tagged but unaccounted for") == []
    story.say("part.taken_out", two, "@10")
    assert story.stands("fitted twice") == []


def test_a_signature_lapses_and_a_closing_needs_one() -> None:
    """Close and sign, the signature first; a late record makes the job open."""
    story = Story(line("10"))
    part = story.fit(story.ready(story.off("10")), "10")
    story.say("job.closed", "job")
    assert not story.witness(story.first).is_closed()
    story.say("work.signed", "job", meaning="reviewed", covers=[])
    story.say("job.closed", "job")
    assert story.witness(story.first).is_closed()
    story.say("thing.put", part, place="RACK 1")
    assert story.witness(story.first).is_closed()
    story.say("part.noted", part, condition="good")
    assert not story.witness(story.first).is_closed()
    assert story.stands("sign again") == ["job"]


def test_a_tablet_of_another_founding_counts_for_nothing() -> None:
    """Its records are together one point, and take nothing away."""
    story = Story(line("10"))
    other = story.second()
    other.dev, other.files = "t9~0", {}
    rights = {"code": "GG", "rights": ["record", "office", "concede"]}
    other.write("GG", "person.given", ("person:GG",), rights, journal=SHOP)
    other.sync(story.first, (JOB,))
    story.say("configuration.received", "@10", by="GG", on=other, as_="out of scope", reference="A-1")
    story.carry()
    assert story.stands("record by someone without the right") == ["job|t9~0"]
    assert story.stands("missing") == ["10"]


def test_a_part_reading_is_spoilt_by_work_beneath_it() -> None:
    """Another part beneath it than the one that was there."""
    story = Story(line("10", "assembly", checks=("look",)), line("10.20", number="P1"), checks=(LOOK,))
    unit = story.off("10")
    story.say("check.read", unit, check="look", when="finished", verdict="accept")
    assert story.stands("check due") == []
    new = story.first.thing()
    story.say("part.brought_in", new, origin="new", part_number="P1", meant_for="10.20")
    story.fit(new, "10.20")
    assert story.stands("check due") == [f"{unit}|check/look//finished"]
