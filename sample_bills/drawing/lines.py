"""The lines of a sample bill as the drawings need them: name, number, description, quantity, order.

A plain reading of our own clean folders; faults are the business of `bill check`.
"""

from __future__ import annotations

import csv
import tomllib
from dataclasses import dataclass
from pathlib import Path

OUR_WORDS = {
    "ebene": "level",
    "benennung": "description",
    "menge": "quantity",
    "einheit": "unit",
    "qty": "quantity",
    "sachnummer": "part_number",
    "p/n": "part_number",
    "me": "unit",
    "uom": "unit",
    "art": "kind",
}


@dataclass(frozen=True)
class DrawnLine:
    """One row."""

    position: str
    part_number: str
    description: str
    quantity: int
    kind: str

    @property
    def parent(self) -> str:
        """Name of the line above, empty at the top."""
        return self.position.rpartition(".")[0]

    @property
    def step(self) -> str:
        """Last step of the name, as the balloon shows it."""
        return self.position.rpartition(".")[2]


def rows_of(folder: Path) -> list[dict[str, str]]:
    """The rows of bill.csv under our own headings."""
    columns = {k.casefold(): v for k, v in about(folder).get("columns", {}).items()}
    raw = (folder / "bill.csv").read_bytes()
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = raw.decode("cp1252")
    first = text.splitlines()[0]
    table = csv.reader(text.splitlines(), delimiter=";" if first.count(";") > first.count(",") else ",")
    heads = [columns.get(h.casefold()) or OUR_WORDS.get(h.casefold(), h.casefold()) for h in next(table)]
    return [dict(zip(heads, row, strict=True)) for row in table]


def about(folder: Path) -> dict[str, object]:
    """bill.toml."""
    return tomllib.loads((folder / "bill.toml").read_text(encoding="utf-8"))


def lines_of(folder: Path) -> list[DrawnLine]:
    """Every line with its position."""
    steps: list[str] = []
    used: dict[str, int] = {}
    found = []
    for row in rows_of(folder):
        name = row.get("position") or _next_name(row["level"], steps, used)
        if name:
            found.append(_line(name, row))
    return found


def _next_name(level: str, steps: list[str], used: dict[str, int]) -> str:
    depth = int(level.lstrip(".-"))
    if depth == 0:
        return ""
    above = ".".join(steps[: depth - 1])
    used[above] = used.get(above, 0) + 10
    steps[depth - 1 :] = [str(used[above])]
    return ".".join(steps)


def _line(name: str, row: dict[str, str]) -> DrawnLine:
    whole = row["quantity"].isdigit()
    return DrawnLine(name, row["part_number"], row["description"], int(row["quantity"]) if whole else 1, row["kind"])
