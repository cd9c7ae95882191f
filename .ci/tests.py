"""Runs every test once, on all cores: the touch app's in `.venv`, those of the lower rooms where Kivy is not installed.

A second environment, `.venv/without-kivy`, gets what pyproject.toml names, less Kivy and the tools that
no test imports. Nothing is listed twice: a dependency added to pyproject.toml is added here too.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
import venv
from pathlib import Path

HERE = Path(__file__).resolve().parent.parent
PLACE = HERE / ".venv" / "without-kivy"
PYTHON = PLACE / "bin" / "python"
READY = PLACE / "ready"
LEFT_OUT = {"kivy", "ruff", "mypy", "types-openpyxl"}
ABOUT_THE_APP = {"ui", "house", "benchmarks"}
"""Folders of tests that are about the touch app or the house itself; so are the files beside the folders."""
SHARED = ["-n", "auto", "--dist", "worksteal"]
"""Tests are shared by as many processes as there are cores."""


def needs() -> list[str]:
    """Requirements from pyproject.toml without those left out."""
    project = tomllib.loads((HERE / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    named = project["dependencies"] + project["optional-dependencies"]["test"]
    return [need for need in named if name_of(need) not in LEFT_OUT]


def name_of(need: str) -> str:
    """Distribution name at the head of a requirement, in lower case."""
    match = re.match(r"[A-Za-z0-9._-]+", need)
    if match is None:
        raise SystemExit(f"pyproject.toml: requirement {need!r} does not begin with a name")
    return match[0].lower()


def make_ready(wanted: list[str]) -> None:
    """Make the environment unless it already holds just this."""
    stamp = "\n".join([str(HERE), *wanted])
    if READY.is_file() and READY.read_text(encoding="utf-8") == stamp:
        return
    print("without-kivy: making the second environment", flush=True)
    venv.create(PLACE, with_pip=True, clear=True)
    pip = [str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    if subprocess.run([*pip, *wanted], check=False).returncode != 0:
        raise SystemExit(
            "without-kivy: pip could not install what pyproject.toml names (see above); the first run needs a network"
        )
    READY.write_text(stamp, encoding="utf-8")


def has_kivy(python: str | Path) -> bool:
    """Can Kivy be found there?"""
    asks = "import importlib.util, sys; sys.exit(importlib.util.find_spec('kivy') is None)"
    return subprocess.run([python, "-c", asks], check=False).returncode == 0


def halves() -> tuple[list[str], list[str]]:
    """Folders and files about the touch app, and folders of the lower rooms."""
    tests = [path.relative_to(HERE) for path in sorted((HERE / "tests").rglob("test_*.py"))]
    rooms = {path.parts[1] for path in tests if len(path.parts) > 2}
    beside = [str(path) for path in tests if len(path.parts) == 2]
    app = [f"tests/{room}" for room in sorted(rooms & ABOUT_THE_APP)]
    return app + beside, [f"tests/{room}" for room in sorted(rooms - ABOUT_THE_APP)]


def run(python: str | Path, tests: list[str]) -> int:
    """Exit code of these tests."""
    return subprocess.run(
        [python, "-m", "pytest", "-p", "no:cacheprovider", *SHARED, *tests], cwd=HERE, check=False
    ).returncode


def main() -> int:
    """Exit code of all tests; 1 too where Kivy could be found after all."""
    make_ready(needs())
    if has_kivy(PYTHON):
        print(
            "without-kivy: Kivy is installed there, so the tests of the lower rooms would prove nothing",
            file=sys.stderr,
        )
        return 1
    app, lower = halves()
    return max(run(sys.executable, app), run(PYTHON, lower))


if __name__ == "__main__":
    sys.exit(main())
