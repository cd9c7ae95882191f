"""Lines, positions and counts. The worked counts are spelled out beside each case (arithmetic)."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from teardown_app.domain.bill.bill import Bill
from tests.bill.written import faults, good, lines, notes, read

KINDS = "position,part_number,quantity,unit,kind"


def keys(bill: Bill) -> list[str]:
    """Names of all positions in bill order."""
    return list(bill.positions)


def test_the_third_5_of_the_only_20_in_the_second_10(tmp_path: Path) -> None:
    bill = good(tmp_path, lines("10,A,2", "10.20,B,1", "10.20.5,C,3"))
    assert "10/2.20.5/3" in bill.positions
    # 2 of 10, one 20 in each, three 5 in each of these: 2 + 2 + 6.
    assert len(bill.positions) == 10
    assert keys(bill)[:5] == ["10/1", "10/1.20", "10/1.20.5/1", "10/1.20.5/2", "10/1.20.5/3"]


def test_an_assembly_counts_as_a_position(tmp_path: Path) -> None:
    assert read(tmp_path, lines("10,A,3", "10.10,B,1")).positions == 6


def test_screws_on_two_levels(tmp_path: Path) -> None:
    # From memory (worked case of an indented list): A once, B twice in it, 4 screws each, 3 more: 11.
    rows = lines("10,A,1", "10.10,B,2", "10.10.10,SCREW,4,EA,hardware", "10.20,SCREW,3,EA,hardware", head=KINDS)
    bill = good(tmp_path, rows)
    screws = [each for each in bill.positions.values() if each.line.part_number == "SCREW"]
    assert sum(each.count or 0 for each in screws) == 11
    assert [each.key for each in screws] == ["10.10/1.10", "10.10/2.10", "10.20"]


def test_hardware_is_one_position_with_its_count_for_each_parent(tmp_path: Path) -> None:
    bill = good(tmp_path, lines("10,A,2,EA,", "10.90,S,8,EA,hardware", head=KINDS))
    assert keys(bill) == ["10/1", "10/1.90", "10/2", "10/2.90"]
    assert [bill.positions[key].count for key in keys(bill)] == [None, 8, None, 8]


@pytest.mark.parametrize("unit", ["M", "MM", "CM", "FT", "IN", "KG", "G", "L", "ML"])
def test_a_measured_unit_makes_one_position_with_an_amount(tmp_path: Path, unit: str) -> None:
    bill = good(tmp_path, lines("10,A,2,EA,", f"10.10,HOSE,2.5,{unit},consumable", head=KINDS))
    assert keys(bill) == ["10/1", "10/1.10", "10/2", "10/2.10"]
    assert bill.positions["10/2.10"].amount == Decimal("2.5")
    assert bill.positions["10/2.10"].count is None


@pytest.mark.parametrize("unit", ["EA", "PR", "SET", "ea", ""])
def test_a_counting_unit_multiplies(tmp_path: Path, unit: str) -> None:
    bill = good(tmp_path, lines(f"10,A,2,{unit},", "10.10,B,3,EA,", head=KINDS))
    assert len(bill.positions) == 2 + 6
    assert bill.lines[0].unit == (unit.upper() or "EA")


@pytest.mark.parametrize("unit", ["EA", "PR", "SET"])
def test_one_of_a_counting_unit_bears_no_number(tmp_path: Path, unit: str) -> None:
    assert keys(good(tmp_path, lines(f"10,A,1,{unit},", head=KINDS))) == ["10"]


@pytest.mark.parametrize("unit", ["EA", "PR", "SET"])
def test_a_counting_unit_is_whole(tmp_path: Path, unit: str) -> None:
    assert faults(tmp_path, lines(f"10,A,1.5,{unit},", head=KINDS)) == [(2, "quantity")]
    assert faults(tmp_path / "h", lines(f"10,A,1.5,{unit},hardware", head=KINDS)) == [(2, "quantity")]
    assert faults(tmp_path / "w", lines(f"10,A,2.0,{unit},", head=KINDS)) == []


@pytest.mark.parametrize("unit", ["AR", "REF", "ref"])
@pytest.mark.parametrize("quantity", ["", "0", "-3", "as needed", "1.500", "1"])
def test_as_required_and_reference_make_no_position_and_their_quantity_is_not_read(
    tmp_path: Path, unit: str, quantity: str
) -> None:
    reading = read(tmp_path, lines("10,A,1,,", f"20,GREASE,{quantity},{unit},consumable", head=KINDS))
    assert reading.faults == []
    assert reading.positions == 1
    assert reading.bill is not None
    assert reading.bill.lines[1].quantity is None


@pytest.mark.parametrize("unit", ["AR", "REF"])
@pytest.mark.parametrize("kind", ["", "assembly"])
def test_nothing_hangs_beneath_as_required_and_reference(tmp_path: Path, unit: str, kind: str) -> None:
    rows = lines(f"10,A,1,{unit},{kind}", "10.10,B,1,,", head=KINDS)
    assert faults(tmp_path, rows) == [(3, "position")]


def test_empty_kind_is_assembly_when_rows_hang_beneath_else_part(tmp_path: Path) -> None:
    bill = good(tmp_path, lines("10,A,1", "10.10,B,1"))
    assert [line.kind for line in bill.lines] == ["assembly", "part"]


def test_kinds_match_without_case(tmp_path: Path) -> None:
    assert good(tmp_path, lines("10,A,1,ea,Hardware", head=KINDS)).lines[0].kind == "hardware"


@pytest.mark.parametrize("kind", ["part", "hardware", "consumable", "temporary"])
def test_rows_hang_beneath_assemblies_only(tmp_path: Path, kind: str) -> None:
    rows = lines(f"10,A,1,,{kind}", "10.10,B,1,,", "10.20,C,1,,", head=KINDS)
    assert faults(tmp_path, rows) == [(3, "position"), (4, "position")]


def test_a_fault_about_two_rows_stands_at_the_later_one(tmp_path: Path) -> None:
    assert faults(tmp_path, lines("10.10,B,1,,", "10,A,1,,part", head=KINDS)) == [(3, "kind")]


def test_a_row_of_unknown_kind_takes_rows_beneath_without_further_faults(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,A,2,,gizmo", "10.10,B,3,,", head=KINDS))
    assert [(fault.row, fault.column) for fault in reading.faults] == [(2, "kind")]
    assert reading.positions == 2 + 6
    assert reading.bill is None


def test_consumables_and_temporary_things_count_too(tmp_path: Path) -> None:
    rows = lines("10,A,2,,", "10.10,O-RING,2,,consumable", "10.20,CAP,3,,temporary", head=KINDS)
    assert len(good(tmp_path, rows).positions) == 2 + 4 + 6


@pytest.mark.parametrize("quantity", ["", "0", "-1", "two", "2 EA", "0.0", "-"])
def test_a_quantity_that_is_empty_zero_negative_or_no_number(tmp_path: Path, quantity: str) -> None:
    reading = read(tmp_path, lines(f"10,A,{quantity}", "20,B,1"))
    assert [(fault.row, fault.column) for fault in reading.faults] == [(2, "quantity")]
    assert reading.positions is None


def test_a_measured_quantity_must_be_above_zero(tmp_path: Path) -> None:
    rows = lines("10,A,0,M,", "20,B,-0.5,KG,", "30,C,,L,", "40,D,0.05,ML,", head=KINDS)
    assert faults(tmp_path, rows) == [(2, "quantity"), (3, "quantity"), (4, "quantity")]


def test_every_fault_is_told_at_once(tmp_path: Path) -> None:
    rows = lines("10,,0,XX,gizmo", "10,B,1,,", "40.10,C,1,,", head=KINDS)
    assert set(faults(tmp_path, rows)) == {
        (2, "part_number"),
        (2, "quantity"),
        (2, "unit"),
        (2, "kind"),
        (3, "position"),
        (4, "position"),
    }


def test_unknown_unit_and_kind(tmp_path: Path) -> None:
    assert faults(tmp_path, lines("10,A,1,PCS,gadget", head=KINDS)) == [(2, "kind"), (2, "unit")]


def test_a_duplicate_stands_at_the_later_row_and_names_the_first(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,A,1", "20,B,1", "10,C,1", "10,D,1"))
    assert [(fault.row, fault.column) for fault in reading.faults] == [(4, "position"), (5, "position")]
    assert all("row 2" in fault.message for fault in reading.faults)


def test_an_orphan_names_the_line_that_is_missing(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,A,1", "20.10.5,B,1", "20.10.5.1,C,1"))
    assert [(fault.row, fault.column) for fault in reading.faults] == [(3, "position")]
    assert "20.10" in reading.faults[0].message
    assert reading.positions is None


def test_rows_may_stand_in_any_order(tmp_path: Path) -> None:
    bill = good(tmp_path, lines("20,B,1", "10.20,D,1", "10.10,C,1", "10,A,1"))
    assert keys(bill) == ["20", "10", "10.20", "10.10"]


def test_positions_are_text_10_20_is_not_10_2(tmp_path: Path) -> None:
    assert keys(good(tmp_path, lines("10,A,1", "10.2,B,1", "10.20,C,1"))) == ["10", "10.2", "10.20"]


@pytest.mark.parametrize(
    "position", ["10.", ".10", "10..20", "10/2", "10,20", "10.+5", "10 20", "+10", "10.-5", "2026-02-10", "?"]
)
def test_what_is_no_position(tmp_path: Path, position: str) -> None:
    assert faults(tmp_path, lines(f'"{position}",A,1')) == [(2, "position")]


@pytest.mark.parametrize("position", ["", "-"])
def test_every_row_needs_a_position(tmp_path: Path, position: str) -> None:
    assert faults(tmp_path, lines("10,A,1", f"{position},B,1")) == [(3, "position")]


def test_lists_in_a_cell_are_separated_by_semicolons(tmp_path: Path) -> None:
    head = "position,part_number,quantity,checks,fit_after,write_down"
    rows = lines("10,A,1,one;two,,serial;lot", "20,B,1,, 10 ; 30 ;,", "30,C,1,,,", head=head)
    bill = good(tmp_path, rows, checks="[one]\n[two]\n")
    assert bill.lines[0].checks == ("one", "two")
    assert bill.lines[1].fit_after == ("10", "30")
    assert bill.lines[0].write_down == ("serial", "lot")


def test_dash_alone_is_an_empty_cell(tmp_path: Path) -> None:
    head = f"{KINDS},material,route,checks,finish_ra_um,fit_after,joint,renew,ships"
    assert good(tmp_path, lines("10,A,1,-,-,-,-,-,-,-,-,-,-", head=head)).lines[0].material == ""
    assert faults(tmp_path / "b", lines("10,-,1,-,-,-,-,-,-,-,-,-,-", head=head)) == [(2, "part_number")]


@pytest.mark.parametrize("text", ["=SUM(A1)", "@x", "+A1", "-(", "+(", "-[x", "+Ä", "-bearing", "=", "@", " =1"])
@pytest.mark.parametrize("column", ["description", "remark"])
def test_what_a_spreadsheet_would_take_for_a_formula(tmp_path: Path, text: str, column: str) -> None:
    head = f"position,part_number,quantity,{column}"
    assert faults(tmp_path, lines(f'10,A,1,"{text}"', head=head)) == [(2, column)]


@pytest.mark.parametrize(
    "text", ["+24 V", "-5 °C", "-", "- bearing", "+/- 24 V", "--", "a=b", "x@y", "..BEARING", "+24V", "-.5"]
)
def test_what_is_text_all_the_same(tmp_path: Path, text: str) -> None:
    assert faults(tmp_path, lines(f"10,A,1,{text}", head="position,part_number,quantity,description")) == []


def test_a_spoilt_cell_has_one_fault_only(tmp_path: Path) -> None:
    head = "position,part_number,quantity,unit,kind,checks"
    assert faults(tmp_path, lines("=A,@P,=1,=U,=K,=C", head=head)) == [
        (2, "position"),
        (2, "part_number"),
        (2, "quantity"),
        (2, "unit"),
        (2, "kind"),
        (2, "checks"),
    ]


def test_a_cell_over_one_megabyte(tmp_path: Path) -> None:
    head = "position,part_number,quantity,description"
    assert faults(tmp_path, lines(f"10,A,1,{'x' * 1_000_000}", head=head)) == []
    assert faults(tmp_path / "b", lines(f"10,A,1,{'x' * 1_000_001}", head=head)) == [(2, "description")]
    assert faults(tmp_path / "c", lines(f"10,A,1,{'ü' * 500_001}", head=head)) == [(2, "description")]


def test_more_than_a_hundred_thousand_positions(tmp_path: Path) -> None:
    assert faults(tmp_path, lines("10,A,1000", "10.10,B,99")) == []
    reading = read(tmp_path / "b", lines("10,A,1000", "10.10,B,99", "20,C,1"))
    assert [(fault.row, fault.column) for fault in reading.faults] == [(4, "quantity")]
    assert reading.positions == 100_001


def test_more_than_a_hundred_thousand_rows(tmp_path: Path) -> None:
    rows = [f"{number},A,1" for number in range(1, 100_002)]
    assert read(tmp_path, lines(*rows[:-1])).positions == 100_000
    reading = read(tmp_path / "b", lines(*rows))
    assert [fault.row for fault in reading.faults] == [100_002]
    assert reading.positions is None


def test_renew_is_always_for_consumables_that_say_nothing(tmp_path: Path) -> None:
    head = "position,part_number,quantity,kind,renew"
    rows = lines(
        "10,A,1,consumable,",
        "20,B,1,consumable,If Opened",
        "30,C,1,consumable,on condition",
        "40,D,1,,",
        "50,E,1,,on condition",
        head=head,
    )
    bill = good(tmp_path, rows)
    assert [line.renew for line in bill.lines] == ["always", "if opened", "on condition", "", "on condition"]


@pytest.mark.parametrize(
    ("description", "ships"),
    [
        ("BRACKET, SHIPPING, ROTOR", "in"),
        ("SHIPPING BRACKET", "in"),
        ("CAPS, PORT", "in"),
        ("PORT CAPS, SET", "in"),
        ("PLUG, PORT, G1/2", "in"),
        ("BYPASS, INTERLOCK", "out"),
        ("GAUGE, PRESSURE, TEST", "out"),
        ("MASK, THREAD", "out"),
        ("", "out"),
    ],
)
def test_shipping_brackets_and_port_caps_ship_in_place(tmp_path: Path, description: str, ships: str) -> None:
    head = "position,part_number,quantity,kind,description,ships"
    bill = good(tmp_path, lines(f'10,A,1,temporary,"{description}",', f'20,B,1,part,"{description}",', head=head))
    assert [line.ships for line in bill.lines] == [ships, ""]


def test_ships_as_written_goes_before_the_default(tmp_path: Path) -> None:
    head = "position,part_number,quantity,kind,description,ships"
    bill = good(tmp_path, lines("10,A,1,temporary,SHIPPING BRACKET,out", "20,B,1,temporary,BYPASS,IN", head=head))
    assert [line.ships for line in bill.lines] == ["out", "in"]


def test_words_that_are_none_of_the_choices(tmp_path: Path) -> None:
    head = "position,part_number,quantity,kind,renew,write_down,ships"
    rows = lines("10,A,1,consumable,yearly,,", "20,B,1,,,colour,", "30,C,1,temporary,,,maybe", head=head)
    assert faults(tmp_path, rows) == [(2, "renew"), (3, "write_down"), (4, "ships")]


def test_one_part_number_with_two_descriptions_is_a_note(tmp_path: Path) -> None:
    head = "position,part_number,quantity,description"
    rows = lines("10,A,1,BEARING", "20,A,1,. bearing ", "30,A,1,BUSHING", head=head)
    reading = read(tmp_path, rows)
    assert reading.faults == []
    assert (4, "description") in notes(reading)
    assert (3, "description") not in notes(reading)


def test_an_assembly_with_nothing_beneath_is_a_note(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,A,1,,assembly", head=KINDS), drawings="10.png")
    assert reading.faults == []
    assert notes(reading) == [(2, "kind")]


def test_an_assembly_without_drawing_is_a_note(tmp_path: Path) -> None:
    rows = lines("10,A,1", "10.10,B,1", "20,C,1", "20.10,D,1")
    reading = read(tmp_path, rows, drawings="10.png")
    assert notes(reading) == [(4, "position")]
    assert reading.bill is not None
    assert reading.bill.drawings == {"10": "drawings/10.png"}


def test_an_unknown_column_is_a_note(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("10,A,1,shelf 3", head="position,part_number,quantity,bin"))
    assert reading.faults == []
    assert notes(reading) == [(1, "bin")]
