"""Rows that say only how deep they hang."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bill.written import faults, good, lines, notes, read

HEAD = "level,part_number,quantity"


def rows(*levels: str) -> str:
    """A bill with one row for each level."""
    return lines(*(f"{level},P{number},1" for number, level in enumerate(levels)), head=HEAD)


def test_steps_are_named_10_20_30_under_each_parent(tmp_path: Path) -> None:
    bill = good(tmp_path, rows("1", "2", "2", "3", "1", "2"))
    assert [line.position for line in bill.lines] == ["10", "10.10", "10.20", "10.20.10", "20", "20.10"]


def test_a_single_0_names_the_tool_and_is_no_position(tmp_path: Path) -> None:
    bill = good(tmp_path, rows("0", "1", "2"))
    assert [line.position for line in bill.lines] == ["10", "10.10"]
    assert list(bill.positions) == ["10", "10.10"]


def test_the_row_of_the_tool_needs_neither_number_nor_quantity(tmp_path: Path) -> None:
    assert faults(tmp_path, lines("0,,", "1,A,1", head=HEAD)) == []


def test_a_second_0_is_a_fault(tmp_path: Path) -> None:
    assert faults(tmp_path, rows("0", "1", "0", "1")) == [(4, "level")]


@pytest.mark.parametrize("form", ["{}", "..{}", "--{}", ".{}", " {} ", ". . {}"])
def test_levels_with_dots_or_dashes_before(tmp_path: Path, form: str) -> None:
    bill = good(tmp_path, rows(*(form.format(level) for level in (1, 2, 3, 2))))
    assert [line.position for line in bill.lines] == ["10", "10.10", "10.10.10", "10.20"]


def test_as_many_dots_as_the_level_is_deep(tmp_path: Path) -> None:
    assert [line.position for line in good(tmp_path, rows("1", ".2", "..3")).lines] == [
        "10",
        "10.10",
        "10.10.10",
    ]


@pytest.mark.parametrize(
    ("levels", "at"),
    [
        (("1", "3"), [3]),
        (("2",), [2]),
        (("0", "2"), [3]),
        (("1", "3", "3", "2", "1"), [3]),
        (("1", "2", "4", "1", "3"), [4, 6]),
    ],
)
def test_a_level_that_jumps(tmp_path: Path, levels: tuple[str, ...], at: list[int]) -> None:
    assert faults(tmp_path, rows(*levels)) == [(row, "level") for row in at]


@pytest.mark.parametrize("level", ["", "x", "1.5", "3..", "101"])
def test_what_is_no_level(tmp_path: Path, level: str) -> None:
    assert faults(tmp_path, rows("1", level, "3")) == [(3, "level")]


def test_with_both_columns_the_position_wins(tmp_path: Path) -> None:
    reading = read(tmp_path, lines("5,10,A,1", "1,10.20,B,1", head="level,position,part_number,quantity"))
    assert reading.faults == []
    assert reading.bill is not None
    assert [line.position for line in reading.bill.lines] == ["10", "10.20"]
    assert (3, "level") in notes(reading)


def test_an_empty_column_position_leaves_the_level(tmp_path: Path) -> None:
    bill = good(tmp_path, lines(",1,A,1", ",2,B,1", head="position,level,part_number,quantity"))
    assert [line.position for line in bill.lines] == ["10", "10.10"]


def test_the_row_of_the_tool_beside_positions(tmp_path: Path) -> None:
    bill = good(tmp_path, lines(",0,TOOL,1", "10,1,A,1", head="position,level,part_number,quantity"))
    assert [line.position for line in bill.lines] == ["10"]


def test_fit_after_and_callouts_use_the_names_given(tmp_path: Path) -> None:
    bill = good(
        tmp_path,
        lines("1,A,1,", "2,B,1,", "2,C,1,10.10", head=HEAD + ",fit_after"),
        callouts="drawing,position,x,y\na.png,10.20,0.5,0.5\n",
        drawings="a.png",
    )
    assert bill.closes_over("10.20") == ("10.10",)
    assert bill.callouts[0].position == "10.20"


def test_counts_multiply_along_levels(tmp_path: Path) -> None:
    bill = good(tmp_path, lines("1,A,2", "2,B,1", "3,C,3", head=HEAD))
    assert "10/2.10.10/3" in bill.positions
    assert len(bill.positions) == 2 + 2 + 6
