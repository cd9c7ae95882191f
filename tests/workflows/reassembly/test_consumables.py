"""Consumables: renewed in date and with their lot, kept only where they may be, due again after opening."""

from __future__ import annotations

import pytest

from tests.workflows.reassembly.bench import MORNING, Bench

KIND = "consumable not renewed or expired"


@pytest.fixture(autouse=True)
def the_bowl_stays_in(bench: Bench) -> None:
    """The seal goes in over the bowl."""
    bench.do("job received PO-7781 10.20 --as 'left fitted' --why x --by MK")


def test_a_seal_is_renewed_with_its_lot_and_due_again_after_opening(bench: Bench) -> None:
    bench.do("consumable renew PO-7781 10.40 --lot L1 --expiry 2027-03-31 --old scrapped --by AS")
    assert "10.40" not in bench.points(KIND)
    bench.off("10.50")
    assert "10.40" in bench.points(KIND)
    bench.do("consumable renew PO-7781 10.40 --lot L2 --by AS")
    assert "10.40" not in bench.points(KIND)
    body = bench.ask("job log PO-7781 --position 10.40 --last 2")[0]["body"]
    assert body == {"as": "renewed", "lot": "L1", "expiry": "2027-03-31", "old": "scrapped"}


def test_a_lot_that_has_to_be_written_down_is_asked_for(bench: Bench) -> None:
    said = bench.refused("consumable renew PO-7781 10.40 --by AS")
    assert "lot of seal, lip 10.40 has to be written down" in said
    bench.do("consumable renew PO-7781 10.60 --by AS")


def test_an_expired_lot_is_refused_and_its_last_day_still_good(bench: Bench) -> None:
    said = bench.refused("consumable renew PO-7781 10.40 --lot L1 --expiry 2026-03-13 --by AS")
    assert "Lot L1 expired on 2026-03-13" in said and "another lot" in said
    bench.do("consumable renew PO-7781 10.40 --lot L1 --expiry 2026-03-14 --by AS")
    assert "10.40" not in bench.points(KIND)
    assert "is no day" in bench.refused("consumable renew PO-7781 10.40 --lot L1 --expiry 03/2027 --by AS")


def test_a_clock_that_cannot_be_trusted_passes_no_expiry(bench: Bench) -> None:
    bench.clock(f"{MORNING};1000000")
    bench.do("consumable renew PO-7781 10.60 --by AS")
    bench.clock("2026-03-20T08:00:00+01:00;1000060")
    said = bench.refused("consumable renew PO-7781 10.40 --lot L1 --expiry 2027-03-31 --by AS")
    assert "clock cannot be trusted" in said and "another tablet" in said
    bench.do("consumable renew PO-7781 10.40 --lot L1 --by AS")


def test_a_part_number_that_does_not_fit_is_refused(bench: Bench) -> None:
    said = bench.refused("consumable renew PO-7781 10.40 --lot L1 --part-number F-1060 --by AS")
    assert "F-1060 does not fit seal, lip 10.40; it takes S-1040 or S-1041" in said
    bench.do("consumable renew PO-7781 10.40 --lot L1 --part-number S-1041 --by AS")


def test_only_what_is_renewed_on_condition_is_kept(bench: Bench) -> None:
    said = bench.refused("consumable keep PO-7781 10.40 --by AS")
    assert "seal, lip 10.40 is renewed always, not on condition" in said
    bench.do("consumable keep PO-7781 10.60 --by AS")
    assert "10.60" not in bench.points(KIND)


def test_a_seal_under_a_fitted_cover_is_not_reached(bench: Bench) -> None:
    (part,) = bench.off("10.50")
    bench.write("part.fitted", part, "@10.50")
    assert "closed over by cover 10.50" in bench.refused("consumable renew PO-7781 10.40 --lot L1 --by AS")


def test_several_places_of_one_lot_are_one_record_or_none(bench: Bench) -> None:
    before = bench.records()
    bench.do("consumable renew PO-7781 10.40 10.60 --lot L1 --by AS")
    assert bench.records() == before + 1
    assert "pin 10.35 is for a part" in bench.refused("consumable renew PO-7781 10.40 10.35 --lot L1 --by AS")
