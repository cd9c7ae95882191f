"""Which single changes a file can have, and some of them picked by a seed."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

from cosmic_ray.ast import ast_nodes
from cosmic_ray.mutating import mutate_code

from tests.mutants.operators import operators, parsed

ROOMS = ("domain", "workflows", "records", "intake")
"""Rooms of the package that are changed."""

MEASURED = ("teardown_app/intake/comparison/", "teardown_app/intake/code_steps.py")
"""Where numbers were chosen by measuring pictures: `make bench` tells what they are worth, no test could."""


NUMBER = "NumberReplacer"


class Change(NamedTuple):
    """One change: the n-th (0, 1, …) that an operator can make in a file, and what stands there."""

    file: str
    line: int
    column: int
    operator: str
    occurrence: int


class Made(NamedTuple):
    """A change that was made: the file's new text, and the lines that differ, without their indent."""

    change: Change
    code: str
    before: str
    after: str


def files(project: Path) -> list[str]:
    """Files that may be changed, in the order of their names."""
    package = project / "teardown_app"
    found = [path for room in ROOMS for path in (package / room).rglob("*.py") if path.name != "__init__.py"]
    return sorted(path.relative_to(project).as_posix() for path in found)


def changes_of(file: str, code: str) -> list[Change]:
    """All single changes of one file, in the order of their places."""
    used, count = operators(), dict.fromkeys(operators(), 0)
    found = []
    for node in ast_nodes(parsed(code)):
        for name, operator in used.items():
            for (line, column), _ in operator.mutation_positions(node):
                if not says_nothing(node) and not (name == NUMBER and file.startswith(MEASURED)):
                    found.append(Change(file, line, column, name, count[name]))
                count[name] += 1
    return sorted(found, key=lambda change: (change.line, change.column, change.operator, change.occurrence))


def says_nothing(node: Any) -> bool:
    """True where nothing is worked out: in an annotation, for the mark of a signature (`*`) after which arguments are
    named, for how much of a long word a sentence shows (`{name[:40]}`), and in the list of what a file hands on to
    others, which type checking reads."""
    if node.type == "operator" and node.parent.type in ("parameters", "param"):
        return True
    if _above(node, "expr_stmt") and _statement(node).get_first_leaf().value == "__all__":
        return True
    return is_typed(node) or (node.type == "number" and _above(node, "subscript") and _above(node, "fstring_expr"))


def _statement(node: Any) -> Any:
    return node if node.type == "expr_stmt" else _statement(node.parent)


def _above(node: Any, kind: str) -> bool:
    return node is not None and (node.type == kind or _above(node.parent, kind))


def is_typed(node: Any) -> bool:
    """True within an annotation, which nothing evaluates."""
    parent = node.parent
    if parent is None:
        return False
    if parent.type == "tfpdef" and node is parent.children[2]:  # name : annotation
        return True
    if parent.type == "annassign" and node is parent.children[1]:  # : annotation = value
        return True
    return bool(parent.type == "funcdef" and node is parent.annotation) or is_typed(parent)


def function_at(path: Path, line: int) -> str:
    """Name, with its class, of the function that stands at a line; empty outside any function."""

    def within(node: Any, above: str) -> str:
        for child in ast.iter_child_nodes(node):
            if isinstance(child, ast.ClassDef | ast.FunctionDef) and child.lineno <= line <= (child.end_lineno or 0):
                name = f"{above}{child.name}"
                return name if isinstance(child, ast.FunctionDef) else within(child, name + ".")
        return ""

    return within(ast.parse(path.read_text(encoding="utf-8")), "")


def picked(project: Path, number: int, seed: int, only: str = "") -> Iterator[Made]:
    """So many changes: a place by lot, then by lot one of those that can be made there; those that change nothing
    or are no Python are passed over."""
    rng = Random(seed)
    codes = {file: (project / file).read_text(encoding="utf-8") for file in files(project) if file.startswith(only)}
    places: dict[tuple[str, int, int], list[Change]] = {}
    for file, code in codes.items():
        for change in changes_of(file, code):
            places.setdefault((file, change.line, change.column), []).append(change)
    lots = (rng.choice(places[place]) for place in rng.sample(sorted(places), len(places)))
    changed = (made(change, codes[change.file]) for change in lots)
    yield from islice((each for each in changed if each), number)


def made(change: Change, code: str) -> Made | None:
    """The change made to the file's text; None where it changes nothing or makes no Python."""
    try:
        new = mutate_code(code, operators()[change.operator], change.occurrence)
    except AttributeError:  # cosmic-ray has no way to change an exception with a dot in its name
        return None
    if new is None or new == code or not is_python(new):
        return None
    lines = list(zip(code.splitlines(), new.splitlines(), strict=False))
    before, after = next(((old, now) for old, now in lines if old != now), ("", ""))
    return Made(change, new, before.strip(), after.strip())


def is_python(code: str) -> bool:
    """True for a text that compiles."""
    try:
        compile(code, "changed", "exec")
    except (SyntaxError, ValueError):
        return False
    return True
