"""Attempts on sentences and on words over several places: what a list shows of them, and who agreed to what.

Each story says what a shop would have suffered."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.job.replay import replay
from teardown_app.domain.points.live import all_points
from tests.open_points.story import line
from tests.open_points.tablets import JOB, SHOP
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

LEAK = Check("leak", type="leak", when=("fitted",))
GUARD = Check("guard", type="interlock", when=("fitted",))
INSULATION = Check("insulation", type="insulation", when=("fitted",))

# -- sentences: the app's alone ------------------------------------------------------------------------


def sentences(tale: Tale) -> dict[str, str]:
    """Key of each point that is to be accepted -> what it says."""
    found = all_points(replay(tale.records(SHOP), JOB, tale.records(JOB), tale.bills))
    return {one.key.split("|")[1]: one.wrong for one in found if one.kind == "to be accepted"}


def test_nobody_puts_words_into_anothers_mouth() -> None:
    """The foreman would have read his own name under it, and accepted it."""
    tale = Tale(App(), line("10"), screws("20", 4))
    tale.word("10", "not on this tool", act="OO")
    tale.say("hardware.counted", "@20", by="RR", found=3)
    tale.say("hardware.moved", "@20", by="RR", lost=1, search="tray", missed="0 lost")
    assert sentences(tale) == {
        "10": "10: RR says not on this tool. Not accepted.",
        "20": "20: 1 lost (search: tray). Not accepted.",
    }


def test_what_is_said_otherwise_than_the_bill_is_named() -> None:
    """The foreman would have accepted a part without being told which number it should have had."""
    tale = Tale(App(), line("10"))
    off = {"out_of": "10", "origin": "repaired", "part_number": "PN-11"}
    part = tale.say("part.taken_off", tale.first.thing(), by="RR", **off).ent[0]
    said = "10: part number PN-10, now PN-11; origin as received, now repaired. Not accepted."
    assert sentences(tale) == {part: said}


# -- one record about several places ---------------------------------------------------------------------


def test_a_word_over_two_places_is_accepted_of_each(points: Twin | App) -> None:
    """The office would have agreed that this tool has no valve, and its gauge would have gone unnamed."""
    tale = Tale(points, line("10"), line("20"))
    word = tale.say("configuration.received", "@10", "@20", by="RR", as_="not on this tool")
    assert tale.stands(ACCEPTED) == [f"10|{word.ref}", f"20|{word.ref}"]
    tale.accept("10", word, "OO")
    assert tale.open_now() == [f"{ACCEPTED}|20|{word.ref}"]
    tale.accept("20", word, "OO")
    assert tale.open_now() == []


def test_a_word_waits_only_where_it_takes_something_away(points: Twin | App) -> None:
    """Nobody accepts what is said of a place where a part is; and who says it by his own right is asked nothing."""
    tale = Tale(points, line("10"), line("20"), line("30", "assembly"), line("30.10"))
    tale.fit_ready("10")
    word = tale.say("configuration.received", "@10", "@20", "@30", by="RR", as_="out of scope")
    assert tale.stands(ACCEPTED) == [f"20|{word.ref}", f"30|{word.ref}"]
    tale.say("configuration.received", "@20", "@30", by="OO", as_="out of scope", reference="A-1")
    assert tale.open_now() == []


def test_a_heating_rod_is_accepted_by_its_own_name(points: Twin | App) -> None:
    """The insulation of a rod would have gone unread because a valve, named beside it, is not on the tool."""
    tale = Tale(points, line("10"), line("20", checks=("insulation",)), checks=(INSULATION,))
    word = tale.say("configuration.received", "@10", "@20", by="RR", as_="not on this tool")
    tale.accept("10", word, "OO")
    assert tale.stands("check due") == ["20|check/insulation//fitted"]
    tale.accept("20", word, "OO")
    assert tale.open_now() == []


def two_joints(points: Twin | App) -> Tale:
    """A lid under two rows of screws, in and tight."""
    rows = (screws(key, 1, torque=6, holds=("10",)) for key in ("20", "30"))
    tale = Tale(points, line("10"), *rows)
    tale.fit_ready("10")
    for key in ("20", "30"):
        tale.screw_in(key, 1)
        tale.tighten(key)
    return tale


def test_two_joints_that_were_opened_after_all_are_accepted_each(points: Twin | App) -> None:
    """Somebody looked at one joint; the other was hand-tight, and its torque of yesterday counted again."""
    tale = two_joints(points)
    opened = tale.say("joint.opened", "@20", "@30", by="EE")
    back = tale.take_back(opened, by="RR")
    assert tale.stands(ACCEPTED) == [f"20|{back.ref}", f"30|{back.ref}"]
    tale.accept("20", back, "EE")
    assert tale.stands(ACCEPTED) == [f"30|{back.ref}"]
    assert tale.subjects("joint not torqued or due again") == ["30"]
    tale.accept("30", back, "EE")
    assert tale.open_now() == []


def test_a_bad_reading_of_two_places_is_taken_back_for_each(points: Twin | App) -> None:
    """One flange was looked at again, the other leaked."""
    tale = Tale(points, line("10", checks=("leak",)), line("20", checks=("leak",)), checks=(LEAK,))
    tale.fit_ready("10")
    tale.fit_ready("20")
    read = tale.say("check.read", "@10", "@20", by="EE", check="leak", when="fitted", verdict="reject")
    back = tale.take_back(read, by="RR")
    tale.accept("10", back, "EE")
    tale.read("@10", "leak", "accept")
    tale.read("@20", "leak", "accept")
    assert tale.open_now() == [f"{ACCEPTED}|20|{back.ref}"]
    tale.accept("20", back, "EE")
    assert tale.open_now() == []


def test_a_bad_reading_is_recorded_again_place_by_place(points: Twin | App) -> None:
    """Who took a slip back and read the first flange again has said nothing of the second."""
    tale = Tale(points, line("10", checks=("leak",)), line("20", checks=("leak",)), checks=(LEAK,))
    read = tale.say("check.read", "@10", "@20", by="EE", check="leak", when="fitted", verdict="reject")
    back = tale.take_back(read, by="RR")
    tale.read("@10", "leak", "inconclusive")
    assert tale.stands(ACCEPTED) == [f"20|{back.ref}"]


# -- an option amended away ------------------------------------------------------------------------------


def amended(points: Twin | App) -> Tale:
    """A job that was opened with an option by mistake; the office put that right. Its switch protects people."""
    rows = (line("10"), line("20", option="heater", checks=("guard",)), line("30", option="A"))
    tale = Tale(points, *rows, checks=(GUARD,))
    tale.fit_ready("10")
    tale.say("job.amended", "job", by="OO", options=[], why="it never had it")
    assert tale.open_now() == ["check due|20|check/guard//fitted"]
    return tale


def test_a_switch_that_was_never_there_is_said_to_be_away(points: Twin | App) -> None:
    """Nobody could have closed the job, but by writing that the tool had the option after all."""
    tale = amended(points)
    word = tale.say("configuration.received", "@20", "@30", by="RR", as_="not on this tool")
    due = "check due|20|check/guard//fitted"
    assert tale.open_now() == [due, f"{ACCEPTED}|20|{word.ref}"], "beside it nothing is taken away"
    tale.accept("20", word, "OO")
    assert tale.open_now() == []


def test_the_office_says_it_in_one_act(points: Twin | App) -> None:
    """The same by whoever has the right; and once more, by somebody who has not."""
    tale = amended(points)
    tale.word("20", "not on this tool", by="OO", reference="A-1")
    assert tale.open_now() == []
    tale.word("20", "out of scope", by="RR")
    assert tale.open_now() == []


def test_a_switch_that_is_left_is_read(points: Twin | App) -> None:
    """What stayed fitted is there, and switches off or does not."""
    tale = amended(points)
    tale.word("20", "left fitted", by="OO", reference="A-1")
    assert tale.stands("check due") == ["20|check/guard//fitted"]


def test_what_is_accepted_at_one_place_waits_for_no_other(points: Twin | App) -> None:
    """A concession at the near flange would have lapsed until somebody had looked at the far one."""
    tale = Tale(points, line("10"), *(screws(key, 1, torque=6, holds=("10",)) for key in ("20", "30")))
    tale.fit_ready("10")
    for key in ("20", "30"):
        tale.screw_in(key, 1)
        tale.concede(f"joint not torqued or due again|{key}|")
    assert tale.open_now() == []
    back = tale.take_back(tale.say("joint.opened", "@20", "@30", by="RR"), by="RR")
    tale.accept("20", back, "EE")
    assert sorted(tale.open_now()) == ["joint not torqued or due again|30|", f"{ACCEPTED}|30|{back.ref}"]
