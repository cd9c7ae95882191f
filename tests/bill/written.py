"""Bills written to disk for a test, so that the reader sees input and expectation at a glance."""

from __future__ import annotations

from pathlib import Path

import openpyxl

from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.bill.materials import Materials
from teardown_app.intake.bill import Reading, read_bill
from teardown_app.intake.materials import read_materials

ASSETS = Path(__file__).parents[2] / "assets"
ABOUT = 'model = "M1"\nrevision = "A"\napproved_by = "XY"\n'
HEAD = "position,part_number,quantity"


def materials() -> Materials:
    """The table of materials that comes along."""
    return read_materials(ASSETS)


def folder(place: Path, bill: str | bytes | None, **files: str | bytes) -> Path:
    """A bill's folder. `checks="…"` writes checks.toml; `drawings` are names separated by blanks."""
    place.mkdir(parents=True, exist_ok=True)
    names = {"components": "components.csv", "callouts": "callouts.csv", "about": "bill.toml"}
    files.setdefault("about", ABOUT)
    for name in str(files.pop("drawings", "")).split():
        (place / "drawings").mkdir(exist_ok=True)
        (place / "drawings" / name).write_bytes(b"picture")
    for name, text in files.items():
        _write(place / names.get(name, f"{name}.toml"), text)
    if bill is not None:
        _write(place / "bill.csv", bill)
    return place


def _write(path: Path, text: str | bytes) -> None:
    path.write_bytes(text if isinstance(text, bytes) else text.encode())


def read(place: Path, bill: str | bytes | None, **files: str | bytes) -> Reading:
    """Write a folder and read it."""
    return read_bill(folder(place / "bill", bill, **files), materials())


def lines(*rows: str, head: str = HEAD) -> str:
    """A text table: heading and rows."""
    return "\n".join((head, *rows)) + "\n"


def good(place: Path, bill: str | bytes, **files: str | bytes) -> Bill:
    """A bill that must be without faults."""
    reading = read(place, bill, **files)
    assert reading.faults == []
    assert reading.bill is not None
    return reading.bill


def told(reading: Reading) -> list[tuple[str, int, str]]:
    """Where the faults stand: file, row, column."""
    return [(fault.file, fault.row, fault.column) for fault in reading.faults]


def faults(place: Path, bill: str | bytes | None, **files: str | bytes) -> list[tuple[int, str]]:
    """Row and column of all faults of bill.csv."""
    return [(row, column) for file, row, column in told(read(place, bill, **files)) if file == "bill.csv"]


def notes(reading: Reading) -> list[tuple[int, str]]:
    """Row and column of all notes of the lines."""
    return [(note.row, note.column) for note in reading.notes if note.file == "bill.csv"]


def workbook(path: Path, **sheets: list[list[object]]) -> Path:
    """A workbook with these sheets; `about` is added when it is not given."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    if "about" not in {name.casefold() for name in sheets}:
        sheets["about"] = [["key", "value"], ["model", "M1"], ["revision", "A"], ["approved_by", "XY"]]
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    book.save(path)
    return path
