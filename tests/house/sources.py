"""Python files of a tree, read once and parsed, and the fault that a check of the house reports."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

PROJECT = Path(__file__).resolve().parents[2]
PACKAGE = "teardown_app"


class Fault(NamedTuple):
    """What is wrong, and where."""

    file: str
    line: int
    says: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.says}"


class Source(NamedTuple):
    """One parsed Python file; `file` is its path below the tree, with forward slashes."""

    file: str
    tree: ast.Module

    @property
    def steps(self) -> tuple[str, ...]:
        """Folders and module name: ('teardown_app', 'domain', 'bill')."""
        return tuple(self.file.removesuffix(".py").split("/"))

    @property
    def package(self) -> tuple[str, ...]:
        """The package that relative imports of this file start from."""
        return self.steps[:-1]


def sources(root: Path, *folders: str) -> Iterator[Source]:
    """Every Python file beneath the named folders of `root`, in name order."""
    for folder in folders:
        for path in sorted((root / folder).rglob("*.py")):
            text = path.read_text(encoding="utf-8")
            yield Source(path.relative_to(root).as_posix(), ast.parse(text, str(path)))


def told(faults: list[Fault]) -> str:
    """The faults as the text of a failed assertion."""
    return "\n".join(["", *map(str, faults)])
