"""One story for each kind of open point about a place: how it comes about, and what clears it."""

from __future__ import annotations

from decimal import Decimal

from tests.open_points.story import Story, joint, line


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
    assert story.open("fitted twice") == [f"10|{one}", f"10|{other}"]
    assert "10" in story.open("missing")
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


def test_a_part_from_a_place_out_of_scope_is_outside_until_the_scope_is_corrected() -> None:
    """Said not to be received, and yet something came out of it."""
    story = Story(line("10"))
    story.say("configuration.received", "@10", as_="not received", why="not in the crate")
    part = story.off("10")
    assert story.open("outside the scope") == [f"10|{part}"]
    story.say("configuration.received", "@10", as_="received complete")
    assert story.open("outside the scope") == []


def test_hardware_balances_when_all_that_was_found_is_put_in_or_accounted_for() -> None:
    """Five were found, four belong there, one is left over."""
    story = Story(line("10", "hardware", quantity=Decimal(4)))
    story.say("hardware.counted", "@10", found=5)
    story.say("hardware.moved", "@10", put_in=4)
    assert story.open("hardware does not balance") == ["10"]
    story.say("hardware.moved", "@10", left_over=1)
    assert story.points() == []


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
    story.say("joint.torqued", "@20", pass_="100", screws=2)
    assert story.open("joint not torqued or due again") == []
    story.say("part.taken_out", part, "@10")
    story.fit(part, "10")
    assert story.open("joint not torqued or due again") == ["20"]
    story.say("joint.torqued", "@20", pass_="100", screws=2)
    assert story.open("joint not torqued or due again") == []


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
