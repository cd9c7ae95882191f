"""What the package imports is named in pyproject.toml, so that a fresh machine has it."""

from __future__ import annotations

from pathlib import Path

from tests.house.needs import unnamed_faults
from tests.house.sources import PROJECT, told

PYPROJECT = '[project]\nname = "x"\ndependencies = ["pillow>=10", "fpdf2"]\n'


def test_everything_imported_is_named() -> None:
    """No module leans on a library that happens to be installed here."""
    faults = unnamed_faults(PROJECT)
    assert not faults, told(faults)


def test_a_library_that_is_not_named_is_told(tmp_path: Path) -> None:
    """Two named libraries under their import names pass, a third does not."""
    (tmp_path / "pyproject.toml").write_text(PYPROJECT, encoding="utf-8")
    (tmp_path / "teardown_app").mkdir()
    text = "import os\nfrom PIL import Image\nimport fpdf\nimport yaml\n"
    (tmp_path / "teardown_app" / "a.py").write_text(text, encoding="utf-8")
    assert [fault.line for fault in unnamed_faults(tmp_path)] == [4]
