"""Measures the shape of the house and writes `docs/house.md`: `python -m tests.house.measured`.

Syntax nodes are expressions and statements of a function, those of functions within it left aside.
"""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from statistics import median
from typing import NamedTuple

from tests.house.sources import PACKAGE, PROJECT, Source, sources

PAGE = PROJECT / "docs" / "house.md"
COMMANDS = PROJECT / "docs" / "commands.md"
LISTED = Path(__file__).with_name("long_functions.txt")
MOST_FILES = 24
"""Files of one room within domain: our own figure."""
MOST_NODES = 120
"""Syntax nodes of a function that is still read at a glance: our own figure."""
TICKED, PROPOSED = 60, 12
"""Random histories over which ticks, and over which proposed acts are asked: as many as take seconds."""


class Function(NamedTuple):
    """A function of the package and its size in syntax nodes."""

    file: str
    name: str
    nodes: int


def functions(root: Path) -> Iterator[Function]:
    """Every function and method of the package."""
    for source in trees(root):
        for node in ast.walk(source.tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                yield Function(source.file, node.name, sum(1 for _ in within(node)))


def within(function: ast.AST) -> Iterator[ast.AST]:
    """Expressions and statements of a function, without those of functions inside it."""
    for node in ast.iter_child_nodes(function):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda | ast.ClassDef):
            yield node
            continue
        if isinstance(node, ast.expr | ast.stmt):
            yield node
        yield from within(node)


@cache
def long_functions(root: Path) -> set[str]:
    """`file: name` of every function over the bound."""
    return {f"{one.file}: {one.name}" for one in functions(root) if one.nodes > MOST_NODES}


@cache
def trees(root: Path) -> tuple[Source, ...]:
    """The package, read and parsed once."""
    return tuple(sources(root, PACKAGE))


def rooms(root: Path) -> Counter[str]:
    """Files of each room within domain, those of rooms inside it too."""
    here = (source for source in trees(root) if source.steps[1] == "domain" and len(source.steps) > 3)
    return Counter(source.steps[2] for source in here if source.steps[-1] != "__init__")


def words_in_brackets(root: Path) -> Counter[str]:
    """Look-ups by a literal word (`body["why"]`) in domain and workflows, by room."""
    return _counted(root, _is_word)


def words_asked_for(root: Path) -> Counter[str]:
    """The same by `body.get("why")`."""
    return _counted(root, _is_got)


def _counted(root: Path, is_meant: Callable[[ast.AST], bool]) -> Counter[str]:
    found: Counter[str] = Counter()
    for source in trees(root):
        if source.steps[1] in ("domain", "workflows"):
            found[_room(source)] += sum(map(is_meant, ast.walk(source.tree)))
    return found


def _room(source: Source) -> str:
    return "/".join(source.steps[1:3]) if source.steps[1] == "domain" else source.steps[1]


def _is_word(node: ast.AST) -> bool:
    return isinstance(node, ast.Subscript) and _is_text(node.slice)


def _is_got(node: ast.AST) -> bool:
    call = isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "get"
    return call and bool(node.args) and _is_text(node.args[0])  # type: ignore[attr-defined]


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def naming_commands(root: Path, commands: Path = COMMANDS) -> list[str]:
    """`file:line` of every sentence in domain and workflows that names a command: doors do, each in its own way."""
    names = re.findall(r"^### (\w+ .+)$", commands.read_text(encoding="utf-8"), re.MULTILINE)
    named = re.compile(rf"(?<!\ba )(?<!\bthe )\b({'|'.join(map(re.escape, names))}|teardown-app)\b")
    return [
        f"{source.file}:{line}"
        for source in trees(root)
        if source.steps[1] in ("domain", "workflows")
        for line, text in _sentences(source.tree)
        if named.search(text)
    ]


def _sentences(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Line and text of what ends like a sentence, docstrings left out; what a text is filled with stands as `…`."""
    left_out = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            left_out |= set(map(id, node.values))
    for node in ast.walk(tree):
        if id(node) not in left_out and isinstance(node, ast.Constant | ast.JoinedStr):
            parts = node.values if isinstance(node, ast.JoinedStr) else [node]
            text = "".join(str(one.value) if isinstance(one, ast.Constant) else "…" for one in parts)
            if text.endswith((".", "?")):
                yield node.lineno, text


def files_that_know(root: Path) -> dict[str, int]:
    """Act with a made command -> files of the package that name it or import its row or workflow; its own is one."""
    from teardown_app.workflows.deeds import DEEDS

    made = {one.name: one.do for one in DEEDS if one.do is not None}
    rows = dict(_rows(root))
    known: dict[str, set[str]] = {name: {rows[name][0]} for name in made}
    for source in trees(root):
        texts = {node.value for node in ast.walk(source.tree) if _is_text(node)}  # type: ignore[attr-defined]
        brought = {
            (node.module, one.name)
            for node in ast.walk(source.tree)
            if isinstance(node, ast.ImportFrom)
            for one in node.names
        }
        for name, do in made.items():
            file, row = rows[name]
            module = file.removesuffix(".py").replace("/", ".")
            if name in texts or brought & {(module, row), (module, do.__name__)}:
                known[name].add(source.file)
    return {name: len(files) for name, files in known.items()}


def _rows(root: Path) -> Iterator[tuple[str, tuple[str, str]]]:
    """Name of every act -> the file and the constant of its row."""
    for source in trees(root):
        for node in source.tree.body:
            if (
                isinstance(node, ast.Assign)
                and isinstance(node.value, ast.Call)
                and isinstance(node.targets[0], ast.Name)
            ):
                for given in node.value.keywords:
                    if given.arg == "name" and _is_text(given.value):
                        yield given.value.value, (source.file, node.targets[0].id)  # type: ignore[attr-defined]


def ticked_under_an_open_point(worlds: int) -> tuple[int, int]:
    """Places ticked although something open stops the tool from running there, of those asked, over random worlds."""
    from teardown_app.domain.job.replay import replay
    from teardown_app.domain.points.live import BEFORE_RUNNING, Live
    from tests.next.proposals import world_of
    from tests.open_points.tablets import JOB

    wrong = asked = 0
    for seed in range(worlds):
        world = world_of(seed)
        live = Live(replay(world.shop, JOB, world.job, world.bills))
        open_at = {one.position for one in live.open_points() if one.gate in BEFORE_RUNNING}
        stands = {key: live.stands(key) for key in live.job.positions}
        asked += sum(one is not None for one in stands.values())
        wrong += sum(bool(one) and key in open_at for key, one in stands.items())
    return wrong, asked


def proposals_refused(worlds: int) -> tuple[int, int]:
    """Acts that the next step proposed and the act refused, of those proposed, over random worlds."""
    from tests.next.proposals import proposed_and_refused, world_of

    both = [proposed_and_refused(world_of(seed)) for seed in range(worlds)]
    return sum(len(refused) for _, refused in both), sum(len(proposed) for proposed, _ in both)


def page(root: Path) -> str:
    """The measured house as a document."""
    sizes = sorted(one.nodes for one in functions(root))
    wrong, asked = ticked_under_an_open_point(TICKED)
    refused, proposed = proposals_refused(PROPOSED)
    known = files_that_know(root)
    rows = (
        (f"places ticked under an open point, of those asked, in {TICKED} random histories", f"{wrong} of {asked}", 0),
        (
            f"acts proposed and refused, of those proposed, in {PROPOSED} random histories",
            f"{refused} of {proposed}",
            0,
        ),
        ("sentences in domain and workflows that name a command", len(naming_commands(root)), 0),
        (
            'look-ups by a literal word, `body["why"]`: in the ledger; elsewhere in domain and workflows',
            _two(words_in_brackets(root)),
            "-",
        ),
        ('the same, `body.get("why")`', _two(words_asked_for(root)), "-"),
        (
            "files of the package that know an act whose command is made: median, most",
            f"{median(known.values()):g}, {max(known.values())}",
            "-",
        ),
        (
            "syntax nodes of a function: median, 9 of 10 within",
            f"{sizes[len(sizes) // 2]}, {sizes[len(sizes) * 9 // 10]}",
            "-",
        ),
        (f"functions over {MOST_NODES} syntax nodes", len(long_functions(root)), "a list that never grows"),
    )
    lines = [
        HEAD,
        "| what | now | bound |",
        "|---|---|---|",
        *(f"| {what} | {now} | {bound} |" for what, now, bound in rows),
        "",
        ACT,
        "| room of domain | files | bound |",
        "|---|---|---|",
        *(f"| {name} | {count} | {MOST_FILES} |" for name, count in sorted(rooms(root).items())),
        "",
    ]
    return "\n".join(lines)


def _two(counted: Counter[str]) -> str:
    ledger = counted["domain/ledger"]
    return f"{ledger}; {sum(counted.values()) - ledger}"


HEAD = """# The house, measured

Written by `python -m tests.house.measured`, with the figures of that day; `tests/house/test_measured.py` measures anew
and holds the bounds. Long functions that are still there: `tests/house/long_functions.txt`.
"""

ACT = """A new act on known kinds is written by hand in three files: its workflow with its row, its line in
`workflows/deeds.py`, its name among the commands of its topic in `cli/`; the command itself and its page are made. To
be asked on the glass it needs a fourth, its form.
"""


def shortened(root: Path) -> str:
    """The list of long functions without those that are short now; none is ever added."""
    listed = LISTED.read_text(encoding="utf-8").splitlines()
    return "".join(f"{one}\n" for one in listed if one in long_functions(root))


if __name__ == "__main__":
    PAGE.write_text(page(PROJECT), encoding="utf-8")
    LISTED.write_text(shortened(PROJECT), encoding="utf-8")
