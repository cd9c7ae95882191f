"""Counted hardware: nothing more in than belongs there or than was found, and the balance after."""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Bill, Joint, Line
from tests.workflows.reassembly.bench import Bench

KIND = "hardware does not balance"


def counted(bench: Bench, found: int, *keys: str) -> None:
    """Counts a bag."""
    bench.write("hardware.counted", *(f"@{key}" for key in keys), found=found)


def test_screws_found_and_put_in_balance(bench: Bench) -> None:
    counted(bench, 8, "10.90")
    assert "10.90" in bench.points(KIND)
    said = bench.do("hardware move PO-7781 10.90 --put-in --by AS")
    assert "screw, cap 10.90: 8 of 8 in, the bag is empty" in said
    assert "10.90" not in bench.points(KIND)
    bench.do("hardware move PO-7781 10.90 --taken-out 1 --by AS")
    assert "10.90" in bench.points(KIND)


def test_a_screw_short_is_taken_new(bench: Bench) -> None:
    counted(bench, 7, "10.90")
    said = bench.refused("hardware move PO-7781 10.90 --put-in --by AS")
    assert "7 are in the bag, 8 cannot come out of it" in said and "taken new" in said
    bench.do("hardware move PO-7781 10.90 --added 1 --put-in --by AS")
    assert "10.90" in bench.points(KIND), "what is added never pays for what was not found"
    assert "was searched for" in bench.refused("hardware move PO-7781 10.90 --found-short 1 --by AS")
    bench.do("hardware move PO-7781 10.90 --found-short 1 --search 'drip tray' --by AS")
    assert "10.90" not in bench.points(KIND) and bench.points("to be accepted") == ["10.90"]


def test_a_screw_over_is_left_over_with_its_reason(bench: Bench) -> None:
    counted(bench, 9, "10.90")
    said = bench.do("hardware move PO-7781 10.90 --put-in 8 --by AS")
    assert "1 still in the bag" in said and "10.90" in bench.points(KIND)
    assert "needs its reason" in bench.refused("hardware move PO-7781 10.90 --left-over 1 --by AS")
    bench.do("hardware move PO-7781 10.90 --left-over 1 --why 'was behind the plate' --by AS")
    assert "10.90" not in bench.points(KIND)


def test_a_place_takes_no_more_than_belong_there(bench: Bench) -> None:
    counted(bench, 12, "10.90")
    assert "takes 8: 0 are in, 9 more are too many" in bench.refused("hardware move PO-7781 10.90 --put-in 9 --by AS")
    bench.do("hardware move PO-7781 10.90 --put-in 8 --by AS")
    assert "all 8 are in" in bench.refused("hardware move PO-7781 10.90 --put-in --by AS")
    assert "8 are in, 9 cannot come out" in bench.refused("hardware move PO-7781 10.90 --taken-out 9 --by AS")


@pytest.mark.parametrize("number", ["0", "-2", "many"])
def test_what_is_no_count_is_refused(bench: Bench, number: str) -> None:
    counted(bench, 8, "10.90")
    assert "is no count" in bench.refused(f"hardware move PO-7781 10.90 --put-in={number} --by AS")
    assert "is no count" in bench.refused(f"hardware move PO-7781 10.90 --added={number} --by AS")


def test_a_bag_of_several_places_is_emptied_once(bench: Bench) -> None:
    counted(bench, 9, "10.90", "10.91")
    said = bench.refused("hardware move PO-7781 10.90 10.91 --put-in --by AS")
    assert "screw, cap 10.91: 1 are in the bag, 2 cannot come out of it" in said
    said = bench.do("hardware move PO-7781 10.90 10.91 --added 1 --put-in --by AS")
    assert "1 still in the shared bag" in said
    bench.do("hardware move PO-7781 10.91 --scrapped 1 --why 'thread torn' --by AS")
    bench.do("hardware move PO-7781 10.91 --found-short 1 --search 'sump' --reference 'look of 3 March' --by OF")
    assert not {"10.90", "10.91"} & set(bench.points(KIND))


def test_only_hardware_in_scope_is_moved(bench: Bench) -> None:
    assert "bowl 10.20 is for a part" in bench.refused("hardware move PO-7781 10.20 --put-in --by AS")
    bench.do("job received PO-7781 20/2 --as 'not received' --why x --by MK")
    assert "20/2.90 is said to be not received" in bench.refused(
        "hardware move PO-7781 20/2.90 --added 4 --put-in --by AS"
    )
    assert "Nothing is moved" in bench.refused("hardware move PO-7781 10.90 --by AS")


LID = Bill(
    "LID",
    "A",
    lines=(
        Line("10", "", 1, "A-10", "lid"),
        Line("20", "", 2, "H-M4", "washer", Decimal(2), kind="hardware", joint=Joint("M4", holds=("10",))),
    ),
)
"""Two washers beneath a lid, of which no torque is asked."""


def test_washers_of_a_lid_that_came_out_and_went_back_are_put_in_again(bench: Bench) -> None:
    """The next step says so, its act is not refused, and the sentence names how many."""
    bench.job(LID, order="PO-9")
    (lid,) = bench.off("10", order="PO-9")
    bench.write("disposition.given", lid, order="PO-9", **{"as": "use as is"})
    bench.do("hardware count PO-9 20 --found 2 --by MK")
    bench.do("part release PO-9 10 --by OF")
    bench.do("part fit PO-9 10 --by AS")
    bench.do("hardware move PO-9 20 --put-in --by AS")
    assert [one["kind"] for one in bench.ask_points("PO-9")] == []
    bench.do("part out PO-9 10 --why 'look again' --by AS")
    bench.do("part fit PO-9 10 --by AS")
    (point,) = bench.ask_points("PO-9")
    assert (point["kind"], point["position"]) == (KIND, "20")
    assert "2 still to put in, opened since." in point["wrong"]
    next_one = bench.ask("job next PO-9")
    assert (next_one["act"], next_one["about"], next_one["fields"]) == ("hardware move", "20", {"put_in": "2"})
    bench.do("hardware move PO-9 20 --put-in 2 --by AS")
    assert bench.ask_points("PO-9") == []
