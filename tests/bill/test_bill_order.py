"""What closes over what, what fits, matched sets, options: asked of bills as read."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from teardown_app.domain.bill.bill import Bill, Line
from tests.bill.written import faults, good, lines, read, told

HEAD = "position,part_number,quantity,fit_after"
SETS = "position,part_number,quantity,matched_set,interchange_group,option"


def test_fit_after_is_what_a_line_closes_over(tmp_path: Path) -> None:
    bill = good(tmp_path, lines("10,BOWL,1,", "20,GASKET,1,10", "30,DOOR,1,10;20", head=HEAD))
    assert bill.closes_over("30") == ("10", "20")
    assert bill.closed_by("10") == ("20", "30")
    assert bill.closes_over("10") == ()


def test_between_lines_with_several_instances_the_nearest_common_assembly_counts(tmp_path: Path) -> None:
    rows = lines("10,PUMP,2,", "10.10,SEAT,3,", "10.20,COVER,1,10.10", "20,HOOD,1,10.20", "30,FOOT,2,", head=HEAD)
    bill = good(tmp_path, rows)
    assert bill.closes_over("10/2.20") == ("10/2.10/1", "10/2.10/2", "10/2.10/3")
    assert bill.closed_by("10/1.10/2") == ("10/1.20",)
    assert bill.closes_over("20") == ("10/1.20", "10/2.20")
    assert bill.closed_by("10/2.20") == ("20",)


def test_the_nearest_common_assembly_may_lie_levels_above(tmp_path: Path) -> None:
    rows = lines(
        "10,UNIT,2,",
        "10.10,LEFT,1,",
        "10.10.5,VALVE,2,",
        "10.20,RIGHT,1,",
        "10.20.5,PANEL,1,10.10.5",
        head=HEAD,
    )
    bill = good(tmp_path, rows)
    assert bill.closes_over("10/1.20.5") == ("10/1.10.5/1", "10/1.10.5/2")


@pytest.mark.parametrize("target", ["99", "10.99", "10/1", "P1", "10.1"])
def test_fit_after_that_names_no_line(tmp_path: Path, target: str) -> None:
    assert faults(tmp_path, lines("10,P1,2,", f"20,B,1,{target}", head=HEAD)) == [(3, "fit_after")]


def test_fit_after_that_names_itself_or_what_is_above_or_below(tmp_path: Path) -> None:
    rows = lines(
        "10,A,1,10",
        "10.10,B,1,10",
        "10.10.5,C,1,10",
        "20,D,1,20.10.5",
        "20.10,E,1,",
        "20.10.5,F,1,",
        head=HEAD,
    )
    assert faults(tmp_path, rows) == [(2, "fit_after"), (3, "fit_after"), (4, "fit_after"), (5, "fit_after")]


def test_positions_that_only_begin_alike_are_not_above_each_other(tmp_path: Path) -> None:
    assert faults(tmp_path, lines("10,A,1,", "100,B,1,10", "1,C,1,10", head=HEAD)) == []


def test_a_circle_stands_at_its_last_row_and_is_spelled_out(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,A,1,30", "20,B,1,10", "30,C,1,20", "40,D,1,10", head=HEAD))
    assert told(reading) == [("bill.csv", 4, "fit_after")]
    assert all(step in reading.faults[0].message for step in ("10", "20", "30", "circle"))
    assert "40" not in reading.faults[0].message


def test_every_circle_is_told(tmp_path: Path) -> None:
    rows = lines("10,A,1,20", "20,B,1,10", "30,C,1,40", "40,D,1,30", "50,E,1,10;60", "60,F,1,50", head=HEAD)
    assert faults(tmp_path, rows) == [(3, "fit_after"), (5, "fit_after"), (7, "fit_after")]


def test_a_circle_through_the_tree(tmp_path: Path) -> None:
    # An assembly is in its place after all that is beneath it.
    rows = lines("10,A,1,", "10.5,B,1,20", "20,C,1,", "20.5,D,1,10", head=HEAD)
    assert faults(tmp_path, rows) == [(5, "fit_after")]


def test_a_circle_stands_at_a_cell_that_is_part_of_it(tmp_path: Path) -> None:
    # 20 has an order of its own, in a later row, that is no part of the circle.
    rows = lines("10,A,1,", "10.5,B,1,20", "20.5,D,1,10", "30,E,1,", "20,C,1,30", head=HEAD)
    assert faults(tmp_path, rows) == [(4, "fit_after")]


def test_order_across_assemblies_without_a_circle(tmp_path: Path) -> None:
    rows = lines("10,A,1,", "10.5,B,1,20.5", "10.6,X,1,10.5", "20,C,1,", "20.5,D,1,", "20.6,E,1,10", head=HEAD)
    assert faults(tmp_path, rows) == []


def test_supersession_is_followed_to_the_end(tmp_path: Path) -> None:
    # From memory (worked case of an indented list): P1 by P2 by P3 resolves P1 to P3.
    rows = lines("10,P1,1", "20,OTHER,1")
    bill = good(tmp_path, rows, components="part_number,superseded_by\nP1,P2\nP2,P3\n")
    assert [bill.fits("10", number) for number in ("P1", "P2", "P3", "OTHER")] == [True, True, True, False]


def test_what_fits(tmp_path: Path) -> None:
    rows = lines("10,A,1,,g1,", "20,B,1,,g1,", "30,C,1,,,", head=SETS)
    bill = good(
        tmp_path,
        rows,
        components="part_number,alternates,superseded_by\nA,A-ALT;A-ALT2,\nA-ALT,,A-ALT-NEW\nB,B-ALT,B-NEW\n",
    )
    assert {
        number
        for number in ("A", "A-ALT", "A-ALT2", "A-ALT-NEW", "B", "B-ALT", "B-NEW", "C")
        if bill.fits("10", number)
    } == {
        "A",
        "A-ALT",
        "A-ALT2",
        "A-ALT-NEW",
        "B",
    }
    assert not bill.fits("30", "A")
    assert not bill.fits("30", "")


def test_alternates_go_one_way(tmp_path: Path) -> None:
    bill = good(tmp_path, lines("10,A,1", "20,B,1"), components="part_number,alternates\nA,B\n")
    assert bill.fits("10", "B")
    assert not bill.fits("20", "A")


@pytest.mark.parametrize("chain", [("P1,P1",), ("P1,P2", "P2,P1"), ("P1,P2", "P2,P3", "P3,P1")])
def test_supersession_in_a_circle(tmp_path: Path, chain: tuple[str, ...]) -> None:
    reading = read(tmp_path, lines("10,P1,1"), components="\n".join(("part_number,superseded_by", *chain)))
    assert told(reading) == [("components.csv", 1 + len(chain), "superseded_by")]
    assert "P1" in reading.faults[0].message


def test_one_part_number_follows_another(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,P1,1"), components="part_number,superseded_by\nP1,P2;P3\n")
    assert told(reading) == [("components.csv", 2, "superseded_by")]


def test_facts_about_a_part_number_stand_once(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,P1,1"), components="part_number,lead_days\nP1,3\nP1,4\n,5\n")
    assert told(reading) == [("components.csv", 3, "part_number"), ("components.csv", 4, "part_number")]


def test_facts_about_a_component(tmp_path: Path) -> None:
    text = "P/N;Haltbarkeit;Lieferzeit;MPN\nP1;365;14;x 12\n"
    rows = lines("10,P1,1,consumable", head="position,part_number,quantity,kind")
    component = good(tmp_path, rows, components=text).components["P1"]
    assert (component.shelf_life_days, component.lead_days, component.maker_number) == (365, 14, "x 12")


def test_days_are_whole(tmp_path: Path) -> None:
    text = "part_number,shelf_life_days,lead_days\nP1,two years,1.5\n"
    assert told(read(tmp_path, lines("10,P1,1"), components=text)) == [
        ("components.csv", 2, "shelf_life_days"),
        ("components.csv", 2, "lead_days"),
    ]


def test_alternates_that_are_no_line_are_a_note(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,A,1"), components="part_number,alternates\nA,Z\n")
    assert reading.faults == []
    assert [(note.file, note.row, note.column) for note in reading.notes] == [("components.csv", 2, "alternates")]


def test_a_matched_set_holds_within_one_instance_of_the_parent(tmp_path: Path) -> None:
    rows = lines("10,A,2,,,", "10.10,B,1,pair,,", "10.20,C,2,pair,,", "10.30,D,1,,,", "20,E,1,pair,,", head=SETS)
    bill = good(tmp_path, rows)
    assert [each.key for each in bill.matched("10/2.20/1")] == ["10/2.10", "10/2.20/1", "10/2.20/2"]
    assert bill.matched("10/1.30") == ()
    assert [each.key for each in bill.matched("20")] == ["20"]


def test_a_tool_lacks_what_belongs_to_options_it_does_not_have(tmp_path: Path) -> None:
    rows = lines("10,A,1,,,", "20,B,1,,,steam", "20.10,C,2,,,", "30,D,1,,,steam;hot n2", head=SETS)
    bill = good(tmp_path, rows)
    assert bill.absent([]) == {"20", "20.10/1", "20.10/2", "30"}
    assert [key for key in bill.positions if key not in bill.absent(["Hot N2"])] == ["10", "30"]
    assert bill.absent(["steam"]) == frozenset()


def test_ways_between_positions(tmp_path: Path) -> None:
    bill = good(tmp_path, lines("10,A,2", "10.10,B,1", "10.10.5,C,2", "20,D,1"))
    assert bill.ancestors("10/2.10.5/1") == ("10/2.10", "10/2")
    assert [each.key for each in bill.beneath("10/2")] == ["10/2.10", "10/2.10.5/1", "10/2.10.5/2"]
    assert [each.key for each in bill.children("")] == ["10/1", "10/2", "20"]
    assert len(bill.beneath("")) == len(bill.positions)
    assert [each.key for each in bill.positions_of("10.10")] == ["10/1.10", "10/2.10"]
    assert bill.line("10/2.10").position == bill.line("10.10").position == "10.10"
    assert [each.key for each in bill.nearest("10/2.10.5/1", "10")] == ["10/2"]
    assert [each.key for each in bill.nearest("10/2", "10.10.5")] == ["10/2.10.5/1", "10/2.10.5/2"]


def test_a_large_bill_is_asked_position_by_position() -> None:
    """20,000 units of five parts: anything quadratic would not come to an end."""
    made = [Line("10", "", 2, "A", quantity=Decimal(20_000), kind="assembly")]
    made += [Line(f"10.{n}", "10", 3, "B", fit_after=(f"10.{n - 10}",) if n > 10 else ()) for n in range(10, 60, 10)]
    bill = Bill("m", "a", lines=tuple(made))
    assert len(bill.positions) == 120_000
    for key, position in bill.positions.items():
        assert len(bill.closes_over(key)) == len(position.line.fit_after)
    assert bill.closed_by("10/19999.10") == ("10/19999.20",)


def test_a_bill_of_nothing_but_circles_comes_to_an_end(tmp_path: Path) -> None:
    every = ";".join(str(number) for number in range(1, 3001))
    rows = [f"{number},A,1,{number + 1}" for number in range(1, 3000)]
    reading = read(tmp_path, lines(*rows, f"3000,A,1,{every}", head=HEAD))
    assert {fault.row for fault in reading.faults} == {3001}
    assert all(len(fault.message) < 400 for fault in reading.faults)
