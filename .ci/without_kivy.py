"""Runs the lower rooms' tests where Kivy is not installed.

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
NOT_LOWER = {"ui", "house", "benchmarks"}
"""Folders of tests that are about the touch app or the house itself."""


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


def run_tests() -> int:
    """Exit code of the lower rooms' tests; 1 where Kivy could be imported after all."""
    if subprocess.run([PYTHON, "-c", "import kivy"], stderr=subprocess.DEVNULL, check=False).returncode == 0:
        print("without-kivy: Kivy can be imported here, so these tests would prove nothing", file=sys.stderr)
        return 1
    tests = (path.relative_to(HERE) for path in (HERE / "tests").rglob("test_*.py"))
    rooms = {path.parts[1] for path in tests if len(path.parts) > 2}
    folders = [f"tests/{room}" for room in sorted(rooms - NOT_LOWER)]
    marks = ["-m", "not slow and not faults", "-n", "auto", "--dist", "worksteal"]
    return subprocess.run(
        [PYTHON, "-m", "pytest", "-x", "-p", "no:cacheprovider", *marks, *folders], cwd=HERE, check=False
    ).returncode


if __name__ == "__main__":
    make_ready(needs())
    sys.exit(run_tests())
