"""Attempts on what is asked for: places said to be empty, left, or come with a unit. After each, what must stand.

Each story says what a shop would have suffered. Here: scope words; units that are gone."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import line
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

INSULATION = Check("insulation", type="insulation", when=("fitted",))
RUNNING = "temporary in or out wrongly"


# -- scope words ---------------------------------------------------------------------------------------


def test_a_lost_valve_is_not_talked_off_the_tool(points: Twin | App) -> None:
    """The tool would have shipped with an open port where its relief valve was."""
    tale = Tale(points, line("10"), line("20"))
    tale.fit_ready("20")
    word = tale.word("10", "not on this tool")
    assert tale.stands("missing") == [], "it is no work any more"
    for by in ("RR", "EE"):
        tale.accept("10", word, by)
        assert tale.waits("10", word), "neither record nor release is the right that accepts it"
    tale.accept("10", word, "OO")
    assert (tale.open_now(), tale.stands(ACCEPTED, "conceded")) == ([], [f"10|{word.ref}"])


def test_a_place_of_which_screws_were_counted_is_on_the_tool(points: Twin | App) -> None:
    """Four screws would have stayed in the drip tray of a tool that runs hot."""
    tale = Tale(points, screws("10", 4))
    tale.say("hardware.counted", "@10", by="RR", found=3)
    for word in ("not on this tool", "out of scope", "left fitted"):
        tale.word("10", word, by="OO", reference="A-1")
    assert tale.open_now() == ["hardware does not balance|10|"]


def test_a_word_on_the_assembly_does_not_hide_what_came_out_beneath_it(points: Twin | App) -> None:
    """A rotor on the bench would have been forgotten because the unit was said to be none of our business."""
    tale = Tale(points, line("10", "assembly"), line("10.10"), line("10.20"))
    part = tale.off("10.10")
    word = tale.word("10", "out of scope")
    assert tale.stands("missing") == ["10.10"]
    assert tale.stands("tagged but unaccounted for") == [part]
    assert tale.waits("10", word), "of the place beside it the word takes the demand away"


def test_words_in_pieces_wait_each_for_itself(points: Twin | App) -> None:
    """A whole gas box would have gone missing, one place a day."""
    tale = Tale(points, line("10", "assembly"), line("10.10"), line("10.20"))
    first, second = tale.word("10.10", "not on this tool"), tale.word("10.20", "left fitted")
    assert (tale.waits("10.10", first), tale.waits("10.20", second)) == (True, True)
    tale.accept("10.10", first, "OO")
    assert tale.waits("10.20", second)


def test_a_word_over_a_bracket_lets_nothing_run(points: Twin | App) -> None:
    """The turntable would have been started with its shipping bracket in."""
    tale = Tale(points, line("10", "assembly"), line("10.10", "temporary", ships="out"))
    tale.say("temporary.in", "@10.10", by="RR")
    for key in ("10", "10.10"):
        tale.word(key, "not on this tool", by="OO", reference="A-1")
    assert tale.stands(RUNNING) == ["10.10|running", "10.10|shipping"]
    tale.say("temporary.out", "@10.10", by="RR")
    assert tale.stands(RUNNING) == [], "who takes it out is not stuck"


def test_a_heating_rod_that_is_not_there_is_not_measured_once_the_office_says_so(points: Twin | App) -> None:
    """An unread insulation would have killed somebody; a rod that nobody bought would have stopped the job."""
    tale = Tale(points, line("10", checks=("insulation",)), checks=(INSULATION,))
    word, due = tale.word("10", "not on this tool"), ["10|check/insulation//fitted"]
    assert tale.stands("check due") == due, "an unaccepted word does not reach what protects people"
    tale.concede("check due|10|check/insulation//fitted")
    assert tale.stands("check due") == due
    tale.accept("10", word, "OO")
    assert tale.open_now() == []


def test_a_word_said_before_the_part_came_off_is_overtaken_by_it(points: Twin | App) -> None:
    """The valve would have stayed on the shelf because somebody had ticked its row on the first day."""
    tale = Tale(points, line("10"))
    tale.word("10", "not received", by="OO", reference="A-1")
    assert tale.open_now() == []
    part = tale.off("10")
    assert tale.stands("missing") == ["10"]
    tale.say("record.voided", part, by="RR", record=tale.first.own("J7K3M00012")[-1].ref, why="wrong row")
    assert tale.stands("missing") == ["10"], "until somebody accepts that nothing came off"


# -- units that are gone -----------------------------------------------------------------------------


def unit(points: Twin | App) -> tuple[Tale, str]:
    """A unit that came off with its spring left in it, and that is accepted."""
    tale = Tale(points, line("10", "assembly"), line("10.10"))
    part = tale.off("10")
    tale.word("10.10", "left fitted", by="OO", reference="A-1")
    return tale, tale.ready(part)


def test_a_spring_left_in_a_unit_that_is_exchanged_is_missing(points: Twin | App) -> None:
    """The exchange unit would have gone in without its spring."""
    tale, part = unit(points)
    tale.fit(part, "10")
    assert tale.open_now() == []
    tale.out(part, "10")
    other = tale.bring("PN-10", meant_for="10")
    tale.fit(other, "10")
    assert tale.stands("fitted over an empty position") == ["10|10.10"]


def test_what_was_agreed_of_one_unit_says_nothing_of_the_next(points: Twin | App) -> None:
    """The exchange unit would have gone in without its spring, on an agreement about the old one."""
    tale, part = unit(points)
    tale.fit(part, "10")
    tale.out(part, "10")
    other = tale.bring("PN-10", meant_for="10")
    tale.fit(other, "10")
    word = tale.word("10.10", "left fitted", by="RR")
    assert tale.waits("10.10", word)
    tale.accept("10.10", word, "OO")
    assert tale.stands(ACCEPTED) == []


def test_a_second_unit_that_came_with_its_spring_waits_too(points: Twin | App) -> None:
    """The same, said in its fitting."""
    tale, part = unit(points)
    tale.fit(part, "10")
    tale.out(part, "10")
    other = tale.bring("PN-10", meant_for="10")
    fitted = tale.say("part.fitted", other, "@10", by="RR", came_with=["10.10"])
    assert tale.waits("10", fitted)


def test_a_unit_that_comes_back_brings_its_spring(points: Twin | App) -> None:
    """Nobody takes a good unit apart again to tick its spring."""
    tale, part = unit(points)
    other = tale.fit(tale.bring("PN-10", meant_for="10"), "10")
    tale.out(other, "10")
    tale.fit(part, "10")
    assert tale.stands("fitted over an empty position") == []


def test_what_came_with_a_unit_waits_for_the_office(points: Twin | App) -> None:
    """A bare housing would have passed for a complete one."""
    tale = Tale(points, line("10", "assembly"), line("10.10"))
    new = tale.bring("PN-10", meant_for="10")
    fitted = tale.say("part.fitted", new, "@10", by="RR", came_with=["10.10"])
    assert tale.stands("fitted over an empty position") == []
    assert tale.waits("10", fitted)
    tale.accept("10", fitted, "EE")
    assert tale.waits("10", fitted)
    tale.accept("10", fitted, "OO")
    assert tale.stands(ACCEPTED) == []


def test_left_fitted_does_not_hold_for_what_came_out(points: Twin | App) -> None:
    """The spring would have been swept off the bench."""
    tale, part = unit(points)
    spring = tale.off("10.10")
    tale.fit(part, "10")
    assert tale.stands("fitted over an empty position") == ["10|10.10"]
    assert tale.stands("tagged but unaccounted for") == [spring]
