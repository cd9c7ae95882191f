"""Habits that a file can break: errors swallowed, names that could hold anything, no docstring."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.house.sources import PACKAGE, Fault, Source, sources

COULD_HOLD_ANYTHING = {"util", "utils", "helper", "helpers", "common", "manager", "managers", "base", "misc"}
BROAD = {"Exception", "BaseException"}


def name_faults(root: Path) -> list[Fault]:
    """Modules and folders whose name says nothing of what is in them."""
    return [
        Fault(source.file, 1, f"the name {step} could hold anything; use the trade's word for what it holds")
        for source in sources(root, PACKAGE, "tests")
        for step in source.steps
        if COULD_HOLD_ANYTHING & set(step.lower().split("_"))
    ]


def swallowing_faults(root: Path) -> list[Fault]:
    """Handlers that catch everything and do not raise again, and suppress(Exception)."""
    return [
        Fault(source.file, node.lineno, "catches everything; name the errors that are expected here")
        for source in sources(root, PACKAGE, "tests")
        for node in ast.walk(source.tree)
        if isinstance(node, ast.ExceptHandler | ast.Call) and (swallows(node) or suppresses_all(node))
    ]


def swallows(node: ast.AST) -> bool:
    """True for a bare or broad `except` that does not end in a bare `raise`."""
    if not isinstance(node, ast.ExceptHandler):
        return False
    last = node.body[-1]
    raises_again = isinstance(last, ast.Raise) and last.exc is None
    return not raises_again and (node.type is None or names_broad(node.type))


def names_broad(node: ast.expr) -> bool:
    """True where an expression or one of a tuple is Exception or BaseException."""
    if isinstance(node, ast.Tuple):
        return any(map(names_broad, node.elts))
    return (node.attr if isinstance(node, ast.Attribute) else getattr(node, "id", "")) in BROAD


def suppresses_all(node: ast.AST) -> bool:
    """True for a call of contextlib's suppress with a broad error."""
    if not isinstance(node, ast.Call):
        return False
    called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    return called == "suppress" and any(map(names_broad, node.args))


def docstring_faults(root: Path) -> list[Fault]:
    """Modules, and in the package public functions and classes at their top, without a docstring."""
    return [fault for source in sources(root, PACKAGE, "tests") for fault in undocumented(source)]


def undocumented(source: Source) -> Iterator[Fault]:
    """Docstrings missing in one file; an empty `__init__` of tests is let be."""
    if not ast.get_docstring(source.tree) and (source.tree.body or source.steps[0] == PACKAGE):
        yield Fault(source.file, 1, "no docstring: say what this module holds and what it does not")
    if source.steps[0] != PACKAGE:
        return
    for node in source.tree.body:
        if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            continue
        if not node.name.startswith("_") and not ast.get_docstring(node):
            yield Fault(source.file, node.lineno, f"{node.name} has no docstring")


def nameless_folder_faults(root: Path) -> list[Fault]:
    """Folders of the package that hold Python files but no `__init__.py` to say what they are."""
    folders = {(root / source.file).parent for source in sources(root, PACKAGE)}
    return [
        Fault(folder.relative_to(root).as_posix(), 1, "no __init__.py that says what this room holds")
        for folder in sorted(folders)
        if not (folder / "__init__.py").is_file()
    ]
