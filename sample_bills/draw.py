"""Draws every assembly of the sample bills and writes callouts.csv from the same places.

python sample_bills/draw.py            all sample tools
python sample_bills/draw.py brd-25     one of them
"""

from __future__ import annotations

import csv
import sys
import tomllib
from pathlib import Path

from drawing.lines import DrawnLine, about, lines_of
from drawing.pen import SHEET_PX
from drawing.sheet import Title, draw_sheet

HERE = Path(__file__).parent
TOOLS = ("brd-25", "ddp-12", "kbw-60")
GENERAL = "general"
"""Name of the sheet that shows the whole tool."""


def assemblies_of(lines: list[DrawnLine]) -> dict[str, list[DrawnLine]]:
    """Children of each assembly; those of the tool itself under the empty name."""
    below: dict[str, list[DrawnLine]] = {}
    for line in lines:
        below.setdefault(line.parent, []).append(line)
    return below


def draw_tool(folder: Path) -> None:
    """All sheets of one tool, and where everything is on them."""
    plans = tomllib.loads((HERE / "drawing" / f"{folder.name}.toml").read_text(encoding="utf-8"))
    lines = lines_of(folder)
    names = {line.position: line.description.lstrip(". ") for line in lines}
    drawings = folder / "drawings"
    drawings.mkdir(exist_ok=True)
    callouts = []
    for position, children in assemblies_of(lines).items():
        number = position or GENERAL
        title = Title(
            str(about(folder)["model"]),
            str(about(folder)["revision"]),
            number,
            names.get(position, "GENERAL ARRANGEMENT"),
        )
        pen, points = draw_sheet(title, children, plans.get(number, {}))
        pen.save(drawings / f"{number}.png")
        callouts += [(f"{number}.png", at, *points[at]) for at in points]
    write_callouts(folder / "callouts.csv", callouts)


def write_callouts(path: Path, callouts: list[tuple[str, str, float, float]]) -> None:
    """callouts.csv with fractions from the top left."""
    with path.open("w", encoding="utf-8", newline="") as out:
        table = csv.writer(out, lineterminator="\r\n")
        table.writerow(("drawing", "position", "x", "y"))
        for drawing, position, x, y in callouts:
            table.writerow((drawing, position, f"{x / SHEET_PX[0]:.4f}", f"{y / SHEET_PX[1]:.4f}"))


if __name__ == "__main__":
    for name in sys.argv[1:] or TOOLS:
        draw_tool(HERE / name)
