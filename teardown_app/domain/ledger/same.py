"""Names that are one thing: what records of *same as* join."""

from __future__ import annotations

from collections.abc import Iterable


def connected(links: Iterable[tuple[str, str]]) -> dict[str, tuple[str, ...]]:
    """Groups of names that links join: name -> all names of its group, sorted.

    >>> connected([("b", "a"), ("c", "b")])["a"]
    ('a', 'b', 'c')
    """
    groups: dict[str, set[str]] = {}
    for first, second in links:
        joined = groups.get(first, {first}) | groups.get(second, {second})
        for name in joined:
            groups[name] = joined
    return {name: tuple(sorted(group)) for name, group in groups.items()}
