"""The app on two tablets, each file of `tests/ui/glass` in a process of its own with a real window."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.patience import WHOLE_RUN_S
from tests.ui.profiles import TABLETS
from tests.ui.window import needs_a_window, window

PROJECT = Path(__file__).parents[2]
GLASS = Path(__file__).parent / "glass"
FILES = sorted(file.name for file in GLASS.glob("test_*.py"))

ON_ONE = {"test_sweeps.py": 0, "test_touches.py": 1, "test_typing.py": 0, "test_camera.py": 1}
"""Files that `make test` runs on one tablet, by its place in `TABLETS`; `make glass` runs each on both."""


def pairs() -> list[tuple[str, str]]:
    """Files and tablets."""
    every = [(file, tablet) for file in FILES for tablet in TABLETS]
    tablets = list(TABLETS)
    if os.environ.get("TEARDOWN_GLASS") == "each":
        return every
    return [
        (file, tablet) for file, tablet in every if tablets.index(tablet) == ON_ONE.get(file, tablets.index(tablet))
    ]


@needs_a_window
@pytest.mark.parametrize(("file", "tablet"), pairs())
def test_on_the_glass(file: str, tablet: str, tmp_path: Path) -> None:
    """All tests of one file on one tablet; whatever they leave lies in a folder of this test."""
    command = [sys.executable, "-m", "pytest", str(GLASS / file), "-q", "-p", "no:cacheprovider"]
    with window() as environment:
        own = {**environment, "TEARDOWN_TABLET": tablet, "TMPDIR": str(tmp_path)}
        done = subprocess.run(command, env=own, cwd=PROJECT, capture_output=True, text=True, timeout=WHOLE_RUN_S)
    assert done.returncode == 0, done.stdout[-6000:] + done.stderr[-2000:]
    assert "100%" in done.stdout, done.stdout
