"""Text tables as spreadsheets really write them: the same bill comes out of each."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.domain.bill.bill import Bill
from teardown_app.intake.text_table import decode, numbered, split
from tests.bill.written import ABOUT, faults, good, lines, notes, read, told

ENGLISH = ("Item", "P/N", "Description", "Qty", "UoM", "Kind", "Material", "Finish Ra", "Fit after", "Photo")
GERMAN = (
    "Pos.",
    "Sachnummer",
    "Benennung",
    "Menge",
    "ME",
    "Art",
    "Werkstoff",
    "Rauheit Ra",
    "Montage nach",
    "Foto",
)
ROWS = (
    ("10", "A-1", "GEHÄUSE; groß", "2", "EA", "", "", "", "", "von vorn"),
    ("10.20", "B-1", 'RING, 1/2" ID', "1", "", "consumable", "FKM", "", "", "two\nlines"),
    ("10.30", "C-1", "SCHLAUCH, µ-rein", "1,5", "M", "", "PFA", "0,4", "10.20", '"quoted"'),
)


def table(
    separator: str,
    end: str,
    quoting: int = csv.QUOTE_MINIMAL,
    head: tuple[str, ...] = GERMAN,
    mark: str = ",",
) -> str:
    """The same three lines as a spreadsheet would save them."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator, lineterminator="\r\n", quoting=quoting)  # type: ignore[arg-type]
    writer.writerow(head)
    for row in ROWS:
        writer.writerow([*row[:3], row[3].replace(",", mark), *row[4:7], row[7].replace(",", mark), *row[8:]])
    return out.getvalue().replace("\r\n", end)


def expected(place: Path) -> Bill:
    """The bill of the plainest dialect."""
    return good(place / "plain", table(",", "\n", mark="."), drawings="10.png")


@pytest.mark.parametrize(
    ("separator", "end", "encoding"),
    list(product(";,\t", ("\r\n", "\n", "\r"), ("utf-8", "utf-8-sig", "utf-16", "cp1252")))
    + [(";", "\r\n", "utf-16-le"), ("\t", "\n", "utf-16-be"), (",", "\n", "utf-32")],
)
def test_the_same_bill_in_every_dialect(tmp_path: Path, separator: str, end: str, encoding: str) -> None:
    raw = table(separator, end).encode(encoding)
    assert good(tmp_path, raw, drawings="10.png") == expected(tmp_path)


@pytest.mark.parametrize("head", [ENGLISH, GERMAN, tuple(each.upper() for each in GERMAN)])
@pytest.mark.parametrize("quoting", [csv.QUOTE_ALL, csv.QUOTE_MINIMAL])
@pytest.mark.parametrize("mark", ".,")
def test_headings_quotes_and_marks(tmp_path: Path, head: tuple[str, ...], quoting: int, mark: str) -> None:
    assert good(tmp_path, table(";", "\r\n", quoting, head, mark), drawings="10.png") == expected(tmp_path)


def test_columns_in_any_order_with_spare_rows_and_columns(tmp_path: Path) -> None:
    rows = list(csv.reader(io.StringIO(table(";", "\n")), delimiter=";"))
    turned = [[*row[::-1], "", ""] for row in rows] + [[""] * 12, [""] * 12]
    out = io.StringIO()
    csv.writer(out, delimiter=";").writerows(turned)
    assert good(tmp_path, out.getvalue(), drawings="10.png") == expected(tmp_path)


def test_a_line_break_in_a_cell_is_one_row(tmp_path: Path) -> None:
    rows = lines(
        '10,A,1,"one\ntwo\r\nthree"',
        "20,B,0,x",
        head='position,part_number,quantity,"de\nscription"'.replace("de\ns", "des"),
    )
    assert faults(tmp_path, rows) == [(3, "quantity")]


def test_empty_rows_are_passed_over_and_counted(tmp_path: Path) -> None:
    assert faults(tmp_path, "position,part_number,quantity\n\n10,A,1\n,,\n\n20,B,0\n\n\n") == [(6, "quantity")]


def test_no_break_spaces_are_spaces(tmp_path: Path) -> None:
    bill = good(tmp_path, "Find\u00a0No.;Part\u00a0No.;Qty\n\u00a010\u00a0;A\u00a01;1\u00a0500\n".encode())
    assert (bill.lines[0].position, bill.lines[0].part_number, bill.lines[0].quantity) == ("10", "A 1", 1500)


def test_a_title_above_the_headings(tmp_path: Path) -> None:
    text = "Parts list of the pump;;\nMay 2026;;\n\nPos;Teilenummer;Menge\n10;A;0\n"
    assert faults(tmp_path, text) == [(5, "quantity")]


def test_a_first_line_that_names_the_separator_is_no_row(tmp_path: Path) -> None:
    assert faults(tmp_path, "sep=;\nposition;part_number;quantity\n10;A;0\n") == [(2, "quantity")]


def test_a_row_with_more_cells_than_headings(tmp_path: Path) -> None:
    head = "position,part_number,description,quantity"
    assert (2, "") in faults(tmp_path, lines("10,A,RING, 12 X 2,1", head=head))


def test_remarks_without_heading_are_not_read(tmp_path: Path) -> None:
    assert faults(tmp_path, "position,part_number,quantity,\n10,A,1,see me\n") == []


def test_inch_marks_need_no_quotes(tmp_path: Path) -> None:
    text = 'position;part_number;quantity;description\n10;A;1;TUBE 1/2"\n20;B;1;"TUBE 3/4"""\n30;C;1;"5" DISC\n'
    assert [line.description for line in good(tmp_path, text).lines] == ['TUBE 1/2"', 'TUBE 3/4"', '"5" DISC']


def test_a_quote_that_never_closes_costs_one_cell_only(tmp_path: Path) -> None:
    bill = good(tmp_path, 'position,part_number,quantity,description\n10,A,1,"open\n20,B,1,x\n')
    assert [line.part_number for line in bill.lines] == ["A", "B"]


@pytest.mark.parametrize("missing", ["position", "part_number", "quantity"])
def test_needed_columns(tmp_path: Path, missing: str) -> None:
    cells = {"position": "10", "part_number": "A", "quantity": "1"}
    del cells[missing]
    reading = read(tmp_path, ",".join(cells) + "\n" + ",".join(cells.values()) + "\n")
    assert told(reading) == [("bill.csv", 1, missing)]
    assert reading.positions == (1 if missing == "part_number" else None)


def test_a_unit_in_brackets_belongs_to_no_heading(tmp_path: Path) -> None:
    bill = good(tmp_path, "Pos.;Teile-Nr.;Menge [Stk];Benennung (kurz);Rauheit Ra [µm]\n10;A;3;RING;0,4\n")
    assert (bill.lines[0].quantity, bill.lines[0].description) == (3, "RING")
    assert bill.lines[0].finish_ra_um == Decimal("0.4")


def test_too_many_rows_in_any_table(tmp_path: Path) -> None:
    components = "part_number\n" + "".join(f"P{number}\n" for number in range(100_001))
    assert told(read(tmp_path, lines("10,A,1"), components=components)) == [("components.csv", 100_002, "")]


def test_their_headings_for_ours(tmp_path: Path) -> None:
    about = ABOUT + '[columns]\n"Our No." = "part_number"\n"WIE VIELE" = "quantity"\nWhere = "Position"\n'
    bill = good(tmp_path, "where;our no;Wie viele\n10;A;3\n", about=about)
    assert (bill.lines[0].part_number, bill.lines[0].quantity) == ("A", 3)


def test_what_the_shop_says_of_its_headings_goes_before_what_is_usual(tmp_path: Path) -> None:
    about = 'model = "M"\nrevision = "A"\n[columns]\nItem = "description"\nNo = "position"\n'
    bill = good(tmp_path, "No,Item,P/N,Qty\n10,BOWL,A,1\n", about=about)
    assert (bill.lines[0].position, bill.lines[0].description) == ("10", "BOWL")


def test_two_headings_that_mean_the_same_needed_column(tmp_path: Path) -> None:
    assert faults(tmp_path, "Pos,Artikelnummer,Sachnummer,Qty\n10,A,B,1\n") == [(1, "part_number")]
    assert faults(tmp_path / "b", "position,part_number,quantity,quantity\n10,A,1,2\n") == [(1, "quantity")]


def test_our_own_name_goes_before_other_words(tmp_path: Path) -> None:
    reading = read(tmp_path, "position,part_number,quantity,name,description\n10,A,1,short,LONG\n")
    assert reading.bill is not None
    assert reading.bill.lines[0].description == "LONG"
    assert notes(reading) == [(1, "name")]


@given(
    st.lists(st.lists(st.text("ab;,\t\"\n 'Ä1", max_size=5), min_size=1, max_size=5), min_size=1, max_size=5),
    st.sampled_from(";,\t"),
)
def test_cells_written_by_the_standard_library_read_back(rows: list[list[str]], separator: str) -> None:
    out = io.StringIO()
    csv.writer(out, delimiter=separator, lineterminator="\n").writerows(rows)
    assert list(split(out.getvalue(), separator)) == [
        [] if row == [""] else row for row in _as_csv(out.getvalue(), separator)
    ]


def _as_csv(text: str, separator: str) -> list[list[str]]:
    return [row or [""] for row in csv.reader(io.StringIO(text, newline=""), delimiter=separator)]


@given(
    st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=50),
    st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "utf-32"]),
)
def test_letters_survive_every_encoding(text: str, encoding: str) -> None:
    assert decode(("Pos;" + text).encode(encoding)) == decode(("Pos;" + text).encode("utf-8"))


def test_rows_are_numbered_as_the_spreadsheet_shows_them() -> None:
    assert [(row.number, row.cells) for row in numbered('a\n"b\nc"\n\nd', ";")] == [
        (1, ("a",)),
        (2, ("b\nc",)),
        (4, ("d",)),
    ]


def test_decimal_comma_in_a_comma_table_needs_quotes(tmp_path: Path) -> None:
    bill = good(tmp_path, 'position,part_number,quantity,unit\n10,A,"1,5",M\n')
    assert bill.lines[0].quantity == Decimal("1.5")
