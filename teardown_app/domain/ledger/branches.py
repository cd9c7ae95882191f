"""Branches of the tablets' chains: where a number stands for different records, a chain goes on twice.

Branches are numbered. Each knows up to which number it shares the records of the others, so that whether
one record descends from another is a look-up.
"""

from __future__ import annotations

from teardown_app.domain.ledger.record import Record

TRUNK = 0
"""The branch that every tablet begins with; records of which nothing else is kept are on it."""


class Branches:
    """Numbered branches of all tablets' chains under one journal name."""

    def __init__(self) -> None:
        self._branch: dict[str, int] = {}
        self._tips: dict[tuple[str, int], str] = {}
        self._shared: list[dict[int, int]] = [{}]

    def grow(self, record: Record, parent: Record | None) -> None:
        """Puts a record on the branch that its parent is the last of, else on a new one. Without a parent: on the
        trunk where nothing of the tablet is here yet."""
        branch = self.of(parent) if parent else TRUNK
        if self._tips.get((record.dev, branch)) != (parent.h if parent else None):
            self._shared.append({**self._shared[branch], branch: parent.seq} if parent else {})
            branch = len(self._shared) - 1
        if branch != TRUNK:
            self._branch[record.h] = branch
        self._tips[record.dev, branch] = record.h

    def of(self, record: Record) -> int:
        """Number of the branch that a record is on."""
        return self._branch.get(record.h, TRUNK)

    def descends(self, later: Record, earlier: Record) -> bool:
        """Is `earlier` in the past of `later`, both of one tablet?"""
        mine, other = self.of(later), self.of(earlier)
        if mine == other:
            return earlier.seq < later.seq
        return earlier.seq <= self._shared[mine].get(other, 0)
