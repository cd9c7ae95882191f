"""One story for each kind of open point about a place: how it comes about, and what clears it."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Joint
from tests.open_points.story import Story, joint, line
from tests.open_points.tablets import SHOP

SIX = {"text": "6", "unit": "N m"}
"""What the joints of these stories are tightened to."""


def test_a_place_is_missing_until_a_part_is_fitted() -> None:
    """Nothing came off, yet the place wants a part."""
    story = Story(line("10"))
    assert story.open("missing") == ["10"]
    story.fit(story.ready(story.off("10")), "10")
    assert story.points() == []


def test_one_place_that_two_tablets_filled_is_fitted_twice_until_one_part_comes_out() -> None:
    """Neither tablet knew of the other's fitting; whoever looks takes one out."""
    story = Story(line("10"), line("20"))
    one, other = story.off("10"), story.off("20")
    second = story.second()
    story.fit(one, "10")
    story.fit(other, "10", on=second)
    assert story.open("fitted twice") == ["10"]
    assert story.open("missing") == ["20"] and story.open("tagged but unaccounted for") == []
    story.carry()
    story.say("part.taken_out", other, "@10")
    story.fit(one, "10")
    assert story.open("fitted twice") == []
    assert story.open("missing") == ["20"]


def test_a_borrowed_part_belongs_to_another_owner_until_it_is_taken_out() -> None:
    """It runs, but it is not the customer's."""
    story = Story(line("10"))
    own = story.off("10")
    gauge = story.say("part.brought_in", story.first.thing(), origin="borrowed", part_number="PN-10").ent[0]
    story.fit(gauge, "10")
    assert story.open("belongs to another job or owner") == ["10"]
    story.say("part.taken_out", gauge, "@10")
    story.fit(own, "10")
    assert story.open("belongs to another job or owner") == []


def test_a_part_of_another_number_is_a_wrong_component_until_it_is_changed() -> None:
    """The number does not fit the line."""
    story = Story(line("10"), line("20"))
    story.fit(story.off("20", part_number="PN-20"), "10")
    assert story.open("wrong component") == ["10"]
    story.say("part.taken_out", story.first.own("J7K3M00012")[1].ent[0], "@10")
    story.fit(story.off("10", part_number="PN-10"), "10")
    assert story.open("wrong component") == []


def test_matched_parts_put_crosswise_are_swapped_until_a_new_pair_goes_in() -> None:
    """Equal numbers do not help within a set; a complete new one under one mark does."""
    pair = {"matched_set": "gears", "number": "PN-G"}
    story = Story(line("10", **pair), line("20", **pair))
    left, right = story.off("10"), story.off("20")
    story.fit(left, "20")
    story.fit(right, "10")
    assert story.open("swapped within a matched set") == ["10", "20"]
    for part, key in ((left, "20"), (right, "10")):
        story.say("part.taken_out", part, f"@{key}")
    for key in ("10", "20"):
        body = {"origin": "new", "part_number": "PN-G", "meant_for": key, "set_mark": "II"}
        story.fit(story.say("part.brought_in", story.first.thing(), **body).ent[0], key)
    assert story.open("swapped within a matched set") == []


def test_a_cover_fitted_over_an_empty_place_is_open_until_that_is_filled() -> None:
    """The cover closes over the seal."""
    story = Story(line("10"), line("20", fit_after=("10",)))
    seal, cover = story.off("10"), story.off("20")
    story.fit(cover, "20")
    assert story.open("fitted over an empty position") == ["20|10"]
    story.fit(seal, "10")
    assert story.open("fitted over an empty position") == []


def test_one_part_in_two_places_is_one_fault_until_it_comes_out_of_one() -> None:
    """Both tablets fitted it; the places are no holes and the part is not unaccounted for meanwhile."""
    story = Story(line("10"), line("20"))
    part = story.off("10")
    second = story.second()
    story.fit(part, "10")
    story.fit(part, "20", on=second)
    assert story.open("fitted twice") == [part]
    assert story.open("missing") == [] and story.open("tagged but unaccounted for") == []
    story.carry()
    story.say("part.taken_out", part, "@20")
    story.fit(part, "10")
    assert story.open("fitted twice") == [] and story.open("missing") == ["20"]


def test_a_hole_is_told_of_the_nearest_part_over_it_and_once() -> None:
    """The lid lies over the screws, these over the plate; the cover lies over the housing, which never was a unit."""
    screws = line("10.20", "hardware", quantity=Decimal(2), fit_after=("10.10",))
    housing = (line("10", "assembly"), line("10.10"), screws, line("10.30", fit_after=("10.20",)))
    story = Story(*housing, line("20", fit_after=("10",)))
    lid = story.off("10.30")
    story.fit(story.off("20"), "20")
    assert story.open("fitted over an empty position") == ["20|10.10", "20|10.30"]
    story.fit(lid, "10.30")
    assert story.open("fitted over an empty position") == ["10.30|10.10"] and story.open("missing") == []


def test_a_conceded_hole_stays_the_one_point_when_something_is_fitted_over_it() -> None:
    """What was conceded had seen nothing of the lid, but the lid says nothing of the place."""
    story = Story(line("10"), line("20", fit_after=("10",)))
    story.concede("missing|10|")
    story.fit(story.off("20"), "20")
    assert story.conceded("missing") == ["missing|10|"] and story.open("fitted over an empty position") == []


def test_what_came_off_a_place_out_of_scope_brings_it_back_in() -> None:
    """Said not to be received, and yet something came out of it: the place is missing, and says why."""
    story = Story(line("10"))
    story.say("configuration.received", "@10", as_="not received", why="not in the crate")
    assert story.open("missing") == []
    story.off("10")
    assert story.open("missing") == ["10"]
    wrong = next(each.wrong for each in story.points() if each.kind == "missing")
    assert wrong.startswith("10 is said to be not received, but 10 came out of it: it is in scope.")


def test_a_place_left_fitted_is_asked_for_when_its_unit_is_another_one() -> None:
    """The spring stayed in the valve; the valve that is fitted now is not that one."""
    story = Story(line("10", "assembly", number="PN-V"), line("10.10"))
    story.say("configuration.received", "@10.10", as_="left fitted")
    valve = story.off("10")
    story.fit(valve, "10")
    assert story.open("missing") == []
    story.say("part.taken_out", valve, "@10")
    new = story.say("part.brought_in", story.first.thing(), origin="new", part_number="PN-V", meant_for="10").ent[0]
    story.fit(new, "10")
    assert story.open("fitted over an empty position") == ["10|10.10"]
    wrong = next(each.wrong for each in story.points() if each.kind == "fitted over an empty position")
    assert wrong.startswith("10.10 was left fitted in a unit that is gone: ")


def test_hardware_balances_when_all_that_was_found_is_put_in_or_accounted_for() -> None:
    """Five were found, four belong there, one is left over."""
    story = Story(line("10", "hardware", quantity=Decimal(4)))
    story.say("hardware.counted", "@10", found=5)
    story.say("hardware.moved", "@10", put_in=4)
    assert story.open("hardware does not balance") == ["10"]
    story.say("hardware.moved", "@10", left_over=1, why="spare of the last shop")
    assert story.points() == []


def test_a_screw_that_was_not_found_is_named_and_no_new_one_pays_for_it() -> None:
    """Three of four are there: a new one fills the place, and still somebody says what became of the fourth."""
    story = Story(line("10", "hardware", quantity=Decimal(4)))
    story.say("hardware.counted", "@10", found=3)
    story.say("hardware.moved", "@10", put_in=3)
    story.say("hardware.moved", "@10", added=1)
    story.say("hardware.moved", "@10", put_in=1)
    assert story.open("hardware does not balance") == ["10"]
    wrong = next(each.wrong for each in story.points() if each.kind == "hardware does not balance")
    assert wrong == "10: found 3 of 4. Search, and say what became of 1."
    story.say("hardware.moved", "@10", lost=1, search="drip tray")
    assert story.open("hardware does not balance") == []


def test_bags_that_were_counted_together_grow_into_one() -> None:
    """A count of two of three places holds for nothing once all three were in one bag."""
    story = Story(*(line(key, "hardware", quantity=Decimal(2)) for key in ("10", "20", "30")))
    story.say("hardware.counted", "@10", "@20", found=4)
    story.say("hardware.counted", "@20", "@30", found=4)
    for key in ("10", "20", "30"):
        story.say("hardware.moved", f"@{key}", put_in=2)
    assert story.open("hardware does not balance") == ["10"]
    story.say("hardware.counted", "@10", "@20", "@30", found=6)
    assert story.open("hardware does not balance") == []


def test_two_places_counted_as_one_bag_balance_together() -> None:
    """The bag held six for both."""
    story = Story(line("10", "hardware", quantity=Decimal(4)), line("20", "hardware", quantity=Decimal(2)))
    story.say("hardware.counted", "@10", "@20", found=6)
    story.say("hardware.moved", "@10", put_in=4)
    assert story.open("hardware does not balance") == ["10", "20"]
    story.say("hardware.moved", "@20", put_in=2)
    assert story.points() == []


def test_a_joint_is_due_until_torqued_and_again_when_what_it_holds_was_out() -> None:
    """Torque given before the last fitting counts no more."""
    story = Story(line("10"), line("20", "hardware", quantity=Decimal(2), joint=joint("10")))
    part = story.fit(story.off("10"), "10")
    story.say("hardware.moved", "@20", put_in=2)
    assert story.open("joint not torqued or due again") == ["20"]
    story.say("joint.torqued", "@20", pass_="100", screws=2, torque=SIX)
    assert story.open("joint not torqued or due again") == []
    story.say("part.taken_out", part, "@10")
    story.fit(part, "10")
    assert story.open("joint not torqued or due again") == ["20"]
    story.say("joint.torqued", "@20", pass_="100", screws=2, torque=SIX)
    assert story.open("joint not torqued or due again") == []


@pytest.mark.parametrize(
    ("text", "counts"), [("5.4", True), ("5.39", False), ("6.6", True), ("6.61", False), ("0.0066 kN m", False)]
)
def test_a_torque_counts_within_its_tolerance_ends_included(text: str, counts: bool) -> None:
    """10 % of 6 N m where the bill says nothing (docs/formats/open-points.md, 4): 5.4 to 6.6 N m."""
    story = Story(line("10", "hardware", quantity=Decimal(1), joint=joint()))
    number, _, unit = text.partition(" ")
    story.say("joint.torqued", "@10", pass_="100", screws=1, torque={"text": number, "unit": unit or "N m"})
    assert (story.open("joint not torqued or due again") == []) == counts


def test_a_first_pass_by_hand_counts_the_last_does_not() -> None:
    """Neither value nor wrench: enough before the last pass only."""
    two = Joint("M6", torque_nm=Decimal(6), passes=(Decimal(50), Decimal(100)))
    story = Story(line("10", "hardware", quantity=Decimal(1), joint=two))
    story.say("joint.torqued", "@10", pass_="50", screws=1)
    assert _due(story) == "10: torque due: 100 %."
    story.say("joint.torqued", "@10", pass_="100", screws=1)
    assert _due(story) == "10, pass 100 %: no value; 6 N m ± 10 % is asked."
    story.say("joint.torqued", "@10", pass_="100", screws=1, torque=SIX)
    assert _due(story) == ""


def test_a_last_pass_needs_a_wrench_of_the_register_in_date() -> None:
    """As far as the author had seen the register: one bought later lapses nothing."""
    story = Story(line("10", "hardware", quantity=Decimal(1), joint=joint()))
    wrench = {"number": "M7K3M0001A", "name": "wrench", "reads": "torque", "due": "2026-01-03"}
    given = ("instrument.given", ("instrument:M7K3M0001A",))
    story.first.write("AA", *given, wrench, journal=SHOP)
    story.say("joint.torqued", "@10", pass_="100", screws=1, torque=SIX)
    assert _due(story) == "10, pass 100 %: no wrench is not one of the shop's wrenches in use."
    story.say("joint.torqued", "@10", pass_="100", screws=1, torque=SIX, instrument="M7K3M0001A")
    assert _due(story) == "10, pass 100 %: wrench M7K3M0001A was due on 3 January."
    story.first.write("AA", *given, {**wrench, "due": "2027-01-03"}, journal=SHOP)
    story.say("joint.torqued", "@10", pass_="100", screws=1, torque=SIX, instrument="M7K3M0001A")
    assert _due(story) == ""


def _due(story: Story) -> str:
    """What the point of the only joint says; empty where there is none."""
    return next((each.wrong for each in story.points() if each.kind.startswith("joint")), "")


def test_a_renewal_names_what_the_bill_has_written_down() -> None:
    """Lot and serial, where the line asks for them."""
    story = Story(line("10", "consumable", write_down=("lot", "serial")))
    story.say("consumable.renewed", "@10", as_="renewed", lot="A")
    assert [each.wrong for each in story.points()] == ["10: renewed without serial."]
    story.say("consumable.renewed", "@10", as_="renewed", lot="A", serial="7")
    assert story.points() == []


def test_an_opened_joint_opens_the_seal_beneath_its_lid() -> None:
    """The seal lies under the lid, the screws hold the lid: opening them reaches it, though nothing came off."""
    screws = line("30", "hardware", quantity=Decimal(1), fit_after=("20",))
    story = Story(line("10", "consumable"), line("20", fit_after=("10",)), screws)
    story.say("consumable.renewed", "@10", as_="renewed")
    assert story.open("consumable not renewed or expired") == []
    story.say("hardware.moved", "@30", put_in=-1)
    assert story.open("consumable not renewed or expired") == []
    held = line("30", "hardware", quantity=Decimal(1), joint=joint("10"))
    story = Story(line("10", "consumable"), line("20", fit_after=("10",)), held)
    story.say("consumable.renewed", "@10", as_="renewed")
    story.say("joint.opened", "@30")
    assert story.open("consumable not renewed or expired") == ["10"]


def test_no_word_takes_away_that_a_bracket_comes_out_for_running() -> None:
    """Words do not reach what is in for a time."""
    story = Story(line("10", "assembly"), line("10.10", "temporary"))
    story.say("configuration.received", "@10", as_="not on this tool")
    assert story.open("temporary in or out wrongly") == ["10.10|running", "10.10|shipping"]


def test_a_seal_is_due_until_renewed_and_again_when_it_was_opened() -> None:
    """An expired lot does not count, nor one that was in before the last opening."""
    story = Story(line("10"), line("20", "consumable", fit_after=("10",)))
    assert story.open("consumable not renewed or expired") == ["20"]
    story.say("consumable.renewed", "@20", as_="renewed", lot="A", expiry="2026-01-31")
    assert story.open("consumable not renewed or expired") == ["20"]
    story.say("consumable.renewed", "@20", as_="renewed", lot="B", expiry="2027-01-31")
    assert story.open("consumable not renewed or expired") == []
    story.off("10")
    assert story.open("consumable not renewed or expired") == ["20"]
    story.say("consumable.renewed", "@20", as_="renewed", lot="B", expiry="2027-01-31")
    assert story.open("consumable not renewed or expired") == []


def test_a_shipping_bracket_comes_out_for_running_and_goes_back_for_shipping() -> None:
    """Said to be nowhere it is wrong for both; in again only after it was out."""
    story = Story(line("10", "temporary", ships="in"))
    assert story.open("temporary in or out wrongly") == ["10|running", "10|shipping"]
    story.say("temporary.in", "@10")
    assert story.open("temporary in or out wrongly") == ["10|running"]
    story.say("temporary.out", "@10")
    assert story.open("temporary in or out wrongly") == ["10|shipping"]
    story.say("temporary.in", "@10")
    assert story.points() == []


def test_a_bypass_added_on_the_job_is_wrong_until_it_is_out() -> None:
    """And no signature concedes it for running."""
    story = Story(line("10", "hardware"))
    hose = story.say("temporary.in", story.first.thing(), what="bypass hose").ent[0]
    assert story.open("temporary in or out wrongly") == [f"{hose}|running", f"{hose}|shipping"]
    story.concede(f"temporary in or out wrongly|{hose}|running")
    assert f"{hose}|running" in story.open("temporary in or out wrongly")
    story.say("temporary.out", hose)
    assert story.open("temporary in or out wrongly") == []
