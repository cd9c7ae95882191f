"""One story for each kind of open point about records and signatures: how it comes about, and what clears it."""

from __future__ import annotations

from teardown_app.domain.ledger.record import VERSION
from tests.open_points.story import Story, line


def test_a_signature_is_due_again_when_what_it_covered_changes() -> None:
    """Signed, then something was taken out."""
    story = Story(line("10"))
    part = story.fit(story.ready(story.off("10")), "10")
    story.say("work.signed", "job", meaning="reviewed", covers=[])
    assert story.points() == []
    story.say("part.taken_out", part, "@10")
    assert story.open("sign again") == ["job"]
    story.fit(part, "10")
    story.say("work.signed", "job", meaning="reviewed", covers=[])
    assert story.points() == []


def test_a_record_without_the_right_has_no_effect_and_is_cleared_by_taking_it_back() -> None:
    """A person who may only record cannot lift a hold."""
    story = Story(line("10"))
    story.person("BB", ["record"])
    part = story.off("10")
    hold = story.say("hold.placed", part, why="look").thing()
    lifting = story.say("hold.lifted", hold, by="BB", why="fine")
    assert story.open("record by someone without the right") == [f"job|{lifting.ref}"]
    assert story.open("hold") == [f"{part}|{hold}"]
    story.say("record.voided", hold, record=lifting.ref, why="not his to lift")
    assert story.open("record by someone without the right") == []


def test_a_person_loses_no_record_by_a_later_revocation() -> None:
    """Rights are judged as the author had seen the shop."""
    story = Story(line("10"))
    story.person("BB", ["record"])
    story.off("10")
    story.say("part.noted", story.first.own("J7K3M00012")[-1].ent[0], by="BB", condition="good")
    story.person("BB", [])
    assert story.open("record by someone without the right") == []
    late = story.say("part.noted", story.first.own("J7K3M00012")[1].ent[0], by="BB", condition="worn")
    assert story.open("record by someone without the right") == [f"job|{late.ref}"]


def test_a_record_of_an_unknown_part_does_not_fit_until_it_is_taken_back() -> None:
    """Kept, shown, cleared by a correction."""
    story = Story(line("10", "hardware"))
    lost = story.say("thing.put", "J7K3M00012:nobody~0:7:1", place="RACK 1")
    assert story.open("record kept that does not fit") == [f"job|{lost.ref}"]
    back = story.say("record.voided", "job", record=lost.ref, why="slip")
    assert set(story.open("record kept that does not fit")) == {f"job|{lost.ref}", f"job|{back.ref}"}
    story.say("record.voided", *lost.ent, record=lost.ref, why="slip")
    assert story.open("record kept that does not fit") == [f"job|{back.ref}"], "it was about something else"


def test_a_correction_of_a_record_that_its_author_had_not_seen_does_not_fit() -> None:
    """Somebody guesses the name of a record; the target stands."""
    story = Story(line("10"))
    second = story.second()
    part = story.off("10")
    guess = story.say("record.voided", part, on=second, record=story.first.own("J7K3M00012")[-1].ref, why="guess")
    assert story.open("record kept that does not fit") == [f"job|{guess.ref}"]
    assert story.open("tagged but unaccounted for") == [part]


def test_a_kind_known_here_says_nothing_in_a_form_that_is_newer() -> None:
    """What it means there nobody here knows: a hold may be one of a sort that any mechanic lifts."""
    story = Story(line("10"))
    part = story.off("10")
    newer = story.first.write("AA", "hold.placed", (part,), {"why": "look"}, v=VERSION + 1)
    assert story.open("record from a newer app") == [f"job|{newer.ref}"]
    assert story.open("hold") == []


def test_a_record_from_a_newer_app_is_open_until_conceded() -> None:
    """Nobody here knows what it says; taking it back does not clear it."""
    story = Story(line("10", "hardware"))
    newer = story.say("part.polished", "job")
    assert story.open("record from a newer app") == [f"job|{newer.ref}"]
    story.say("record.voided", "job", record=newer.ref, why="slip")
    assert story.open("record from a newer app") == [f"job|{newer.ref}"]
    story.concede(f"record from a newer app|job|{newer.ref}")
    assert story.open("record from a newer app") == []


def test_a_record_that_was_seen_and_is_not_here_is_named_until_it_comes() -> None:
    """The second tablet's record has not been carried over, but the first one had seen it."""
    story = Story(line("10"))
    second = story.second()
    noted = story.say("photo.taken", "job", on=second, photos=["0" * 64])
    story.carry()
    story.say("photo.taken", "job", photos=["1" * 64])
    story.withheld = {noted.ref}
    assert story.open("record not here") == ["job|t2~0:1"]
    story.withheld = set()
    assert story.open("record not here") == []
