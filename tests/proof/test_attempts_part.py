"""Attempts on a part: released for one line and fitted in another, and facts that become other facts.

Each story says what a shop would have suffered."""

from __future__ import annotations

import pytest

from teardown_app.domain.bill.bill import Check
from tests.open_points.story import line, route
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale

RUNOUT = Check("runout", when=("finished",))
INCOMING = Check("incoming", when=("new",))
NOT_OURS = "belongs to another job or owner"
MISFIT = "record kept that does not fit"

# -- the seat ------------------------------------------------------------------------------------------


def two_pumps(points: Twin | App) -> tuple[Tale, str]:
    """Two lines of one part number; the second asks a route, a reading and a serial. The first part is released."""
    more = {"number": "PN-P", "checks": ("runout",), "routes": ("wash",), "write_down": ("serial",)}
    rows = (line("10", number="PN-P"), line("20", **more))
    tale = Tale(points, *rows, checks=(RUNOUT,), routes=(route("wash", "rinse"),))
    return tale, tale.ready(tale.off("10"))


def test_a_pump_released_for_a_lenient_place_is_not_released_in_a_strict_one(points: Twin | App) -> None:
    """An unwashed pump of unknown runout would have gone into the process side."""
    tale, part = two_pumps(points)
    tale.fit(part, "20")
    assert tale.stands("check due") == [f"{part}|check/runout//finished"]
    assert tale.stands("not released") == [part], "route and serial have no point of their own"
    tale.release(part)
    assert tale.stands("not released") == [part]
    tale.say("operation.done", part, by="RR", route="wash", operation="rinse", **{"pass": 1})
    tale.say("part.noted", part, by="RR", written={"serial": "7"})
    tale.read(part, "runout", "accept", when="finished")
    assert tale.stands("not released") == [part]
    tale.release(part, by="EE")
    assert tale.open_now() == ["missing|10|"], "released for there, it is done"


def test_a_pump_meant_for_the_lenient_place_only_while_it_is_released(points: Twin | App) -> None:
    """The strict place would have been filled with what was released for the lenient one."""
    tale, _ = two_pumps(points)
    part = tale.off("20")
    tale.say("part.noted", part, by="RR", meant_for="10")
    tale.ready(part)
    tale.fit(part, "20")
    assert tale.stands("check due") == [f"{part}|check/runout//finished"]
    assert tale.stands("not released") == [part]


def test_a_part_without_a_seat_is_not_released(points: Twin | App) -> None:
    """A pump out of a drawer, released for nothing, would have gone in anywhere."""
    tale, _ = two_pumps(points)
    part = tale.ready(tale.bring("PN-P", origin="repaired"))
    tale.fit(part, "10")
    assert tale.stands("not released") == [part]


BROUGHT_IN = {
    "part.taken_off": {"out_of": "10", "origin": "repaired"},
    "part.brought_in": {"origin": "new", "part_number": "PN-P", "owner": "customer"},
    "goods.taken_over": {"of": "J7K3M00024", "goods": "x", "consent": "x", "owner": "customer"},
    "temporary.in": {"what": "drain hose"},
    "temporary.out": {"what": "drain hose"},
}


@pytest.mark.parametrize("typ", BROUGHT_IN)
def test_a_part_that_is_there_is_not_brought_in_anew(points: Twin | App, typ: str) -> None:
    """A borrowed pump would have become the customer's, a worn one new, a lost one a hose that was in for a time."""
    tale, _ = two_pumps(points)
    part = tale.bring("PN-P", owner="other job", meant_for="20")
    tale.fit(part, "20")
    before = tale.open_now()
    said = tale.say(typ, part, by="RR", **BROUGHT_IN[typ])
    assert set(tale.open_now()) == {*before, f"{MISFIT}|job|{said.ref}"}
    tale.take_back(said, by="RR")
    assert tale.open_now() == before


def test_a_part_fitted_in_two_places_meets_the_demands_of_both(points: Twin | App) -> None:
    """The second tablet would have put its demands aside."""
    tale, part = two_pumps(points)
    other = tale.second()
    tale.fit(part, "10")
    tale.fit(part, "20", on=other)
    assert tale.stands("fitted twice") == [part]
    assert tale.stands("check due") == [f"{part}|check/runout//finished"]


# -- facts of a part -----------------------------------------------------------------------------------


def test_a_number_that_becomes_the_right_one_waits(points: Twin | App) -> None:
    """The old valve would have passed for its successor."""
    tale = Tale(points, line("10"))
    part = tale.ready(tale.off("10", part_number="PN-OLD"))
    tale.fit(part, "10")
    assert tale.open_now() == ["wrong component|10|"]
    note = tale.say("part.noted", part, by="RR", part_number="PN-10")
    assert tale.open_now() == [f"{ACCEPTED}|{part}|{note.ref}"]
    tale.release(part, by="EE")
    assert tale.open_now() == [], "whoever releases it has looked at the number"


@pytest.mark.parametrize("origin", ["new", "stock", "exchanged", "borrowed"])
def test_what_came_off_this_tool_never_becomes_new(points: Twin | App, origin: str) -> None:
    """A worn shaft would have been asked for no runout, because it was new on paper."""
    tale = Tale(points, line("10", checks=("runout",)), checks=(RUNOUT,))
    part = tale.fit(tale.off("10"), "10")
    tale.say("part.noted", part, by="OO", origin=origin, reference="A-1")
    assert tale.stands("check due") == [f"{part}|check/runout//finished"]
    assert len(tale.stands(MISFIT)) == 1


def test_a_spare_that_becomes_new_waits(points: Twin | App) -> None:
    """A shaft from the scrap shelf would have been measured as if out of its box."""
    tale = Tale(points, line("10", checks=("runout", "incoming")), checks=(RUNOUT, INCOMING))
    part = tale.fit(tale.bring("PN-10", origin="exchanged", meant_for="10"), "10")
    note = tale.say("part.noted", part, by="RR", origin="new")
    assert tale.stands("check due") == [f"{part}|check/incoming//new"]
    assert tale.waits(part, note)
    again = tale.say("part.noted", part, by="RR", origin="new")
    assert tale.waits(part, again), "said twice it is still only said"


def test_a_borrowed_gauge_does_not_become_ours_by_a_release(points: Twin | App) -> None:
    """The tool would have left with the neighbour's pressure gauge in it."""
    tale = Tale(points, line("10"))
    part = tale.bring("PN-10", origin="borrowed", meant_for="10")
    tale.fit(part, "10")
    assert tale.stands(NOT_OURS) == ["10"]
    note = tale.say("part.noted", part, by="RR", origin="exchanged")
    tale.ready(part)
    assert (tale.stands(NOT_OURS), tale.waits(part, note)) == ([], True)
    tale.accept(part, note, "EE")
    assert tale.waits(part, note)
    tale.accept(part, note, "OO")
    assert tale.open_now() == []


def test_an_owner_said_otherwise_waits_for_the_office(points: Twin | App) -> None:
    """Another customer's part would have been shipped as this one's."""
    tale = Tale(points, line("10"))
    part = tale.bring("PN-10", owner="other job", meant_for="10")
    tale.fit(part, "10")
    note = tale.say("part.noted", part, by="RR", owner="customer")
    tale.ready(part)
    assert (tale.stands(NOT_OURS), tale.waits(part, note)) == ([], True)


def test_a_spare_is_not_made_the_released_part(points: Twin | App) -> None:
    """The release of one part would have been worn by two."""
    tale = Tale(points, line("10"))
    good = tale.ready(tale.off("10"))
    spare = tale.bring("PN-10", meant_for="10")
    joined = tale.say("part.same_as", good, spare, by="RR")
    tale.fit(spare, "10")
    assert tale.waits(min(good, spare), joined)


def test_what_is_said_to_be_covered_is_the_offices_and_no_release_accepts_it(points: Twin | App) -> None:
    """The shop would have paid for a repair because an inspector released the part."""
    tale = Tale(points, line("10"))
    part = tale.off("10")
    covered = tale.say("finding.noted", part, by="RR", word="scored", cause="wear", covered=True)
    tale.say("disposition.given", part, by="EE", as_="use as is")
    tale.release(part, by="EE")
    tale.fit(part, "10")
    assert tale.open_now() == [f"{ACCEPTED}|{part}|{covered.ref}"]
    tale.accept(part, covered, "EE")
    assert tale.waits(part, covered), "to release is not the right that it needs"
    tale.accept(part, covered, "OO")
    assert tale.open_now() == []


def test_one_coming_off_recorded_by_two_is_joined_by_anybody(points: Twin | App) -> None:
    """Nobody waits for the office because two benches scanned one part."""
    tale = Tale(points, line("10"))
    other = tale.second()
    one, two = tale.off("10"), tale.off("10", on=other)
    tale.carry()
    assert "10|came_out" in tale.stands("two different entries")
    tale.say("part.same_as", one, two, by="RR")
    tale.fit(tale.ready(min(one, two)), "10")
    assert tale.open_now() == []


def test_a_part_that_came_out_of_elsewhere_waits(points: Twin | App) -> None:
    """A hole would have been closed by saying that its part belonged somewhere else."""
    tale = Tale(points, line("10", number="PN-P"), line("20", number="PN-P"))
    part = tale.ready(tale.off("10"))
    note = tale.say("part.noted", part, by="RR", out_of="20")
    assert tale.waits(part, note)
    assert tale.stands("missing") == ["10", "20"], "what was once there was there"


def test_a_set_mark_said_otherwise_waits(points: Twin | App) -> None:
    """Two gears of two sets would have passed for a pair."""
    pair = {"matched_set": "gears", "number": "PN-G"}
    tale = Tale(points, line("10", **pair), line("20", **pair))
    for key, mark in (("10", "I"), ("20", "II")):
        tale.fit(tale.ready(tale.bring("PN-G", meant_for=key, set_mark=mark)), key)
    assert tale.stands("swapped within a matched set") == ["10", "20"]
    last = tale.first.own("J7K3M00012")[-1].ent[0]
    note = tale.say("part.noted", last, by="RR", set_mark="I")
    assert (tale.stands("swapped within a matched set"), tale.waits(last, note)) == ([], True)


# -- what the customer pays ----------------------------------------------------------------------------


def test_a_covered_finding_is_not_accepted_by_a_release(points: Twin | App) -> None:
    """The customer would have had a bill for a bearing that he never ordered, on the word of the test bench."""
    tale = Tale(points, line("10"))
    part = tale.off("10")
    found = tale.say("finding.noted", part, by="RR", word="worn", cause="wear", covered=True)
    tale.ready(part)
    tale.fit(part, "10")
    tale.release(part, by="EE")
    assert tale.open_now() == [f"{ACCEPTED}|{part}|{found.ref}"], "released it is; who pays is not said"
    tale.accept(part, found, "EE")
    assert tale.waits(part, found)
    tale.accept(part, found, "OO")
    assert tale.open_now() == []


@pytest.mark.parametrize(("by", "reference", "waits"), [("EE", "A-1", True), ("OO", " ", True), ("OO", "A-1", False)])
def test_who_says_covered_is_his_own_judge_only_in_the_office(
    points: Twin | App, by: str, reference: str, waits: bool
) -> None:
    """An inspector would have written the order's number beside his own opinion."""
    tale = Tale(points, line("10"))
    part = tale.fit_ready("10")
    found = tale.say("finding.noted", part, by=by, word="worn", cause="wear", covered=True, reference=reference)
    tale.release(part)
    assert tale.waits(part, found) == waits


def test_a_covered_finding_goes_when_the_customer_was_asked(points: Twin | App) -> None:
    """Nobody waits for a yes to a guess when the customer has answered."""
    tale = Tale(points, line("10"))
    part = tale.fit_ready("10")
    found = tale.say("finding.noted", part, by="RR", word="worn", cause="wear", covered=True)
    tale.say("approval.given", found.thing(), by="OO", as_="approved")
    tale.release(part, by="EE")
    assert tale.open_now() == []


def test_what_else_a_release_accepts_it_accepts_beside_a_covered_finding(points: Twin | App) -> None:
    """The number would have waited for the office because the finding does."""
    tale = Tale(points, line("10"))
    part = tale.fit(tale.ready(tale.off("10", part_number="PN-OLD")), "10")
    note = tale.say("part.noted", part, by="RR", part_number="PN-10")
    found = tale.say("finding.noted", part, by="RR", word="worn", cause="wear", covered=True)
    tale.release(part, by="EE")
    assert (tale.waits(part, note), tale.waits(part, found)) == (False, True)
