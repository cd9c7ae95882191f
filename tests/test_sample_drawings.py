"""The drawings that lie beside a sample bill are those that the pen draws from it. The smallest bill stands for all;
the others take seconds, and it is the same pen. That every callout of all bills lies on ink: test_sample_bills.py."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from shutil import copytree, ignore_patterns

import numpy as np
from PIL import Image

from tests.patience import WHOLE_RUN_S

SAMPLES = Path(__file__).parents[1] / "sample_bills"
DRAW = "import sys; from pathlib import Path; from draw import draw_tool; draw_tool(Path(sys.argv[1]))"
OTHER_LETTERS_PX = 300
"""So many pixels of a sheet may differ: another version of the library sets letters a little differently."""


def pixels_that_differ(one: Path, other: Path) -> int:
    """Those that are light in one and dark in the other; sheets of two sizes differ throughout."""
    pages = [np.asarray(Image.open(path).convert("L"), int) for path in (one, other)]
    if pages[0].shape != pages[1].shape:
        return pages[0].size
    return int((np.abs(pages[0] - pages[1]) > 128).sum())


def test_the_drawings_of_the_pump_are_drawn_again(tmp_path: Path) -> None:
    """Callouts to the byte, sheets to the letter."""
    there, drawn = SAMPLES / "ddp-12", tmp_path / "ddp-12"
    copytree(there, drawn, ignore=ignore_patterns("drawings", "callouts.csv"))
    subprocess.run([sys.executable, "-B", "-c", DRAW, str(drawn)], cwd=SAMPLES, check=True, timeout=WHOLE_RUN_S)
    assert (drawn / "callouts.csv").read_bytes() == (there / "callouts.csv").read_bytes()
    sheets = sorted(path.name for path in (there / "drawings").iterdir())
    assert sorted(path.name for path in (drawn / "drawings").iterdir()) == sheets
    for name in sheets:
        assert pixels_that_differ(there / "drawings" / name, drawn / "drawings" / name) <= OTHER_LETTERS_PX, name


def test_a_sheet_without_a_part_would_be_found(tmp_path: Path) -> None:
    """Two sheets of the pump are not the same, and a sheet with a hole in its ink is not the sheet."""
    sheets = sorted((SAMPLES / "ddp-12" / "drawings").iterdir())
    assert pixels_that_differ(sheets[0], sheets[1]) > OTHER_LETTERS_PX
    page = Image.open(sheets[0]).convert("L")
    middle = page.width // 2, page.height // 2
    page.paste(255, (middle[0] - 150, middle[1] - 150, middle[0] + 150, middle[1] + 150))
    page.save(tmp_path / "hole.png")
    assert pixels_that_differ(sheets[0], tmp_path / "hole.png") > OTHER_LETTERS_PX
