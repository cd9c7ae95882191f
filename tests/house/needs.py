"""Outside libraries that the package imports against those that pyproject.toml names."""

from __future__ import annotations

import re
import sys
import tomllib
from pathlib import Path

from tests.house.rooms import imported
from tests.house.sources import PACKAGE, Fault, sources

IMPORTED_AS = {
    "fonttools": "fontTools",
    "fpdf2": "fpdf",
    "opencv-python-headless": "cv2",
    "pillow": "PIL",
    "python-stdnum": "stdnum",
    "zxing-cpp": "zxingcpp",
}
"""Distributions whose import name is another."""

FOR_USERS = ("camera",)
"""Extras that people install for what they want to use; the others are for tests."""

OF_ANDROID = {"android", "jnius"}
"""What an Android package brings with it, imported there alone."""


def named(root: Path) -> set[str]:
    """Import names of the dependencies in pyproject.toml, extras for tests left aside."""
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project.get("optional-dependencies", {})
    needs = [*project["dependencies"], *(need for name in FOR_USERS for need in extras.get(name, ()))]
    heads = [re.split(r"[^A-Za-z0-9._-]", need, maxsplit=1)[0] for need in needs]
    return {IMPORTED_AS.get(head, head) for head in heads}


def unnamed_faults(root: Path) -> list[Fault]:
    """Imports of the package that a fresh machine would not have."""
    there = named(root) | set(sys.stdlib_module_names) | {PACKAGE, "attr"} | OF_ANDROID
    return [
        Fault(source.file, line, f"imports {name}, which pyproject.toml does not name")
        for source in sources(root, PACKAGE)
        for line, name in imported(source)
        if name.split(".")[0] not in there
    ]
