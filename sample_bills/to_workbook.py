"""Writes a sample bill's folder as one workbook beside its files, with the same content.

python sample_bills/to_workbook.py brd-25
"""

from __future__ import annotations

import csv
import datetime as dt
import sys
import tomllib
from pathlib import Path
from typing import Any

from openpyxl import Workbook
from openpyxl.styles import Font
from openpyxl.worksheet.worksheet import Worksheet

HERE = Path(__file__).parent
TEXT_COLUMNS = ("position", "part_number", "fit_after", "line", "assemblies", "maker_number", "revision")
"""Never number cells: 10.20 would become 10.2."""
LIMITS = ("max", "min", "nominal", "tolerance", "fit", "compare", "count", "picture")
WRITTEN = dt.datetime(2024, 1, 15, 8, 0)


def write_workbook(folder: Path) -> Path:
    """All sheets; drawings stay where they are, beside the workbook."""
    book = Workbook()
    book.remove(book.active)
    _fill(book.create_sheet("about"), [("key", "value"), *read_toml(folder / "bill.toml").items()])
    for name in ("bill", "components", "callouts"):
        _fill(book.create_sheet(name), read_csv(folder / f"{name}.csv"))
    _fill(book.create_sheet("checks"), check_rows(read_toml(folder / "checks.toml")))
    _fill(book.create_sheet("routes"), route_rows(read_toml(folder / "routes.toml")))
    _fill(book.create_sheet("gates"), gate_rows(read_toml(folder / "gates.toml")))
    _fill(book.create_sheet("recipes"), recipe_rows(read_toml(folder / "recipes.toml")))
    book.properties.created = book.properties.modified = WRITTEN
    book.save(folder / f"{folder.name}.xlsx")
    return folder / f"{folder.name}.xlsx"


def read_toml(path: Path) -> dict[str, Any]:
    """A file of tables."""
    return tomllib.loads(path.read_text(encoding="utf-8"))


def read_csv(path: Path) -> list[list[str]]:
    """A file of rows."""
    with path.open(encoding="utf-8-sig", newline="") as lines:
        return list(csv.reader(lines))


def check_rows(checks: dict[str, Any]) -> list[tuple[Any, ...]]:
    """One check a row, its limit in columns of their own."""
    spread = {name: {**check, **check.get("limit", {})} for name, check in checks.items()}
    for check in spread.values():
        check.pop("limit", None)
    return _table("name", spread.items())


def route_rows(routes: dict[str, Any]) -> list[tuple[Any, ...]]:
    """One operation a row."""
    rows = [
        (name, {"origin": route.get("origin", ""), **operation})
        for name, route in routes.items()
        for operation in route["operation"]
    ]
    return _table("name", rows)


def gate_rows(gates: dict[str, Any]) -> list[tuple[Any, ...]]:
    """One gate a row."""
    return _table("name", [(name, {"assemblies": "", **gate}) for name, gate in gates.items()])


def recipe_rows(recipes: dict[str, Any]) -> list[tuple[Any, ...]]:
    """One step a row; what holds for the whole recipe stands in each."""
    rows = [
        (name, {**{k: v for k, v in recipe.items() if k != "steps"}, **step})
        for name, recipe in recipes.items()
        for step in recipe["steps"]
    ]
    return _table("name", rows)


def _table(first: str, named: Any) -> list[tuple[Any, ...]]:
    named = list(named)
    keys = list(dict.fromkeys(key for _, values in named for key in values))
    return [(first, *keys), *((name, *(_joined(values.get(key, "")) for key in keys)) for name, values in named)]


def _joined(value: Any) -> Any:
    return "; ".join(str(each) for each in value) if isinstance(value, list) else value


def _fill(sheet: Worksheet, rows: Any) -> None:
    heads: list[str] = []
    for number, row in enumerate(rows):
        heads = heads or list(row)
        sheet.append([_cell(head, value) for head, value in zip(heads, row, strict=True)] if number else list(row))
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    sheet.freeze_panes = "A2"
    for row in sheet.iter_rows(min_row=2):
        for cell in row:
            cell.number_format = "@" if heads[cell.column - 1] in TEXT_COLUMNS else cell.number_format


def _cell(head: str, value: Any) -> Any:
    if value == "" or not isinstance(value, str) or head in TEXT_COLUMNS:
        return None if value == "" else value
    try:
        return int(value) if value.isdigit() else float(value)
    except ValueError:
        return value


if __name__ == "__main__":
    for name in sys.argv[1:] or ["brd-25"]:
        print(write_workbook(HERE / name))
