"""The app on two tablets, each in a process of its own with a real window: journeys, sweeps, touches."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.ui.profiles import TABLETS

GLASS = Path(__file__).parent / "glass"
SCREEN = ["xvfb-run", "-a", "-s", "-screen 0 1400x1400x24"]


@pytest.mark.slow
@pytest.mark.parametrize("tablet", TABLETS)
def test_everything_on_the_glass(tablet: str) -> None:
    """All of `tests/ui/glass` on one tablet."""
    if shutil.which("xvfb-run") is None:
        pytest.skip("no window can be opened here: apt-get install xvfb xauth libgl1 libgl1-mesa-dri")
    environment = {**os.environ, "TEARDOWN_TABLET": tablet, "LIBGL_ALWAYS_SOFTWARE": "1"}
    command = [*SCREEN, sys.executable, "-m", "pytest", str(GLASS), "-q", "-p", "no:cacheprovider"]
    done = subprocess.run(command, env=environment, capture_output=True, text=True, timeout=400)
    assert done.returncode == 0, done.stdout[-6000:] + done.stderr[-2000:]
    assert "100%" in done.stdout, done.stdout
