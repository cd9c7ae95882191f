"""Importing a module only defines names, and no command brings Kivy in; each check is shown to fail."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.sources import PACKAGE, PROJECT, sources

PROGRAM = Path(__file__).with_name("on_import.py")


def modules(root: Path, *, without: tuple[str, ...] = ()) -> list[str]:
    """Dotted names of all modules of the package but those of the rooms named."""
    found = [source.steps for source in sources(root, PACKAGE)]
    kept = [steps for steps in found if steps[1] not in without]
    return [".".join(steps[:-1] if steps[-1] == "__init__" else steps) for steps in kept]


def imported(root: Path, names: list[str]) -> tuple[list[str], set[str]]:
    """Deeds done while these were imported in a program of its own, and top-level names then loaded."""
    asked = [sys.executable, str(PROGRAM), PACKAGE, *names]
    run = subprocess.run(asked, cwd=root, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    return run.stdout.splitlines(), set(run.stderr.splitlines()[-1].split())


def test_importing_a_module_only_defines_names() -> None:
    """No module writes, connects, starts a thread or a program because it was imported."""
    deeds, _ = imported(PROJECT, modules(PROJECT, without=("ui",)))
    assert deeds == []


def test_commands_never_import_kivy() -> None:
    """Everything but the touch app loads without a window system."""
    _, loaded = imported(PROJECT, modules(PROJECT, without=("ui",)))
    assert PACKAGE in loaded
    assert "kivy" not in loaded


def package_with(root: Path, text: str) -> Path:
    """A package of its own, one of whose modules does this when imported."""
    (root / PACKAGE).mkdir()
    (root / PACKAGE / "__init__.py").write_text("", encoding="utf-8")
    (root / PACKAGE / "fit.py").write_text(text, encoding="utf-8")
    return root


@pytest.mark.parametrize(
    "text",
    [
        "open('left.txt', 'w').close()",
        "from pathlib import Path\nPath('left.txt').write_text('x')",
        "from pathlib import Path\nclass Fit:\n    Path('left').mkdir()",
        "import os\nos.open('left.txt', os.O_CREAT | os.O_WRONLY)",
        "import socket\nsocket.socket()",
        "import subprocess, sys\nsubprocess.run([sys.executable, '-c', ''])",
        "import threading\nthreading.Thread(target=threading.Event().wait, daemon=True).start()",
        "def begin():\n    open('left.txt', 'a').close()\nbegin()",
    ],
)
def test_a_module_that_does_something_when_imported_is_named(tmp_path: Path, text: str) -> None:
    """A deed at the top level is told, whoever carries it out."""
    root = package_with(tmp_path, text)
    assert imported(root, modules(root))[0] != []


def test_a_module_that_only_defines_and_reads_is_let_be(tmp_path: Path) -> None:
    """Reading one's own data and defining functions that would write is no deed."""
    root = package_with(tmp_path, "open(__file__).close()\ndef keep(p):\n    open(p, 'w').close()\n")
    assert imported(root, modules(root))[0] == []


def test_kivy_brought_in_by_any_module_would_be_seen(tmp_path: Path) -> None:
    """A stand-in called kivy, imported by one module, shows among what is loaded."""
    root = package_with(tmp_path, "import kivy")
    (root / "kivy.py").write_text("", encoding="utf-8")
    assert "kivy" in imported(root, modules(root))[1]
