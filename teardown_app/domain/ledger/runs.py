"""Whole numbers kept as runs without a hole, so that a thousand million of them cost no more than two."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterable, Iterator

Run = tuple[int, int]
"""First and last number, both included."""


class Runs:
    """A set of whole numbers that grows at its upper end."""

    def __init__(self) -> None:
        self._runs: list[Run] = []

    def __iter__(self) -> Iterator[Run]:
        return iter(self._runs)

    def grow(self, first: int, last: int) -> None:
        """Adds numbers above all that are here."""
        before = self._runs.pop() if self._runs and self._runs[-1][1] == first - 1 else (first, last)
        self._runs.append((before[0], last))

    def discard(self, number: int) -> None:
        """Takes a number out, if it is here."""
        at = bisect_right(self._runs, number, key=lambda run: run[0]) - 1
        if at >= 0 and number <= self._runs[at][1]:
            first, last = self._runs[at]
            self._runs[at : at + 1] = [run for run in ((first, number - 1), (number + 1, last)) if run[0] <= run[1]]

    def discard_all(self, numbers: Collection[int]) -> None:
        """Takes out all of these that are here, looking at whichever is fewer: these, or a run's own numbers."""
        for first, last in [*self._runs]:
            few = last - first < len(numbers)
            for one in [*range(first, last + 1)] if few else [one for one in numbers if first <= one <= last]:
                if not few or one in numbers:
                    self.discard(one)


def joined(runs: Iterable[Run]) -> list[Run]:
    """The same numbers in as few runs as there are, sorted.

    >>> joined([(7, 8), (1, 3), (9, 9), (3, 4)])
    [(1, 4), (7, 9)]
    """
    found: list[Run] = []
    for first, last in sorted(runs):
        if found and first <= found[-1][1] + 1:
            found[-1] = (found[-1][0], max(last, found[-1][1]))
        else:
            found.append((first, last))
    return found


def cut(run: Run, last: int, without: Iterable[int]) -> list[Run]:
    """What is left of a run up to `last`, and without some numbers.

    >>> cut((3, 1_000_000_000), 9, [5, 9, 11])
    [(3, 4), (6, 8)]
    """
    left = Runs()
    if run[0] <= last:
        left.grow(run[0], min(run[1], last))
    left.discard_all({*without})
    return [*left]
