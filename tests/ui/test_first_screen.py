"""What the first screen does not wait for."""

from __future__ import annotations

import subprocess
import sys

HEAVY = ("numpy", "fpdf", "openpyxl", "fontTools", "kivy")
"""Libraries that are loaded when something first needs them (the window brings Kivy itself)."""


def test_screens_and_desk_load_no_large_library() -> None:
    """In a fresh process."""
    code = "import sys, teardown_app.ui.table, teardown_app.ui.desk; print(*(n for n in %r if n in sys.modules))"
    told = subprocess.run([sys.executable, "-c", code % (HEAVY,)], capture_output=True, text=True, check=True)
    assert told.stdout.split() == []
