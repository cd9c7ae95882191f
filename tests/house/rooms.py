"""Who may import whom: the rooms from the top of the house to the ground.

A room may import the rooms on lower floors and itself, never one on its own floor or above. A file that
belongs to no room of the list is a fault, so a new room must be placed here first.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

from tests.house.sources import PACKAGE, Fault, Source, sources

FLOORS = (
    ("ui", "cli"),
    ("workshop",),
    ("report", "labels", "exchange"),
    ("figures",),
    ("records", "intake"),
    ("workflows",),
    ("domain",),
    ("metrology",),
)
FLOOR_OF = {room: floor for floor, rooms in enumerate(FLOORS) for room in rooms}
DOMAIN = (
    ("next",),
    ("gates",),
    ("points", "against"),
    ("lacks",),
    ("signed",),
    ("places",),
    ("parts",),
    ("job",),
    ("shop",),
    ("measure",),
    ("tags",),
    ("bill",),
    ("ledger",),
)
"""The rooms within domain, from the top to the ground."""

ONLY: dict[str, set[str]] = {"measure": {"bill"}, "tags": set(), "bill": set(), "ledger": set()}
"""Rooms within domain that may know fewer than what lies below them."""

INNER_FLOOR_OF = {inner: floor for floor, rooms in enumerate(DOMAIN) for inner in rooms}
ROOM_OF_MODULE = {"__main__": "cli", "__init__": ""}

KEPT_TO = {
    "kivy": ("ui",),
    "tinydb": ("records",),
    "openpyxl": ("intake", "exchange"),
    "fpdf": ("labels", "report"),
    "qrcode": ("labels", "report"),
    "pyzbar": ("intake",),
    "zxingcpp": ("intake",),
    "cv2": ("intake", "ui"),
    "jnius": ("ui",),
}
"""Outside libraries that only some rooms may know, so that they can be exchanged in one place."""

ALLOWED_OUTSIDE = {
    "metrology": {"numpy"},
    "domain": {"attrs", "attr", "stdnum"},
    "workflows": {"attrs", "attr"},
    "figures": {"attrs", "attr"},
}
"""Rooms that may import nothing from outside but this and what is pure in the standard library."""

NOT_PURE = {
    "asyncio",
    "glob",
    "io",
    "multiprocessing",
    "os",
    "pathlib",
    "random",
    "secrets",
    "shutil",
    "signal",
    "socket",
    "sqlite3",
    "subprocess",
    "tempfile",
    "threading",
    "time",
    "urllib",
    "uuid",
}
"""Standard modules with a disk, a clock, chance or a network behind them."""


def room(name: str) -> str | None:
    """Room of a step below the package: '' for the package itself, None where the list has none."""
    named = ROOM_OF_MODULE.get(name, name)
    return named if named == "" or named in FLOOR_OF else None


def imported(source: Source) -> Iterator[tuple[int, str]]:
    """Line and full dotted name of everything a file imports, inside functions too."""
    for node in ast.walk(source.tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = ".".join(from_where(source, node))
            yield from ((node.lineno, f"{start}.{alias.name}") for alias in node.names)
        elif isinstance(node, ast.Call):
            yield from imported_by_call(node)


def from_where(source: Source, node: ast.ImportFrom) -> list[str]:
    """Dotted steps that `from … import` starts from, dots of a relative import resolved."""
    named = node.module.split(".") if node.module else []
    if node.level == 0:
        return named
    return [*source.package[: len(source.package) - node.level + 1], *named]


def imported_by_call(node: ast.Call) -> Iterator[tuple[int, str]]:
    """Modules named as text in `import_module(...)` and `__import__(...)`."""
    called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    if called not in {"import_module", "__import__"} or not node.args:
        return
    if isinstance(node.args[0], ast.Constant) and isinstance(node.args[0].value, str):
        yield node.lineno, node.args[0].value


def import_faults(root: Path) -> list[Fault]:
    """Every import in the package that goes up, sideways, or out where it may not."""
    faults: list[Fault] = []
    for source in sources(root, PACKAGE):
        named = source.steps[1]
        here = room(named)
        if here is None:
            faults.append(Fault(source.file, 1, f"{named} is no room of the house; place it in FLOORS"))
            continue
        for line, name in imported(source):
            own = name.split(".")[0] == PACKAGE
            wrong = wrong_inside(here, name) if own else wrong_outside(here, name)
            if own and not wrong and here == "domain":
                wrong = wrong_within_domain(source.steps[2], name)
            if wrong:
                faults.append(Fault(source.file, line, wrong))
    return faults


def wrong_inside(here: str, name: str) -> str:
    """Why the room `here` may not import this name of the package, or ''."""
    steps = name.split(".")
    there = room(steps[1]) if len(steps) > 1 else ""
    if there is None:
        return "" if steps[1].startswith("__") else f"imports {name}, which is in no room of the house"
    if there == "" or here == there:
        return ""
    if here == "":
        return f"the package itself imports {name}; importing it must bring in nothing"
    if FLOOR_OF[here] < FLOOR_OF[there]:
        return ""
    return f"{here} imports {name}: imports go down, never up or across"


def wrong_within_domain(here: str, name: str) -> str:
    """Why the room `here` of domain may not import this name of the package, or ''."""
    steps = [*name.split("."), ""]
    there = steps[2]
    if steps[1] != "domain" or here in ("__init__", there):
        return ""
    if here not in INNER_FLOOR_OF or there not in INNER_FLOOR_OF:
        return f"{here} imports {name}: not both are rooms of domain; place them in DOMAIN"
    if here in ONLY and there not in ONLY[here]:
        return f"{here} imports {name}: {here} knows {' and '.join(sorted(ONLY[here])) or 'no other room of domain'}"
    if INNER_FLOOR_OF[here] < INNER_FLOOR_OF[there]:
        return ""
    return f"{here} imports {name}: within domain too imports go down, never up"


def wrong_outside(here: str, name: str) -> str:
    """Why the room `here` may not import this name from outside the package, or ''."""
    library = name.split(".")[0]
    if library in KEPT_TO and here not in KEPT_TO[library]:
        return f"{here} imports {library}, which is kept to {' and '.join(KEPT_TO[library])}"
    if here not in ALLOWED_OUTSIDE or library in ALLOWED_OUTSIDE[here]:
        return ""
    if library not in sys.stdlib_module_names:
        return f"{here} imports {library}; this room takes only {', '.join(sorted(ALLOWED_OUTSIDE[here]))}"
    return f"{here} imports {library}; this room is pure" if library in NOT_PURE else ""
