"""The table "What each word asks" of the document, read row by row; and which files read a field of a bill."""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path
from typing import NamedTuple

from tests.house.sources import PACKAGE, PROJECT, Source, sources

FORMATS = PROJECT / "docs" / "formats"
WHERE = ("point", "refused", "shown", "note", "fault", "nothing")
_SECTION = re.compile(r"^\*\*(.+)\*\*$", re.MULTILINE)


class Row(NamedTuple):
    """One row: its words, and where it shows when it is left undone, with what is said of each."""

    section: str
    words: tuple[str, ...]
    asks: str
    left_undone: dict[str, str]


@cache
def asked_rows() -> tuple[Row, ...]:
    """All rows of the section."""
    text = (FORMATS / "bill.md").read_text(encoding="utf-8")
    section = re.split(r"^## ", text.partition("## 11. ")[2], flags=re.MULTILINE)[0]
    parts = _SECTION.split(section)[1:]
    return tuple(
        _row(name, line)
        for name, part in zip(parts[::2], parts[1::2], strict=True)
        for line in part.splitlines()
        if line.startswith("| `")
    )


def _row(section: str, line: str) -> Row:
    words, asks, left = (cell.strip() for cell in line.strip("|").split(" | "))
    where = dict(one.partition(": ")[::2] if ": " in one else (one, "") for one in left.split("; "))
    return Row(section, tuple(re.findall(r"`([^`]+)`", words)), asks, where)


@cache
def kinds_of_points() -> frozenset[str]:
    """Kinds in the table of open points; one row may name two."""
    table = (FORMATS / "open-points.md").read_text(encoding="utf-8").partition("## 5. Kinds")[2].partition("\n## ")[0]
    cells = re.findall(r"^\| ([^|]+) \|", table, re.MULTILINE)[1:]
    return frozenset(kind.strip() for cell in cells for kind in cell.split(", "))


def readers(name: str, *of: str) -> list[str]:
    """Files beyond the bill that read a field: `line.hazard` is `hazard` of `line`; without `of`, of anything."""
    own = ("teardown_app/intake/", "teardown_app/domain/bill/")
    return [
        source.file
        for source in _sources()
        if not source.file.startswith(own) and any(_reads(node, name, of) for node in ast.walk(source.tree))
    ]


@cache
def _sources() -> tuple[Source, ...]:
    return tuple(sources(PROJECT, PACKAGE))


def _reads(node: ast.AST, name: str, of: tuple[str, ...]) -> bool:
    if not isinstance(node, ast.Attribute) or node.attr != name or not isinstance(node.ctx, ast.Load):
        return False
    base = node.value.attr if isinstance(node.value, ast.Attribute) else getattr(node.value, "id", "")
    return not of or base in of


def refuser(name: str) -> str:
    """The text of one act."""
    room = PROJECT / PACKAGE / ("domain" if name.startswith(("lacks/", "against/")) else "workflows")
    return Path(room / f"{name}.py").read_text(encoding="utf-8")
