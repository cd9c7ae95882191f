"""The order in which lines go together, and circles in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from teardown_app.domain.bill.line import Line

Graph = Mapping[str, tuple[str, ...]]

CIRCLES_MAX = 500
STEPS_SHOWN = 12


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

    No more than `CIRCLES_MAX` are looked for: a bill with more is wrong from end to end.

    >>> circles({"A": ("B",), "B": ("C", "A"), "C": ()})
    [('A', 'B')]
    """
    found: list[tuple[str, ...]] = []
    done: set[str] = set()
    for start in graph:
        if start not in done and len(found) < CIRCLES_MAX:
            _circles_from(start, graph, done, found)
    return found


def _circles_from(start: str, graph: Graph, done: set[str], found: list[tuple[str, ...]]) -> None:
    path = [start]
    places = {start: 0}
    """Where each name stands on the way down; a name met again closes a circle."""
    todo = [iter(graph.get(start, ()))]
    while todo and len(found) < CIRCLES_MAX:
        following = next(todo[-1], None)
        if following is None:
            todo.pop()
            done.add(path.pop())
            del places[next(reversed(places))]
        elif following in places:
            found.append(tuple(path[places[following] :]))
        elif following not in done:
            places[following] = len(path)
            path.append(following)
            todo.append(iter(graph.get(following, ())))


def shortened(circle: tuple[str, ...]) -> tuple[str, ...]:
    """A circle as a person can read it: a long one without its middle."""
    return circle if len(circle) <= STEPS_SHOWN else (*circle[: STEPS_SHOWN - 2], "…", circle[-1])
