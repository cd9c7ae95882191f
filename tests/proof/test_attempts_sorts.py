"""Attempts by records about a place of another sort, about nothing that there is, or at no time. After each, what must
stand.

Each story says what a shop would have suffered."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Check, Operation, Route
from tests.open_points.story import line, route
from tests.open_points.tablets import JOB, SHOP, Clock
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale, screws

MISFIT = "record kept that does not fit"
LOOK = Check("look", when=("finished",))


def misfits(tale: Tale) -> list[str]:
    """Names of records that do not fit."""
    return [one.partition("|")[2] for one in tale.stands(MISFIT)]


def test_a_unit_brings_nothing_that_is_not_beneath_it(points: Twin | App) -> None:
    """A rotor on the bench of another assembly would have come with a pump; half of it was true, and was signed."""
    tale = Tale(points, line("10", "assembly"), line("10.10"), line("20", "assembly"), line("20.10"))
    tale.off("10.10")
    unit = tale.bring("PN-20", meant_for="20")
    fitted = tale.say("part.fitted", unit, "@20", by="RR", came_with=["20.10", "10.10"])
    assert misfits(tale) == [fitted.ref]
    tale.accept("20", fitted, "OO")
    assert misfits(tale) == [fitted.ref]
    tale.take_back(fitted, by="RR")
    assert (misfits(tale), "10.10" in tale.stands("missing")) == ([], True)


@pytest.mark.parametrize("named", [["20"], ["30"]], ids=["the place itself", "a place that is not there"])
def test_nor_itself_nor_what_is_not_there(points: Twin | App, named: list[str]) -> None:
    """A word would have been said of a place for which nobody looks."""
    tale = Tale(points, line("20", "assembly"), line("20.10"))
    fitted = tale.say("part.fitted", tale.bring("PN-20"), "@20", by="RR", came_with=named)
    assert misfits(tale) == [fitted.ref]


def test_a_taking_out_is_not_recorded_again_as_an_opened_joint(points: Twin | App) -> None:
    """A pump that is on the bench would have been in the tool, because somebody opened a joint that it has not."""
    tale = Tale(points, line("10"))
    part = tale.fit_ready("10")
    tale.take_back(tale.out(part, "10", by="EE"), by="RR")
    opened = tale.say("joint.opened", "@10", by="RR")
    assert misfits(tale) == [opened.ref]


@pytest.mark.parametrize(
    ("kind", "key", "body"),
    [
        ("hardware.counted", "10", {"found": 1}),
        ("hardware.moved", "30", {"put_in": 1}),
        ("joint.torqued", "40", {"pass": "100", "screws": 1}),
        ("consumable.renewed", "20", {"as": "renewed"}),
        ("temporary.out", "10", {}),
    ],
)
def test_a_record_is_about_places_of_its_own_sort(
    points: Twin | App, kind: str, key: str, body: dict[str, object]
) -> None:
    """Screws of a place that has none, a cap of a place where none goes: nobody would have looked for them."""
    tale = Tale(points, line("10"), screws("20", 1), line("30", "consumable"), line("40", "temporary", ships="out"))
    wrong = tale.first.write("RR", kind, (f"@{key}",), dict(body))
    assert misfits(tale) == [wrong.ref]
    tale.take_back(wrong)
    assert misfits(tale) == []


def test_a_part_goes_into_places_for_parts(points: Twin | App) -> None:
    """A bolt would have been released and fitted, part by part, into a row of hardware that nobody counted."""
    tale = Tale(points, line("10"), screws("20", 1))
    part = tale.off("10")
    fitted = tale.say("part.fitted", part, "@20", by="RR")
    out = tale.out(part, "20", by="RR")
    assert misfits(tale) == sorted([fitted.ref, out.ref])


@pytest.mark.parametrize("body", [("", ""), ("wash", "weld"), ("paint", "degrease")])
def test_an_operation_is_one_of_the_bill(points: Twin | App, body: tuple[str, str]) -> None:
    """A bad reading would have been good after work that nobody knows and nobody did."""
    tale = Tale(points, line("10", checks=("look",)), checks=(LOOK,), routes=(route("wash", "degrease"),))
    part, (way, step) = tale.off("10"), body
    tale.read(part, "look", "reject", by="EE", when="finished")
    done = tale.say("operation.done", part, by="RR", route=way, operation=step, pass_=1)
    waited = tale.say("wait.over", part, by="EE", route=way, operation=step, why="dry", pass_=1)
    tale.read(part, "look", "accept", when="finished")
    tale.fit(tale.ready(part), "10")
    assert misfits(tale) == sorted([done.ref, waited.ref])


def test_a_warning_about_a_mask_is_not_lost(points: Twin | App) -> None:
    """A mask lost a piece in the tool; whoever said so would have been thanked and forgotten."""
    tale = Tale(points, line("10"))
    tale.fit_ready("10")
    mask = tale.say("temporary.in", tale.first.thing(), by="EE", what="mask").ent[0]
    finding = tale.say("finding.noted", mask, by="EE", word="broken", cause="age", covered=False)
    hold = tale.say("hold.placed", mask, by="EE", why="a piece is missing")
    tale.say("temporary.out", mask, by="RR")
    assert misfits(tale) == sorted([finding.ref, hold.ref])


@pytest.mark.parametrize("kind", ["carrier", "finding"])
def test_nor_one_about_a_carrier_or_a_finding(points: Twin | App, kind: str) -> None:
    """The same of the basket that was dirty, and of a finding that somebody wanted looked at again."""
    tale = Tale(points, line("10"))
    part = tale.off("10")
    noted = tale.say("finding.noted", part, by="EE", word="cracked", cause="age", covered=False)
    about = "carrier:C7K3M0001X" if kind == "carrier" else noted.thing()
    hold = tale.say("hold.placed", about, by="EE", why="dirty")
    assert misfits(tale) == [hold.ref]
    tale.take_back(hold, by="EE")
    assert misfits(tale) == []


def test_a_place_without_a_name_stops_nobody(points: Twin | App) -> None:
    """No tablet would have shown the job again: what is beneath no place is beneath it, without end."""
    tale = Tale(points, line("10"))
    tale.fit_ready("10")
    added = tale.say("line.added", "@", by="RR", parent="", part_number="X", description="", number="1")
    word = tale.say("configuration.received", "@", by="RR", as_="left fitted")
    assert tale.open_now() == sorted(f"{MISFIT}|job|{one.ref}" for one in (added, word))
    tale.take_back(word, by="RR")
    back = tale.take_back(added, by="RR")
    assert tale.open_now() == [f"to be accepted||{back.ref}"]
    tale.take_back(added, by="EE", reference="A-1")
    assert tale.open_now() == []


@pytest.mark.parametrize("key", ["to be accepted|", "to be accepted|10", "to be accepted|10|nothing", "|", ""])
def test_a_concession_of_no_point_stops_nobody(points: Twin | App, key: str) -> None:
    """The tablet on which it arrived would have shown the job no more."""
    tale = Tale(points, line("10"))
    program = points.arriving(JOB, tale.bills)
    for one in (*tale.records(SHOP), *tale.records(JOB)):
        program.take(one)
    program.take(tale.say("point.conceded", "@10", by="KK", key=key, why="", reference="", covers=[]))
    assert [one.key for one in program.points()] == ["missing|10|"]


@pytest.mark.parametrize("wall", ["2026-03-02T08:00:00", "yesterday", "", "2026-03-02", "20260302T080000+0100"])
def test_a_record_at_no_time_stops_nobody(points: Twin | App, wall: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """One line of a file written by hand, and neither the job nor the list of all jobs would have been shown again."""
    dry = Route("wash", operations=(Operation("degrease", wait_h=Decimal(2)),))
    tale = Tale(points, line("10", routes=("wash",)), routes=(dry,))
    part = tale.off("10")
    with monkeypatch.context() as clock:
        clock.setattr(Clock, "wall", lambda self: wall)
        done = tale.say("operation.done", part, by="RR", route="wash", operation="degrease", pass_=1)
    tale.fit(tale.ready(part), "10")
    assert (misfits(tale), tale.stands("not released")) == ([done.ref], [part])
    tale.take_back(done, by="RR")
    assert misfits(tale) == []


def test_a_count_names_each_place_once(points: Twin | App) -> None:
    """A record of thousands of times the same bag would have held up every tablet in the shop."""
    tale = Tale(points, screws("10", 4))
    tale.say("hardware.counted", *["@10"] * 3000, by="RR", found=4)
    assert tale.subjects("hardware does not balance") == ["10"]
    assert len(tale.stands("record kept that does not fit")) == 1
