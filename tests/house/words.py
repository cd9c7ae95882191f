"""Words that must not stand in the project's files, and what may lie at its top.

Paths of one machine and hosts of package registries belong nowhere; words of the program's inside do
not belong in sentences that people read.
"""

from __future__ import annotations

import ast
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

from tests.house.sources import PACKAGE, Fault, Source, sources

MACHINE_FOLDERS = ("tmp", "root", "home", "work", "opt")
MACHINE_PATH = re.compile(r"(?<![\w.~*])/(?:" + "|".join(MACHINE_FOLDERS) + r")/")
REGISTRY_HOST = re.compile(r"\bpypi\.(?:python\.)?org|\bpythonhosted\.org|\bdeb\.debian\.org", re.IGNORECASE)
MADE_HERE = {
    ".git",
    ".venv",
    "__pycache__",
    ".pytest_cache",
    ".hypothesis",
    ".ruff_cache",
    ".mypy_cache",
    "build",
    "dist",
    "demo-out",
}
MAY_NAME_THE_MACHINE = ("Makefile", ".ci/")

AT_THE_TOP = {
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "LICENSE",
    "Makefile",
    "pyproject.toml",
    PACKAGE,
    "assets",
    "tests",
    "sample_bills",
    "docs",
}

READ_BY_PEOPLE = {
    "__main__",
    "cli",
    "domain",
    "exchange",
    "intake",
    "labels",
    "records",
    "report",
    "ui",
    "workflows",
    "workshop",
}
OF_THE_INSIDE = re.compile(r"\b(journals?|facets?|forks?|forked|heads?|record ids?|envelopes?)\b", re.IGNORECASE)
SCREW_HEADS = "hex|pan|socket|cap|round|countersunk|flat"
IN_THE_TRADE = re.compile(
    rf"\b(journal bearings?|(?:{SCREW_HEADS}|pump|spray|shower|cylinder) heads?)\b", re.IGNORECASE
)
WORDS_OF_A_SENTENCE = 3


def kept_files(root: Path) -> list[str]:
    """Files that git keeps; where the folder is no clone, every file but what is made here."""
    asked = ["git", "-C", str(root), "ls-files", "-z"]
    try:
        listed = subprocess.run(asked, capture_output=True, check=True).stdout.decode()
    except (OSError, subprocess.CalledProcessError):
        there = (path.relative_to(root) for path in root.rglob("*") if path.is_file())
        return sorted(path.as_posix() for path in there if not MADE_HERE & set(path.parts))
    return [file for file in listed.split("\0") if file and (root / file).is_file()]


def machine_faults(root: Path, files: list[str]) -> list[Fault]:
    """Lines that name a path of one machine or a host of a package registry."""
    looked_at = [file for file in files if not file.startswith(MAY_NAME_THE_MACHINE)]
    return [fault for file in looked_at for fault in in_file(root, file)]


def in_file(root: Path, file: str) -> Iterator[Fault]:
    """Offending lines of one file; a file that is no text has none."""
    try:
        text = (root / file).read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return
    for number, line in enumerate(text.splitlines(), start=1):
        if MACHINE_PATH.search(line):
            yield Fault(file, number, "names a path of one machine")
        if REGISTRY_HOST.search(line):
            yield Fault(file, number, "names the host of a package registry")


def top_faults(files: list[str]) -> list[Fault]:
    """What lies at the top of the project and has no place there."""
    top = sorted({file.split("/")[0] for file in files})
    return [
        Fault(name, 1, "has no place at the top of the project")
        for name in top
        if name not in AT_THE_TOP and not name.startswith(".")
    ]


def inside_word_faults(root: Path) -> list[Fault]:
    """Sentences for people that use a word of the program's inside."""
    return [fault for source in sources(root, PACKAGE) if source.steps[1] in READ_BY_PEOPLE for fault in spoken(source)]


def spoken(source: Source) -> Iterator[Fault]:
    """Faults in the sentences of one file, docstrings of code left aside."""
    silent = docstrings(source.tree)
    for node in ast.walk(source.tree):
        if not isinstance(node, ast.Constant) or not isinstance(node.value, str) or id(node) in silent:
            continue
        said = IN_THE_TRADE.sub("", node.value)
        found = OF_THE_INSIDE.search(said)
        if found and len(node.value.split()) >= WORDS_OF_A_SENTENCE:
            yield Fault(source.file, node.lineno, f"says {found[0]!r}, a word of the program's inside")


def docstrings(tree: ast.Module) -> set[int]:
    """Identities of the constants that stand alone as a statement: docstrings and notes on attributes."""
    return {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
