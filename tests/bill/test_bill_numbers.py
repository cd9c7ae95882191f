"""Numbers with point or comma. No figures of the trade here: the arithmetic is the expectation."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.intake.numbers import could_be_either, decimal_mark, read_number, settled_mark
from tests.bill.written import faults, good, lines

UNITS = "position,part_number,quantity,unit,finish_ra_um"


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("4", "4"),
        ("+4", "4"),
        ("-4", "-4"),
        ("0", "0"),
        ("1,5", "1.5"),
        ("1.5", "1.5"),
        (",5", "0.5"),
        ("0,500", "0.500"),
        ("0.500", "0.500"),
        ("12,75", "12.75"),
        ("1234,500", "1234.500"),
        ("1.234,5", "1234.5"),
        ("1,234.5", "1234.5"),
        ("1.234.567", "1234567"),
        ("1,234,567", "1234567"),
        ("1 500", "1500"),
        ("1'500", "1500"),
        ("1 500,25", "1500.25"),
    ],
)
def test_a_number_that_can_be_read_one_way_is_read_so(text: str, value: str) -> None:
    assert read_number(text).value == Decimal(value)


@pytest.mark.parametrize(
    "text",
    ["", "two", "2 EA", "4x", "1e3", "½", "1.2.3", "1,23,456", "1.", "--4", "1-2", "٣", "inf", "9" * 31],
)
def test_what_is_no_number_is_refused(text: str) -> None:
    assert read_number(text).value is None


@pytest.mark.parametrize("text", ["1,500", "1.500", "12,340", "999.999"])
def test_a_number_that_could_be_either_needs_others_to_settle_it(text: str) -> None:
    assert read_number(text).value is None
    whole = Decimal(text.replace(",", "").replace(".", ""))
    assert {read_number(text, mark).value for mark in ".,"} == {whole, whole / 1000}


@given(st.decimals(min_value="0.01", max_value="999999", places=2), st.sampled_from(".,"), st.booleans())
def test_numbers_written_with_either_mark_read_back(value: Decimal, mark: str, grouped: bool) -> None:
    text = f"{value:,.2f}" if grouped else f"{value:.2f}"
    if mark == ",":
        text = text.translate(str.maketrans(",.", ".,"))
    assert read_number(text).value == value
    assert decimal_mark(text) == mark


@given(st.integers(1, 999), st.integers(0, 999), st.sampled_from(".,"))
def test_one_mark_before_three_digits_is_always_in_doubt(front: int, behind: int, mark: str) -> None:
    assert could_be_either(f"{front}{mark}{behind:03}")


def test_numbers_that_contradict_each_other_settle_nothing() -> None:
    assert settled_mark(["1,5", "2,25", "7"]) == ","
    assert settled_mark(["1,5", "2.25"]) == ""
    assert settled_mark(["7", "1.500"]) == ""


def test_an_ambiguous_quantity_alone_is_a_fault(tmp_path: Path) -> None:
    assert faults(tmp_path, lines('10,P1,"1,500",M,', head=UNITS)) == [(2, "quantity")]
    assert faults(tmp_path / "b", lines('10,P1,"1.500",EA,', head=UNITS)) == [(2, "quantity")]


def test_another_cell_of_the_column_settles_it(tmp_path: Path) -> None:
    bill = good(tmp_path, lines('10,P1,"1,500",M,', '20,P2,"0,5",M,', head=UNITS))
    assert bill.lines[0].quantity == Decimal("1.5")
    bill = good(tmp_path / "b", lines('10,P1,"1,500",EA,', "20,P2,0.5,M,", head=UNITS))
    assert bill.lines[0].quantity == 1500


def test_another_cell_of_the_table_settles_it(tmp_path: Path) -> None:
    bill = good(tmp_path, lines('10,P1,"1,500",M,"0,4"', head=UNITS))
    assert bill.lines[0].quantity == Decimal("1.5")


def test_cells_that_contradict_each_other_leave_the_fault(tmp_path: Path) -> None:
    rows = lines('10,P1,"1,500",M,', '20,P2,"0,5",M,', "30,P3,0.5,M,", head=UNITS)
    assert faults(tmp_path, rows) == [(2, "quantity")]


def test_the_quantity_of_as_required_is_no_witness(tmp_path: Path) -> None:
    rows = lines('10,P1,"1,500",M,', '20,P2,"0,5",AR,', head=UNITS)
    assert faults(tmp_path, rows) == [(2, "quantity")]


def test_an_ambiguous_torque_is_a_fault(tmp_path: Path) -> None:
    head = "position,part_number,quantity,kind,joint"
    one, other = ('20,P2,1,hardware,"torque_nm=1,500 holds=10"', '30,P3,1,hardware,"torque_nm=2,5 holds=10"')
    assert faults(tmp_path, lines("10,P1,1,,", one, head=head)) == [(3, "joint")]
    bill = good(tmp_path / "b", lines("10,P1,1,,", one, other, head=head))
    assert bill.lines[1].joint is not None
    assert bill.lines[1].joint.torque_nm == Decimal("1.5")


def test_finish_must_be_a_number_above_zero(tmp_path: Path) -> None:
    rows = lines("10,P1,1,,0", "20,P2,1,,fine", "30,P3,1,,0.4", head=UNITS)
    assert faults(tmp_path, rows) == [(2, "finish_ra_um"), (3, "finish_ra_um")]
