"""The sample bills are whole: without faults, with as many positions as a count by hand gives, each assembly
drawn, each callout on ink, the workbook the same as its folder; the faulty one has exactly the faults it lists.
"""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import Any

import attrs
import pytest
from PIL import Image

from teardown_app.intake.bill import Reading, read_bill
from teardown_app.intake.materials import read_materials

ROOT = Path(__file__).parents[1]
SAMPLES = ROOT / "sample_bills"
GOOD = ("brd-25", "ddp-12", "kbw-60")
MATERIALS = read_materials(ROOT / "assets")
COUNTED = {"", "EA", "PR", "SET"}
MEASURED = {"M", "MM", "CM", "FT", "IN", "KG", "G", "L", "ML"}
CALLOUT_NEAR_PX = 3
SAMPLES_BYTES_MAX = 3_000_000


def read(name: str) -> Reading:
    """A sample bill as the app reads it."""
    return read_bill(SAMPLES / name, MATERIALS)


def rows_of(name: str) -> list[list[str]]:
    """The cells of bill.csv, read without the app: UTF-8 with or without mark, else Windows-1252."""
    raw = (SAMPLES / name / "bill.csv").read_bytes()
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = raw.decode("cp1252")
    return list(csv.reader(io.StringIO(text), delimiter=";" if ";" in text.splitlines()[0] else ","))


def counted_by_hand(rows: list[list[str]]) -> int:
    """Positions, walking down the rows with the multiplicity of each level above.

    The first six columns of all three samples are place, number, description, quantity, unit, kind.
    """
    above: list[int] = []
    total = 0
    for place, _, _, quantity, unit, kind in (row[:6] for row in rows[1:]):
        depth = int(place.lstrip(".")) if rows[0][0] in ("Level", "Ebene") else place.count(".") + 1
        if depth == 0:
            continue
        over = above[depth - 2] if depth > 1 else 1
        here = over * int(quantity) if unit in COUNTED else over
        above[depth - 1 :] = [here]
        if unit in COUNTED or unit in MEASURED:
            total += over if kind == "hardware" or unit in MEASURED else here
    return total


@pytest.mark.parametrize("name", GOOD)
def test_a_good_bill_has_no_fault_and_as_many_positions_as_counted_by_hand(name: str) -> None:
    """Rows and positions are counted here from the bare cells, not by the app."""
    reading, rows = read(name), rows_of(name)
    assert [f"{f.file} {f.row} {f.column}: {f.message}" for f in reading.faults] == []
    assert reading.bill is not None
    tool_row = sum(row[0] == "0" for row in rows)
    assert len(reading.bill.lines) == len(rows) - 1 - tool_row
    assert reading.positions == counted_by_hand(rows) == len(reading.bill.positions)


def test_the_samples_are_as_large_as_promised() -> None:
    """Rinser-dryer at least 75 rows and about 90 positions, pump about 30 rows, washer about 350 rows."""
    assert len(rows_of("brd-25")) - 1 >= 75
    assert 80 <= counted_by_hand(rows_of("brd-25")) <= 110
    assert 28 <= len(rows_of("ddp-12")) - 1 <= 36
    assert 340 <= len(rows_of("kbw-60")) - 1 <= 360


def test_the_washer_multiplies_its_positions() -> None:
    """Six nozzles on each of four pipes in each of two chambers are 48 positions."""
    bill = read("kbw-60").bill
    assert bill is not None
    nozzles = next(line for line in bill.lines if line.part_number == "K60-1420-00")
    assert len(bill.positions_of(nozzles.position)) == 2 * 4 * 6


@pytest.mark.parametrize("name", GOOD)
def test_every_assembly_has_a_drawing(name: str) -> None:
    """And the reader knows which."""
    bill = read(name).bill
    assert bill is not None
    for line in bill.lines:
        if line.kind == "assembly":
            assert picture(name, bill.drawings[line.position]).is_file(), line.position


@pytest.mark.parametrize("name", GOOD)
def test_every_line_is_called_out_once_and_on_ink(name: str) -> None:
    """A callout in the white points at nothing."""
    bill = read(name).bill
    assert bill is not None
    assert sorted(c.position for c in bill.callouts) == sorted(line.position for line in bill.lines)
    sheets = {c.drawing: Image.open(picture(name, c.drawing)).convert("L") for c in bill.callouts}
    for callout in bill.callouts:
        assert 0 <= callout.x <= 1 and 0 <= callout.y <= 1
        assert is_dark_near(sheets[callout.drawing], callout.x, callout.y), f"{callout.drawing} {callout.position}"


@pytest.mark.parametrize("name", GOOD)
def test_no_two_callouts_of_a_sheet_lie_on_each_other(name: str) -> None:
    """A finger must be able to tell them apart: 1.5 % of the width, about 3 mm on a 200 mm sheet."""
    bill = read(name).bill
    assert bill is not None
    for one in bill.callouts:
        for other in bill.callouts:
            if one is not other and one.drawing == other.drawing:
                assert abs(one.x - other.x) + abs(one.y - other.y) > 0.015, f"{one.position} {other.position}"


def picture(name: str, drawing: str) -> Path:
    """The file of a drawing, named with or without its folder."""
    return SAMPLES / name / "drawings" / Path(drawing).name


def is_dark_near(sheet: Image.Image, x: float, y: float) -> bool:
    """Whether there is ink within a few pixels of a place."""
    cx, cy, n = round(x * sheet.width), round(y * sheet.height), CALLOUT_NEAR_PX
    darkest, _ = sheet.crop((cx - n, cy - n, cx + n + 1, cy + n + 1)).getextrema()
    return bool(darkest < 100)


def test_a_callout_in_the_white_would_be_found() -> None:
    """The ink test can fail: the upper left corner inside the frame is empty."""
    assert not is_dark_near(Image.open(SAMPLES / "brd-25" / "drawings" / "10.png").convert("L"), 0.03, 0.06)


def test_the_workbook_says_the_same_as_the_folder() -> None:
    """Lines, facts, checks, routes, gates, callouts; of recipes the names and what each step says."""
    folder, book = read("brd-25").bill, read("brd-25/brd-25.xlsx").bill
    assert folder is not None and book is not None
    for part in ("model", "revision", "approved_by", "lines", "components", "routes", "gates", "callouts", "drawings"):
        assert getattr(book, part) == getattr(folder, part), part
    assert {n: without_text(c) for n, c in book.checks.items()} == {
        n: without_text(c) for n, c in folder.checks.items()
    }
    assert steps_of(book.recipes) == steps_of(folder.recipes)


def without_text(check: Any) -> Any:
    """A check without the wording of its limit: one text in a cell, a table in the folder."""
    return attrs.evolve(check, limit=check.limit and attrs.evolve(check.limit, text=""))


def steps_of(recipes: dict[str, Any]) -> dict[str, list[str]]:
    """What each step of each recipe says."""
    return {name: [step["says"] for step in recipe["steps"]] for name, recipe in recipes.items()}


def listed_faults() -> list[tuple[str, str, str]]:
    """File, row and column of each fault in the table of expected.md."""
    text = (SAMPLES / "faulty" / "expected.md").read_text(encoding="utf-8")
    cells = [
        [cell.strip() for cell in line.strip().strip("|").split("|")]
        for line in text.splitlines()
        if line.startswith("|")
    ]
    return [(file, row, column) for file, row, column, _ in cells[2:]]


def test_the_faulty_bill_has_exactly_the_listed_faults() -> None:
    """None missed, none besides; and none listed twice where the reader says it once."""
    found = [(f.file, str(f.row or ""), f.column) for f in read("faulty").faults]
    assert sorted(found) == sorted(listed_faults())
    assert len(found) >= 20


def test_a_faulty_bill_gives_no_bill() -> None:
    """But its lines are still counted or said not to be countable."""
    assert read("faulty").bill is None


def test_the_samples_stay_small() -> None:
    """They are cloned by everybody."""
    assert (
        sum(p.stat().st_size for p in SAMPLES.rglob("*") if p.is_file() and "__pycache__" not in p.parts)
        < SAMPLES_BYTES_MAX
    )
