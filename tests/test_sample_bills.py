"""The sample bills are whole: without faults, with as many positions as a count by hand gives, each assembly
drawn, each callout on ink, the workbook the same as its folder, each check of a kind of measurement computed from
what the bill gives and what a fitter reads; the faulty one has exactly the faults it lists.
"""

from __future__ import annotations

import csv
import io
import math
from functools import cache
from pathlib import Path
from typing import Any

import attrs
import pytest
from PIL import Image

from teardown_app.domain.bill.check import Check
from teardown_app.domain.measure.demanded import kind_of
from teardown_app.domain.measure.judging import band
from teardown_app.domain.measure.measuring import checked, fields_of, measure
from teardown_app.domain.measure.typed import meant
from teardown_app.domain.measure.units import factor
from teardown_app.intake.bill import Reading, read_bill
from teardown_app.intake.materials import read_materials
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import NUMBERS, TABLE, Kind
from teardown_app.metrology.kinds import all_kinds

ROOT = Path(__file__).parents[1]
SAMPLES = ROOT / "sample_bills"
GOOD = ("brd-25", "ddp-12", "kbw-60")
MATERIALS = read_materials(ROOT / "assets")
COUNTED = {"", "EA", "PR", "SET"}
MEASURED = {"M", "MM", "CM", "FT", "IN", "KG", "G", "L", "ML"}
CALLOUT_NEAR_PX = 3
SAMPLES_BYTES_MAX = 3_000_000
KINDS_AT_LEAST = 15

TURN = [0.004, 0.006, 0.007, 0.008, 0.007, 0.006, 0.004, 0.002, 0.001, 0.0, 0.001, 0.002]
"""An indicator over one turn, read every 30 degrees, mm."""

SEAT = [[150, 0, 0.0], [75, 130, 0.012], [-75, 130, 0.02], [-150, 0, 0.015], [-75, -130, 0.004], [75, -130, -0.006]]
"""Places and heights on the bowl seat, mm."""

PLATE = [[0.0, 0.05, 0.08], [0.02, 0.11, 0.1], [0.01, 0.06, 0.12]]
STROKES = [11.97, 11.96, 11.98, 11.97, 11.95, 11.99, 11.97, 11.96, 11.98, 11.97]
LAND = [0.3 * math.sin(n / 20) for n in range(9700)]
WARMING = {"temperature_start": 21.5, "temperature_end": 21.6}
DRY, WARM = {"resistance": 400, "temperature": 23}, {"resistance": 1.90, "temperature": 23.5}

READ: dict[str, dict[str, dict[str, Any]]] = {
    "brd-25": {
        "bowl-roughness": {"readings": [0.31]},
        "bowl-roundness": {"diameters": [340.10, 340.32, 340.21, 340.18]},
        "land-trace": {"heights": LAND, "step": 0.0005},
        "bonding": {"resistance": 0.032},
        "plate-flatness": {"points": SEAT},
        "rotor-runout": {"readings": [10 * one for one in TURN]},
        "rotor-screw": {"torque": 33},
        "rotor-vibration": {"velocity": 1.1},
        "rotor-balance": {"residual_a": 42, "residual_b": 57},
        "spindle-runout": {"readings": TURN},
        "seat-diameter": {"reading": 25.006},
        "bore-out-of-round": {"diameters": [52.011, 52.013, 52.012, 52.009]},
        "winding-resistance": WARM,
        "winding-unbalance": {"resistances": [1.87, 1.86, 1.88]},
        "insulation-resistance": DRY,
        "heater-resistance": {"measured": 53.4},
        "blanket-resistance": {"measured": 131.0},
        "sensor-resistance": {"resistance": 100.09},
        "line-leak": {"start": 4000, "end": 3990, **WARMING},
        "water-resistivity": {"resistivity": 18.6, "temperature": 23},
        "particles": {"count": 21},
    },
    "ddp-12": {
        "seat-fit": {"reading": 7.997},
        "winding-resistance": {"resistance": 1.12, "temperature": 23},
        "winding-unbalance": {"resistances": [1.12, 1.10]},
        "head-leak": {"start": 1500, "end": 1499, "temperature_start": 21.5, "temperature_end": 21.5},
        "stroke-volume": {"weighings": STROKES, "temperature": 21.5},
    },
    "kbw-60": {
        "schutzleiter": {"resistance": 0.041},
        "rauheit-kammer": {"readings": [0.44, 0.51, 0.39, 0.47, 0.66, 0.42, 0.45]},
        "fuehler-widerstand": {"resistance": 99.93},
        "rundlauf-korb": {"readings": [40 * one for one in TURN]},
        "lagersitz": {"reading": 40.008},
        "rundlauf-welle": {"readings": TURN},
        "bohrung": {"reading": 80.014},
        "bohrung-rund": {"diameters": [80.012, 80.016, 80.014, 80.011]},
        "wicklung": {"resistances": [9.41, 9.46, 9.38]},
        "isolation": DRY,
        "schwingung": {"velocity": 1.9},
        "heizung-widerstand": {"measured": 26.6},
        "register-widerstand": {"measured": 52.1},
        "greiflaeufe": {"passes": 30},
        "ebenheit-platte": {"heights": PLATE},
    },
}
"""What a fitter would read, invented: for each check of a kind of measurement the fields that the bill cannot know."""


@cache
def read(name: str) -> Reading:
    """A sample bill as the app reads it, once for all tests."""
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
    sheets = {one: Image.open(picture(name, one)).convert("L") for one in {c.drawing for c in bill.callouts}}
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


def of_a_kind() -> list[tuple[str, Check, Kind]]:
    """Every check of the samples whose type is a kind of measurement."""
    bills = [(name, bill) for name in GOOD if (bill := read(name).bill)]
    checks = [(name, check) for name, bill in bills for check in bill.checks.values()]
    return [(name, check, kind) for name, check in checks if (kind := kind_of(check))]


def known_of(check: Check, kind: Kind) -> dict[str, Any]:
    """What the bill gives beforehand, in the units of the fields."""
    fields = {field.name: field for field in kind.fields}
    told = [[part.strip() for part in one.partition("=")] for one in check.given]
    return {name: meant(fields[name], value) for name, _, value in told}


@pytest.mark.parametrize(
    ("name", "check", "kind"), [pytest.param(*one, id=f"{one[0]} {one[1].name}") for one in of_a_kind()]
)
def test_a_check_of_a_kind_is_computed_and_its_limit_is_in_the_unit_of_what_is_judged(
    name: str, check: Check, kind: Kind
) -> None:
    """From what the bill gives and what is read at the tool; good readings are accepted."""
    known, taken = known_of(check, kind), READ[name][check.name]
    assert not known.keys() & taken.keys(), "asked for although the bill knows it"
    result = measure(kind, {**known, **taken}).result
    if not kind.judged:
        assert result.verdict == "accept"
        return
    assert check.limit is not None
    value = next(one for one in result.values if one.name == kind.judged)
    times, limit = factor(value.unit, check.limit.unit), band(check.limit)
    assert times is not None and limit is not None and isinstance(value.value, float)
    judged = value.value * float(times)
    assert float(limit.min if limit.min is not None else "-inf") <= judged
    assert judged <= float(limit.max if limit.max is not None else "inf")


def test_every_invented_reading_belongs_to_a_check_of_a_kind() -> None:
    """And none is missing; a row or table of readings is as long as the check wants it."""
    found = of_a_kind()
    assert {name: set(read_) for name, read_ in READ.items()} == {
        name: {check.name for of, check, _ in found if of == name} for name in GOOD
    }
    for name, check, kind in found:
        rows = [READ[name][check.name].get(field.name) for field in kind.fields if field.form in (NUMBERS, TABLE)]
        if check.readings > 1 and any(rows):
            assert [len(row) for row in rows if row] == [check.readings], check.name


def test_what_a_kind_needs_and_nobody_gives_is_missed() -> None:
    """The test above can fail: without the fitter's reading, or with a field that is none, nothing is computed."""
    _, check, kind = next(one for one in of_a_kind() if one[1].name == "stroke-volume")
    with pytest.raises(BadInput):
        measure(kind, known_of(check, kind))
    with pytest.raises(BadInput):
        checked(fields_of(kind), {"weighing": [11.97]})


def test_what_stands_twice_in_a_check_says_the_same() -> None:
    """Kinds that judge by themselves take their limit from `given`; the bill's own limit is the same."""
    for _, check, kind in of_a_kind():
        known, limit = known_of(check, kind), check.limit
        if kind.name == "roughness" and limit is not None:
            assert limit.unit == "um" and limit.max is not None
            assert (known["limit"], known["rule"]) == (float(limit.max), check.values_rule or "maximum")
        if kind.name == "fit" and limit is not None:
            assert limit.unit == "mm" and limit.nominal is not None and band(limit) is not None
            assert (known["nominal"], known["fit"]) == (float(limit.nominal), limit.fit)


def test_the_samples_show_what_a_check_can_be() -> None:
    """Kinds of measurement, decision rules, the 16 % rule, comparisons with a difference allowed, a second look."""
    bills = [bill for name in GOOD if (bill := read(name).bill)]
    checks = [check for bill in bills for check in bill.checks.values()]
    used = {name for bill in bills for line in bill.lines for name in line.checks}
    assert {check.name for check in checks} <= used, "no line names it"
    assert len({kind.name for _, _, kind in of_a_kind()} & all_kinds().keys()) >= KINDS_AT_LEAST
    careful = [check for check in checks if check.rule in ("guarded", "four-way")]
    assert all(check.instrument and check.limit for check in careful)
    assert [check.rule for check in careful].count("guarded") >= 2 and "four-way" in [check.rule for check in careful]
    assert any(check.values_rule == "16 %" and check.readings >= 7 for check in checks)
    compared = {check.limit.compare for check in checks if check.limit and check.limit.max is not None}
    assert {"pair", "as found"} <= compared
    assert any(check.again_h for check in checks)
