"""Bills in one workbook: sheets as tables, number cells, formulas."""

from __future__ import annotations

import datetime as dt
import zipfile
from decimal import Decimal
from pathlib import Path

import attrs
import openpyxl
import pytest

from teardown_app.domain.bill.bill import Bill
from teardown_app.intake.bill import Reading, read_bill
from tests.bill.written import good, lines, materials, told, workbook

HEAD = ["position", "part_number", "description", "quantity", "unit"]

CHECKS = """
[play]
says = "Shake it"
limit = "max 0.02 mm"
when = ["as found", "finished"]
readings = 3
"""

ROUTES = """
[wash]
[[wash.operation]]
id = "one"
medium = "water"
check = "play"
[[wash.operation]]
id = "two"
medium = "nitric acid"
wait = 1.5
outside = true
[rest]
origin = "new"
[[rest.operation]]
id = "one"
wait = 24
"""


def sheets(place: Path, *rows: list[object], head: list[object] | None = None, **others: list[list[object]]) -> Reading:
    """Write a workbook with these lines and read it."""
    path = workbook(place / "tool.xlsx", bill=[head or HEAD, *rows], **others)
    return read_bill(path, materials())


def good_book(place: Path, *rows: list[object], **others: list[list[object]]) -> Bill:
    """A workbook that must be without faults."""
    reading = sheets(place, *rows, **others)
    assert reading.faults == []
    assert reading.bill is not None
    return reading.bill


def test_a_workbook_is_a_bill(tmp_path: Path) -> None:
    bill = good_book(tmp_path, ["10", "A", "BOWL", 2, "EA"], ["10.20", "B", "HOSE", 1.5, "M"])
    assert (bill.model, bill.revision, bill.approved_by) == ("M1", "A", "XY")
    assert list(bill.positions) == ["10/1", "10/1.20", "10/2", "10/2.20"]
    assert bill.lines[1].quantity == Decimal("1.5")


@pytest.mark.parametrize("cell", [10.2, 10.25, 0.5])
def test_a_number_cell_as_position_may_have_been_another(tmp_path: Path, cell: float) -> None:
    reading = sheets(tmp_path, ["10", "A", "", 1, ""], [cell, "B", "", 1, ""])
    assert told(reading) == [("tool.xlsx", 3, "position")]


def test_whole_number_cells_are_positions(tmp_path: Path) -> None:
    assert list(good_book(tmp_path, [10, "A", "", 1, ""], [20.0, "B", "", 1, ""]).positions) == ["10", "20"]


def test_a_number_cell_does_not_make_orphans_of_what_hangs_beneath(tmp_path: Path) -> None:
    reading = sheets(tmp_path, [10, "A", "", 1, ""], [10.2, "B", "", 1, ""], ["10.20.5", "C", "", 1, ""])
    assert told(reading) == [("tool.xlsx", 3, "position")]


def test_a_date_as_position(tmp_path: Path) -> None:
    reading = sheets(tmp_path, [dt.datetime(2026, 2, 10), "A", "", 1, ""])
    assert told(reading) == [("tool.xlsx", 2, "position")]
    assert "date" in reading.faults[0].message


def test_a_number_cell_that_names_positions(tmp_path: Path) -> None:
    head: list[object] = [*HEAD, "fit_after"]
    reading = sheets(
        tmp_path,
        ["10", "A", "", 1, "", None],
        ["20", "B", "", 1, "", 10],
        ["30", "C", "", 1, "", 10.2],
        head=head,
    )
    assert told(reading) == [("tool.xlsx", 4, "fit_after")]


@pytest.mark.parametrize("quantity", [0, -1, 1.5, "1,500", True, dt.datetime(2026, 5, 1)])
def test_quantities_that_are_none(tmp_path: Path, quantity: object) -> None:
    assert told(sheets(tmp_path, ["10", "A", "", quantity, ""])) == [("tool.xlsx", 2, "quantity")]


def test_number_cells_are_never_in_doubt_and_are_no_witness(tmp_path: Path) -> None:
    assert good_book(tmp_path, ["10", "A", "", 1.125, "M"]).lines[0].quantity == Decimal("1.125")
    reading = sheets(tmp_path, ["10", "A", "", 1.5, "M"], ["20", "B", "", "1,500", "M"])
    assert told(reading) == [("tool.xlsx", 3, "quantity")]


def test_numbers_keep_the_digits_a_spreadsheet_shows(tmp_path: Path) -> None:
    assert good_book(tmp_path, ["10", "A", "", 0.1 + 0.2, "M"]).lines[0].quantity == Decimal("0.3")


def test_part_numbers_may_be_number_cells(tmp_path: Path) -> None:
    assert good_book(tmp_path, ["10", 4711, "", 1, ""]).lines[0].part_number == "4711"


@pytest.mark.parametrize("text", ["=1+1", "=SUM(D2:D3)", "@x", "+A", "-(b"])
def test_formulas_and_what_looks_like_them(tmp_path: Path, text: str) -> None:
    assert told(sheets(tmp_path, ["10", "A", text, 1, ""])) == [("tool.xlsx", 2, "description")]


def test_array_formulas_and_error_values(tmp_path: Path) -> None:
    path = workbook(tmp_path / "tool.xlsx", bill=[HEAD, ["10", "A", "", 1, ""], ["20", "#REF!", "", 1, ""]])
    book = openpyxl.load_workbook(path)
    book["bill"]["C2"] = openpyxl.worksheet.formula.ArrayFormula("C2", "=1+1")
    book["bill"]["B3"].data_type = "e"
    book.save(path)
    assert told(read_bill(path, materials())) == [
        ("tool.xlsx", 2, "description"),
        ("tool.xlsx", 3, "part_number"),
    ]


def test_sheet_names_match_without_case_and_others_are_left(tmp_path: Path) -> None:
    path = workbook(
        tmp_path / "tool.xlsx",
        BILL=[HEAD, ["10", "A", "", 1, ""]],
        Notes=[["=x"]],
        About=[["Model", "M"], ["Revision", 3]],
        about2=[],
    )
    reading = read_bill(path, materials())
    assert reading.faults == []
    assert reading.bill is not None
    assert (reading.bill.model, reading.bill.revision) == ("M", "3")


def test_missing_sheets_are_told(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    book.save(tmp_path / "tool.xlsx")
    reading = read_bill(tmp_path / "tool.xlsx", materials())
    assert [(fault.file, fault.row) for fault in reading.faults] == [("tool.xlsx", 0), ("tool.xlsx", 0)]
    assert any("about" in fault.message for fault in reading.faults)
    assert any("bill" in fault.message for fault in reading.faults)
    assert reading.positions is None


def test_empty_rows_and_columns(tmp_path: Path) -> None:
    reading = sheets(tmp_path, [], ["10", "A", "", 1, "", None, None], [None, None], ["20", "B", "", 0, ""], [None])
    assert told(reading) == [("tool.xlsx", 5, "quantity")]


def test_a_cell_far_below_is_no_line(tmp_path: Path) -> None:
    path = workbook(tmp_path / "tool.xlsx", bill=[HEAD, ["10", "A", "", 1, ""]])
    book = openpyxl.load_workbook(path)
    book["bill"]["A300000"] = " "
    book.save(path)
    assert read_bill(path, materials()).faults == []


def test_levels_in_a_workbook(tmp_path: Path) -> None:
    head: list[object] = ["level", "part_number", "quantity"]
    reading = sheets(tmp_path, [0, "TOOL", 1], [1, "A", 2], ["..2", "B", 1], [1.5, "C", 1], head=head)
    assert told(reading) == [("tool.xlsx", 5, "level")]


def test_every_table_as_a_sheet_says_the_same_as_the_files(tmp_path: Path) -> None:
    (tmp_path / "drawings").mkdir()
    (tmp_path / "drawings" / "10.png").write_bytes(b"picture")
    head: list[object] = ["position", "part_number", "quantity", "material", "route", "checks"]
    path = workbook(
        tmp_path / "tool.xlsx",
        bill=[head, ["10", "A", 1, None, None, "play"], ["10.10", "B", 2, "316L", "wash;rest", "play"]],
        components=[["part_number", "alternates", "lead_days"], ["A", "B", 14]],
        checks=[
            ["name", "says", "limit", "when", "readings"],
            ["play", "Shake it", "max 0.02 mm", "as found;finished", 3],
        ],
        routes=[
            ["name", "origin", "id", "medium", "wait", "outside", "check"],
            ["wash", "as received", "one", "water", None, None, "play"],
            [None, None, "two", "nitric acid", 1.5, "yes", None],
            ["rest", "new", "one", None, 24, None, None],
        ],
        recipes=[["name", "step", "seconds"], ["rinse", "fill", 30], ["rinse", "spin", 60]],
        gates=[["gate", "assemblies"], ["ship", None], ["closed up", 10]],
        callouts=[["drawing", "position", "x", "y"], ["10.png", "10.10/2", 0.25, 0.5]],
    )
    reading = read_bill(path, materials())
    assert reading.faults == []
    folder_bill = good(
        tmp_path / "folder",
        lines("10,A,1,,,play", "10.10,B,2,316L,wash;rest,play", head=",".join(map(str, head))),
        components="part_number,alternates,lead_days\nA,B,14\n",
        checks=CHECKS,
        routes=ROUTES,
        recipes='[rinse]\nsteps = [{ step = "fill", seconds = "30" }, { step = "spin", seconds = "60" }]\n',
        gates='["closed up"]\nassemblies = ["10"]\n[ship]\n',
        callouts="drawing,position,x,y\n10.png,10.10/2,0.25,0.5\n",
        drawings="10.png",
    )
    assert reading.bill is not None
    assert attrs.evolve(reading.bill, notes=()) == attrs.evolve(folder_bill, notes=())
    assert len(reading.bill.notes) == len(folder_bill.notes)
    assert folder_bill.routes["wash"].operations[1].outside


def test_faults_of_other_sheets_name_the_sheet(tmp_path: Path) -> None:
    reading = sheets(
        tmp_path,
        ["10", "A", "", 1, ""],
        checks=[["name", "when"], ["c", "later"], [None, "arrival"], ["c", "new"]],
        gates=[["name"], ["lunch"]],
    )
    assert told(reading) == [
        ("tool.xlsx", 2, "when"),
        ("tool.xlsx", 2, "name"),
        ("tool.xlsx", 3, "name"),
        ("tool.xlsx", 4, "name"),
    ]
    assert all(fault.message.startswith(("Sheet checks", "Sheet gates")) for fault in reading.faults)


def test_their_headings_in_the_sheet_about(tmp_path: Path) -> None:
    about: list[list[object]] = [
        ["model", "M"],
        ["revision", "A"],
        ["columns.Our No.", "part_number"],
        ["columns.Bin", "shelf"],
    ]
    reading = sheets(tmp_path, ["10", "A", 1], head=["Pos", "Our No.", "Qty"], about=about)
    assert told(reading) == [("tool.xlsx", 4, "value")]
    assert "shelf" in reading.faults[0].message


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04 nothing", b"\x00" * 1000, b"position,part_number,quantity\n"])
def test_what_is_no_workbook(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "tool.xlsx").write_bytes(content)
    reading = read_bill(tmp_path / "tool.xlsx", materials())
    assert [(fault.file, fault.row) for fault in reading.faults] == [("tool.xlsx", 0)]
    assert (reading.bill, reading.positions) == (None, None)


def test_a_zip_that_is_no_workbook(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "tool.xlsx", "w") as packed:
        packed.writestr("hello.txt", "hello")
    assert len(read_bill(tmp_path / "tool.xlsx", materials()).faults) == 1


def test_a_small_file_that_unpacks_to_a_huge_one(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "tool.xlsx", "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/workbook.xml", b"<a>" + b" " * 300_000_000)
    assert (tmp_path / "tool.xlsx").stat().st_size < 1_000_000
    reading = read_bill(tmp_path / "tool.xlsx", materials())
    assert "unpacks" in reading.faults[0].message


def test_a_sheet_that_names_impossible_rows(tmp_path: Path) -> None:
    path = workbook(tmp_path / "a.xlsx", bill=[HEAD, ["10", "A", "", 1, ""]])
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(tmp_path / "tool.xlsx", "w") as new:
        for entry in old.infolist():
            new.writestr(entry, old.read(entry).replace(b'<row r="2"', b'<row r="99999999999"'))
    reading = read_bill(tmp_path / "tool.xlsx", materials())
    assert reading.faults
