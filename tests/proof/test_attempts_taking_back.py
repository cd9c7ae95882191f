"""Attempts by taking back, by old concessions, and by reading a place again until it is good.

Each story says what a shop would have suffered."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import line, route
from tests.open_points.tablets import JOB
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

LEAK = Check("leak", type="leak", when=("fitted",))
GUARD = Check("guard", type="interlock", when=("fitted",))
LOOK = Check("look", when=("finished",))
DUE = ["10|check/leak//fitted"]


def joint(points: Twin | App) -> tuple[Tale, str]:
    """A lid under one screw, in and tight; nothing is open."""
    tale = Tale(points, line("10"), screws("20", 1, torque=6, holds=("10",)))
    part = tale.fit_ready("10")
    tale.screw_in("20", 1)
    tale.tighten("20")
    assert tale.open_now() == []
    return tale, part


def test_an_opened_joint_does_not_close_by_taking_that_back(points: Twin | App) -> None:
    """A lid would have been run on hand-tight screws."""
    tale, _ = joint(points)
    opened = tale.say("joint.opened", "@20", by="RR")
    back = tale.take_back(opened, by="RR")
    assert tale.stands("joint not torqued or due again") == ["20"]
    assert tale.stands(ACCEPTED) == [f"20|{back.ref}"]
    tale.tighten("20")
    assert tale.stands("joint not torqued or due again") == []
    tale.accept("20", back, "EE")
    assert tale.open_now() == []


def test_a_fitting_taken_back_counts_as_a_taking_out(points: Twin | App) -> None:
    """The lid would have been lifted and laid back, and the torque of yesterday would have counted."""
    tale, part = joint(points)
    fitted = next(each for each in tale.records(JOB) if each.typ == "part.fitted")
    tale.take_back(fitted, by="RR")
    tale.fit(part, "10")
    assert tale.stands("joint not torqued or due again") == ["20"]


def test_a_screw_taken_back_counts_as_taken_out(points: Twin | App) -> None:
    """The same with the screw itself."""
    tale, _ = joint(points)
    put_in = next(each for each in tale.records(JOB) if each.typ == "hardware.moved")
    tale.take_back(put_in, by="RR")
    tale.say("hardware.moved", "@20", by="RR", put_in=1)
    assert tale.stands("joint not torqued or due again") == ["20"]


def test_a_finding_taken_back_waits_for_release(points: Twin | App) -> None:
    """A cracked impeller would have gone back in."""
    tale = Tale(points, line("10"))
    part = tale.fit_ready("10")
    finding = tale.say("finding.noted", part, by="RR", word="cracked", cause="fatigue", covered=False)
    back = tale.take_back(finding, by="RR")
    assert tale.open_now() == [f"{ACCEPTED}|{part}|{back.ref}"]
    tale.release(part, by="EE")
    assert tale.open_now() == []


def test_a_coming_off_taken_back_leaves_no_part_behind(points: Twin | App) -> None:
    """A part on the bench would have been unknown to everybody."""
    tale = Tale(points, line("10", "assembly"), line("10.10"))
    part = tale.off("10.10")
    back = tale.take_back(part, by="RR")
    assert tale.stands("missing") == ["10.10"]
    assert tale.stands(ACCEPTED) == [f"{part}|{back.ref}"]


def test_a_hold_is_lifted_and_not_taken_back(points: Twin | App) -> None:
    """Whoever was in a hurry would have taken the foreman's hold off."""
    tale = Tale(points, line("10"))
    part = tale.fit_ready("10")
    hold = tale.say("hold.placed", part, by="RR", why="look again")
    tale.take_back(hold, by="RR")
    assert tale.subjects("hold") == [part]
    assert len(tale.stands("record by someone without the right")) == 1


def test_scrap_taken_back_leaves_the_part_undecided(points: Twin | App) -> None:
    """A scrapped shaft would have been use as is again, as it was before."""
    tale = Tale(points, line("10"))
    part = tale.fit_ready("10")
    scrap = tale.say("disposition.given", part, as_="scrap")
    tale.take_back(scrap)
    assert tale.stands("not released") == [part]
    tale.release(part)
    assert tale.stands("not released") == [part], "no disposition holds: it is given again"


def test_a_bracket_that_went_in_is_not_taken_back(points: Twin | App) -> None:
    """The turntable would have been started against its bracket."""
    tale = Tale(points, line("10", "temporary", ships="out"))
    put_in = tale.say("temporary.in", "@10", by="RR")
    tale.take_back(put_in, reference="A-1")
    assert "10|running" in tale.stands("temporary in or out wrongly")


def test_a_bracket_for_the_road_is_not_back_in_by_taking_back_that_it_is_out(points: Twin | App) -> None:
    """The tool would have been shipped with its rotor free."""
    tale = Tale(points, line("10", "temporary", ships="in"))
    for word in ("out", "in"):
        tale.say(f"temporary.{word}", "@10", by="RR")
    assert tale.open_now() == []
    out = tale.say("temporary.out", "@10", by="RR")
    back = tale.take_back(out, by="RR")
    assert tale.stands(ACCEPTED) == [f"10|{back.ref}"]


def test_an_operation_taken_back_takes_the_release_with_it(points: Twin | App) -> None:
    """A part that was not degreased would have stayed released for oxygen."""
    tale = Tale(points, line("10", routes=("wash",)), routes=(route("wash", "degrease"),))
    part = tale.off("10")
    done = tale.say("operation.done", part, by="RR", route="wash", operation="degrease", **{"pass": 1})
    tale.fit(tale.ready(part), "10")
    tale.take_back(done, by="RR")
    assert tale.stands("not released") == [part]


def test_a_label_taken_back_costs_nobody_anything(points: Twin | App) -> None:
    """Release and torque would have been given again for a typing mistake."""
    tale, part = joint(points)
    label = tale.say("part.tagged", part, by="RR", number="P7K3M0001A")
    tale.take_back(label, by="RR")
    assert tale.open_now() == []


# -- concessions ---------------------------------------------------------------------------------------


def test_a_conceded_hole_opens_when_a_part_was_in_it(points: Twin | App) -> None:
    """A place that was agreed to stay empty would have hidden that its part was lost later."""
    tale = Tale(points, line("10"))
    tale.concede("missing|10|", by="KK")
    assert tale.open_now() == []
    part = tale.fit_ready("10")
    tale.out(part, "10", by="RR")
    assert tale.stands("missing") == ["10"]


def test_a_reading_conceded_for_one_place_is_due_in_another(points: Twin | App) -> None:
    """A runout agreed for the drive side would have been worn by the pump side."""
    rows = (line("10", number="PN-P", checks=("look",)), line("20", number="PN-P", checks=("look",)))
    tale = Tale(points, *rows, checks=(LOOK,))
    part = tale.off("10")
    tale.concede(f"check due|{part}|check/look//finished", by="KK")
    tale.fit(part, "20")
    assert tale.stands("check due") == [f"{part}|check/look//finished"]


def test_who_only_records_concedes_nothing(points: Twin | App) -> None:
    """Everybody would have signed his own gaps."""
    tale = Tale(points, line("10"))
    tale.concede("missing|10|", by="RR")
    assert tale.stands("missing") == ["10"]
    assert len(tale.stands("record by someone without the right")) == 1


def test_a_lapsed_concession_does_not_come_back_by_taking_back(points: Twin | App) -> None:
    """The new part's flaw would have been covered by the old part's agreement."""
    tale = Tale(points, line("10"), line("20"))
    tale.concede("missing|10|", by="KK")
    fitted = tale.say("part.fitted", tale.off("20"), "@10", by="RR")
    tale.take_back(fitted, by="RR")
    assert "10" in tale.stands("missing")


# -- readings of a place -------------------------------------------------------------------------------


def leak(points: Twin | App, *checks: Check) -> tuple[Tale, str]:
    """A flange in its place, with a reading asked there."""
    tale = Tale(points, line("10", checks=tuple(each.name for each in checks)), checks=checks)
    return tale, tale.fit_ready("10")


def test_a_leak_is_not_read_away(points: Twin | App) -> None:
    """A leaking flange would have been sniffed at until it was tight."""
    tale, _ = leak(points, LEAK)
    tale.read("@10", "leak", "reject")
    first = tale.read("@10", "leak", "accept")
    assert (tale.stands("check due"), tale.waits("10", first)) == ([], True)
    second = tale.read("@10", "leak", "accept")
    assert tale.waits("10", second)
    tale.accept("10", second, "EE")
    assert tale.open_now() == []


def test_a_reject_taken_back_is_not_forgotten(points: Twin | App) -> None:
    """The same, by taking the bad reading back first."""
    tale, _ = leak(points, LEAK)
    reject = tale.read("@10", "leak", "reject")
    back = tale.take_back(reject, by="RR")
    tale.read("@10", "leak", "accept")
    assert tale.waits("10", back)


def test_a_fitting_taken_back_is_no_repair(points: Twin | App) -> None:
    """Recorded in and taken back between two readings, nothing was done to the flange."""
    tale, part = leak(points, LEAK)
    tale.read("@10", "leak", "reject")
    tale.take_back(tale.say("part.fitted", part, "@10", by="RR"), by="RR")
    accept = tale.read("@10", "leak", "accept")
    assert tale.waits("10", accept) or tale.stands("check due") == DUE


def test_a_flange_that_was_taken_apart_is_read_anew(points: Twin | App) -> None:
    """It would have been tight on the paper of last week; and who mended it is not stuck."""
    tale, part = leak(points, LEAK)
    tale.read("@10", "leak", "reject")
    tale.out(part, "10", by="RR")
    tale.say("part.fitted", part, "@10", by="RR")
    tale.read("@10", "leak", "accept")
    assert tale.open_now() == []
    tale.out(part, "10", by="RR")
    tale.say("part.fitted", part, "@10", by="RR")
    assert tale.stands("check due") == DUE


def test_a_failed_interlock_is_not_accepted_by_anybody(points: Twin | App) -> None:
    """The door switch would have been good because five people said so."""
    tale, part = leak(points, GUARD)
    reject = tale.read("@10", "guard", "reject")
    accept = tale.read("@10", "guard", "accept", by="AA", reference="A-1")
    tale.accept("10", accept, "EE")
    tale.accept("10", accept, "OO")
    tale.concede("check due|10|check/guard//fitted")
    assert tale.stands("check due") == ["10|check/guard//fitted"]
    tale.take_back(reject, by="RR", reference="A-1")
    assert tale.stands("check due") == ["10|check/guard//fitted"]
    tale.out(part, "10", by="RR")
    tale.say("part.fitted", part, "@10", by="RR")
    tale.read("@10", "guard", "accept")
    assert tale.stands("check due") == [], "after it was out and in, it is read like any other"


def test_a_hold_does_not_go_with_the_second_name_of_a_part(points: Twin | App) -> None:
    """The cracked part would have gone in under its old label, the hold on a name that is no part any more."""
    tale = Tale(points, line("10"))
    part = tale.off("10")
    relabelled = tale.say("part.taken_off", tale.first.thing(), by="EE", note="label lost").ent[0]
    hold = tale.say("hold.placed", relabelled, by="EE", why="cracked").thing()
    same = tale.say("part.same_as", part, relabelled, by="EE", reference="R-1")
    tale.ready(part)
    tale.fit(part, "10")
    assert tale.stands("hold"), hold
    back = tale.take_back(same, by="RR")
    tale.say("disposition.given", relabelled, by="RR", as_="spare")
    tale.release(part, by="EE")
    left = [one for one in tale.open_now() if one.startswith(ACCEPTED) and one.endswith(back.ref)]
    assert left == [f"{ACCEPTED}|{relabelled}|{back.ref}"], "somebody looks which part is held"
