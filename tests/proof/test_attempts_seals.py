"""Attempts on seals, joints, and words of the bill. Each story says what a shop would have suffered."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Bill, Check, Component
from tests.open_points.story import line
from tests.open_points.tablets import SHOP
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale, screws

SEAL = "consumable not renewed or expired"
TORQUE = "joint not torqued or due again"
WRENCH = "M7K3M0003E"


def flange(points: Twin | App, rule: str = "") -> Tale:
    """A ring beneath a lid that one screw holds; everything is in, the ring is new."""
    ring = line("20", "consumable", fit_after=("10",), renew=rule)
    tale = Tale(points, line("10"), ring, line("30", fit_after=("20",)), screws("40", 1, torque=6, holds=("30",)))
    tale.fit_ready("10")
    lid = tale.off("30")
    tale.say("consumable.renewed", "@20", by="RR", as_="renewed")
    tale.fit(tale.ready(lid), "30")
    tale.screw_in("40", 1)
    tale.tighten("40")
    return tale


def lid_of(tale: Tale) -> str:
    """The lid's name."""
    return next(each.ent[0] for each in tale.records("J7K3M00012") if each.body.get("out_of") == "30")


# -- seals ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("rule", ["", "always", "if opened", "on condition"])
def test_a_ring_that_was_under_an_opened_lid_is_due(points: Twin | App, rule: str) -> None:
    """A squeezed ring would have been closed up a second time."""
    tale = flange(points, rule)
    assert tale.open_now() == []
    tale.out(lid_of(tale), "30", by="RR")
    tale.fit(lid_of(tale), "30")
    assert tale.stands(SEAL) == ["20"]


def test_a_screw_that_was_out_opens_what_is_beneath_its_lid(points: Twin | App) -> None:
    """The lid would have been lifted without being said to come off."""
    tale = Tale(points, line("10"), line("20", "consumable", fit_after=("10",)), screws("40", 1, fit_after=("20",)))
    tale.fit_ready("10")
    tale.say("consumable.renewed", "@20", by="RR", as_="renewed")
    tale.screw_in("40", 1)
    assert tale.open_now() == []
    tale.say("hardware.moved", "@40", by="RR", put_in=-1)
    tale.say("hardware.moved", "@40", by="RR", put_in=1)
    assert tale.stands(SEAL) == ["20"]


def test_an_opening_taken_back_leaves_the_ring_due(points: Twin | App) -> None:
    """The ring would have been new again because nobody opened anything."""
    tale = flange(points)
    taken = tale.out(lid_of(tale), "30", by="RR")
    back = tale.take_back(taken, by="RR")
    assert tale.stands(SEAL) == ["20"]
    assert tale.waits("30", back)


def test_a_ring_that_was_kept_is_only_kept_on_condition(points: Twin | App) -> None:
    """An old ring would have been looked at and left in."""
    for rule, due in (("", ["20"]), ("if opened", ["20"]), ("on condition", [])):
        tale = flange(points, rule)
        tale.out(lid_of(tale), "30")
        tale.say("consumable.renewed", "@20", by="RR", as_="kept")
        assert tale.stands(SEAL) == due, rule


def test_a_ring_renewed_under_the_lid_is_renewed(points: Twin | App) -> None:
    """Nobody takes a lid off twice because he wrote the ring down late."""
    tale = flange(points)
    tale.out(lid_of(tale), "30")
    tale.say("consumable.renewed", "@20", by="RR", as_="renewed")
    tale.fit(lid_of(tale), "30")
    assert tale.stands(SEAL) == []
    assert tale.stands(TORQUE) == ["40"]


OTHER = {"lot": "A", "part_number": "PN-X"}
"""A part number that the bill does not know, so that it has no shelf life."""


@pytest.mark.parametrize("said", ["31.12.2020", "never", "Dec 2020", "5/2020", "2031-02-30", ""])
def test_an_expiry_is_a_day(points: Twin | App, said: str) -> None:
    """A ring of 2020 would have been closed up, its true date in the record, because nobody could compare it."""
    tale = Tale(points, line("10", "consumable"))
    renewed = tale.say("consumable.renewed", "@10", by="RR", as_="renewed", expiry=said)
    assert tale.open_now() == [f"{SEAL}|10|", f"record kept that does not fit|job|{renewed.ref}"]
    tale.take_back(renewed, by="RR")
    tale.say("consumable.renewed", "@10", by="RR", as_="renewed", expiry="2031-06-30")
    assert tale.open_now() == []


def test_an_old_ring_has_an_expiry(points: Twin | App) -> None:
    """A ring ten years in its bag would have sealed a vacuum."""
    tale = Tale(points, line("10", "consumable", number="PN-O", write_down=("lot",)))
    aging = {"PN-O": Component("PN-O", shelf_life_days=365)}
    tale.bill = Bill("TRIAL", "A", lines=tale.bill.lines, components=aging)
    for said in ({}, {"lot": "A"}, {"expiry": "2027-01-01"}, {"lot": "A", "expiry": "2026-01-31"}, OTHER):
        tale.say("consumable.renewed", "@10", by="RR", as_="renewed", **said)
        assert tale.stands(SEAL) == ["10"], said
    tale.say("consumable.renewed", "@10", by="RR", as_="renewed", lot="A", expiry="2027-01-01")
    assert tale.open_now() == []


# -- torque --------------------------------------------------------------------------------------------


def lid(points: Twin | App, **more: object) -> Tale:
    """A lid held by two screws that wait for their torque, 6 N m; the shop has one wrench, in date, up to 10 N m."""
    tale = Tale(points, line("10"), screws("20", 2, torque=6, holds=("10",), **more))
    wrench(tale, due="2026-12-31")
    tale.fit_ready("10")
    tale.screw_in("20", 2)
    return tale


def wrench(tale: Tale, **more: str) -> None:
    """What the shop has written of its wrench."""
    body = {"number": WRENCH, "reads": "torque wrench", "unit": "N m", "low": "2", "high": "10", **more}
    tale.first.write("OO", "instrument.given", (f"instrument:{WRENCH}",), body, journal=SHOP)


@pytest.mark.parametrize(
    "said",
    [
        {"value": "5.3", "instrument": WRENCH},  # below 6 less 10 percent, the tolerance where the bill names none
        {"value": "6.7", "instrument": WRENCH},  # above 6 and 10 percent
        {"value": "6"},  # the shop has a wrench and none is named
        {"value": "6", "instrument": "M7K3M0004G"},  # not one of the shop's wrenches
    ],
)
def test_a_torque_that_nobody_can_prove_does_not_count(points: Twin | App, said: dict[str, str]) -> None:
    """The lid would have lifted at pressure."""
    tale = lid(points)
    tale.tighten("20", said["value"], count=2, **{name: each for name, each in said.items() if name != "value"})
    assert tale.open_now() == ["joint not torqued or due again|20|"]


def test_a_wrench_out_of_date_or_out_of_its_range_does_not_count(points: Twin | App) -> None:
    """Nobody would have known what the wrench really gave."""
    for more in ({"due": "2026-03-01"}, {"high": "5", "due": "2026-12-31"}, {"low": "7", "due": "2026-12-31"}):
        tale = lid(points)
        wrench(tale, **more)
        tale.tighten("20", count=2, instrument=WRENCH)
        assert tale.stands(TORQUE) == ["20"], more


def test_half_of_the_screws_do_not_hold_a_lid(points: Twin | App) -> None:
    """The other half would have been hand-tight."""
    tale = lid(points)
    tale.tighten("20", count=1, instrument=WRENCH)
    assert tale.stands(TORQUE) == ["20"]
    tale.tighten("20", count=1, instrument=WRENCH)
    assert tale.open_now() == []


def test_the_last_pass_is_not_by_hand(points: Twin | App) -> None:
    """A lid would have been run on a feeling in the wrist; the first pass may be one."""
    tale = lid(points, passes=(50, 100))
    for name in ("50", "100"):
        tale.say("joint.torqued", "@20", by="RR", screws=2, **{"pass": name})
    assert tale.stands(TORQUE) == ["20"]
    tale.tighten("20", count=2, instrument=WRENCH)
    assert tale.open_now() == []


def test_a_shop_without_wrenches_and_the_ends_of_the_tolerance(points: Twin | App) -> None:
    """Who owns no register is not stuck: the value alone counts, ends included (6 N m less and plus 10 percent)."""
    for value in ("5.4", "6.6"):
        tale = Tale(points, screws("20", 1, torque=Decimal(6)))
        tale.screw_in("20", 1)
        tale.tighten("20", value)
        assert tale.open_now() == []


# -- words of the bill ---------------------------------------------------------------------------------


def test_a_reading_of_a_seal_is_asked_where_it_lies(points: Twin | App) -> None:
    """A bearing's grease would have been looked at by nobody, as no part of that name ever comes."""
    look = Check("look", when=("finished",))
    tale = Tale(points, line("10", "consumable", checks=("look",)), checks=(look,))
    assert tale.stands("check due") == ["10|check/look//finished"]
    tale.say("consumable.renewed", "@10", by="RR", as_="renewed")
    tale.read("@10", "look", "accept", when="finished")
    assert tale.open_now() == []


def test_an_assembly_with_a_route_goes_in_as_one(points: Twin | App) -> None:
    """A unit would have counted as there because its one visible part was."""
    tale = Tale(points, line("10", "assembly", routes=("wash",)), line("10.10"))
    tale.fit_ready("10.10")
    assert tale.open_now() == ["missing|10|"]


def test_a_new_part_is_asked_what_protects_people(points: Twin | App) -> None:
    """A new heater would have been closed up unmeasured because it was new."""
    earth = Check("earth", type="bonding", when=("finished",))
    tale = Tale(points, line("10", checks=("earth",)), checks=(earth,))
    part = tale.fit(tale.ready(tale.bring("PN-10", meant_for="10")), "10")
    assert tale.open_now() == [f"check due|{part}|check/earth//finished"]


def test_a_bore_is_read_with_the_gauge_that_the_shop_has(points: Twin | App) -> None:
    """A bore would have been good by a ruler."""
    bore = Check("bore", when=("finished",), instrument="bore gauge")
    tale = Tale(points, line("10", checks=("bore",)), checks=(bore,))
    part = tale.off("10")
    gauge = {"number": "M7K3M0001A", "reads": "bore gauge 18-35"}
    tale.first.write("OO", "instrument.given", ("instrument:M7K3M0001A",), gauge, journal=SHOP)
    tale.read(part, "bore", "accept", when="finished")
    assert tale.stands("check due") == [f"{part}|check/bore//finished"]
    tale.read(part, "bore", "accept", when="finished", instrument="M7K3M0001A")
    assert tale.stands("check due") == []
