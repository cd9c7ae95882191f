"""TOML files with the line of every key, so that a fault can say where it stands."""

from __future__ import annotations

import re
import tomllib
from decimal import Decimal, InvalidOperation
from typing import Any

from attrs import frozen

from teardown_app.intake.text_table import NotText, decode

Path_ = tuple[str | int, ...]

DEEPEST = 60
"""Brackets within brackets; the reader of the standard library would give up far beyond."""

_HEAD = re.compile(r"^\s*(\[\[?)\s*(.+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(
    r"""^\s*((?:"(?:[^"\\]|\\.)*"|'[^']*'|[A-Za-z0-9_-]+)(?:\s*\.\s*(?:"(?:[^"\\]|\\.)*"|'[^']*'|[A-Za-z0-9_-]+))*)\s*="""
)
_STEP = re.compile(r""""((?:[^"\\]|\\.)*)"|'([^']*)'|([A-Za-z0-9_-]+)""")
_STRING = re.compile(r'''"""(?:[^\\]|\\.)*?"""|\'\'\'.*?\'\'\'|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'|#[^\n]*''', re.DOTALL)


@frozen
class BrokenToml:
    """A file that is no TOML: the line and what the reader said."""

    line: int
    message: str


@frozen
class TomlText:
    """The values of a file and the lines they stand at."""

    file: str
    values: dict[str, Any]
    lines: dict[Path_, int]

    def line(self, *path: str | int) -> int:
        """Line of a key, or of the nearest table above it that has one."""
        for length in range(len(path), 0, -1):
            if path[:length] in self.lines:
                return self.lines[path[:length]]
        return 1


def read_toml(file: str, raw: bytes) -> TomlText | BrokenToml:
    """Read a file; decimal fractions become `Decimal`."""
    try:
        text = decode(raw)
    except NotText:
        return BrokenToml(0, "is not a text file; write it in a plain editor, in UTF-8")
    if _depth(text) > DEEPEST:
        return BrokenToml(0, f"has more than {DEEPEST} brackets within brackets")
    try:
        values = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        return _broken(text, str(error))
    except (ValueError, InvalidOperation, RecursionError, OverflowError) as error:
        return BrokenToml(0, f"cannot be read: {error}")
    return TomlText(file, values, _lines(text))


def _broken(text: str, said: str) -> BrokenToml:
    found = re.search(r"\s*\(at line (\d+), column \d+\)", said)
    line = int(found[1]) if found else text.rstrip().count("\n") + 1
    return BrokenToml(line, f"is not TOML: {re.sub(r' *[(]at [^)]*[)]', '', said)}; correct this line")


def _depth(text: str) -> int:
    deepest = depth = 0
    for mark in re.findall(r"[\[\]{}]", _STRING.sub("", text)):
        depth += 1 if mark in "[{" else -1
        deepest = max(deepest, depth)
    return max(deepest, text.count(".") and max(line.count(".") for line in _STRING.sub("", text).split("\n")) or 0)


def _lines(text: str) -> dict[Path_, int]:
    """Line of every table and key; what stands inside strings and long lists is passed over."""
    found: dict[Path_, int] = {}
    counts: dict[Path_, int] = {}
    table: Path_ = ()
    depth = 0
    for number, line in enumerate(_without_long_strings(text).split("\n"), start=1):
        head = _HEAD.match(line) if depth == 0 else None
        if head and not _KEY.match(line):
            table = _table(head[2], head[1] == "[[", counts)
            found.setdefault(table, number)
            continue
        key = _KEY.match(line) if depth == 0 else None
        if key:
            _keep(found, table, _steps(key[1]), number)
        bare = _STRING.sub("", line)
        depth = max(0, depth + sum(map(bare.count, "[{")) - sum(map(bare.count, "]}")))
    return found


def _keep(found: dict[Path_, int], table: Path_, steps: Path_, number: int) -> None:
    for length in range(1, len(steps) + 1):
        found.setdefault((*table, *steps[:length]), number)


def _table(head: str, is_list: bool, counts: dict[Path_, int]) -> Path_:
    """Path of a table heading, with the numbers of the lists it runs through."""
    path: Path_ = ()
    steps = _steps(head)
    for place, step in enumerate(steps, start=1):
        path = (*path, step)
        if is_list and place == len(steps):
            counts[path] = counts.get(path, -1) + 1
        if path in counts:
            path = (*path, counts[path])
    return path


def _steps(dotted: str) -> Path_:
    return tuple(double or single or bare for double, single, bare in _STEP.findall(dotted))


def _without_long_strings(text: str) -> str:
    """Text with the insides of triple-quoted strings replaced by as many line ends."""
    return _STRING.sub(lambda found: "\n" * found[0].count("\n") if found[0][:3] in ('"""', "'''") else found[0], text)
