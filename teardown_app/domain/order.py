"""The order in which lines go together, and circles in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from teardown_app.domain.line import Line

Graph = Mapping[str, tuple[str, ...]]


def after(lines: Iterable[Line]) -> dict[str, tuple[str, ...]]:
    """For each line the lines that are in place before it is: what it closes over, and all beneath it."""
    before: dict[str, list[str]] = {}
    for line in lines:
        before.setdefault(line.position, []).extend(line.fit_after)
        if line.parent:
            before.setdefault(line.parent, []).append(line.position)
    return {position: tuple(found) for position, found in before.items()}


def circles(graph: Graph) -> list[tuple[str, ...]]:
    """Circles of a graph, one for each step that closes one; taking these steps out leaves no circle.

    >>> circles({"A": ("B",), "B": ("C", "A"), "C": ()})
    [('A', 'B')]
    """
    found: list[tuple[str, ...]] = []
    done: set[str] = set()
    for start in graph:
        if start not in done:
            found.extend(_circles_from(start, graph, done))
    return found


def _circles_from(start: str, graph: Graph, done: set[str]) -> list[tuple[str, ...]]:
    found: list[tuple[str, ...]] = []
    path = {start: 0}
    """Where each name stands on the way down; a name met again closes a circle."""
    todo = [iter(graph.get(start, ()))]
    while todo:
        following = next(todo[-1], None)
        if following is None:
            todo.pop()
            done.add(path.popitem()[0])
        elif following in path:
            found.append(tuple(path)[path[following] :])
        elif following not in done:
            path[following] = len(path)
            todo.append(iter(graph.get(following, ())))
    return found
