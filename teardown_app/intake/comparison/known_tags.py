"""The tags a tablet knows, as what can tell them apart: 191 modules of each, dark 1 and light -1."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from teardown_app.intake.comparison.plan import EVIDENCE
from teardown_app.intake.comparison.symbols import symbols

AT_ONCE = 500
MOST = 20_000
"""More are not compared with one picture: it would take longer than a person waits."""


class KnownTags:
    """Numbers of all jobs, in the order they became known: each once, and no more than `most`."""

    def __init__(self, numbers: Iterable[str] = (), most: int = MOST) -> None:
        self.numbers: list[str] = []
        self._room = np.zeros((0, len(EVIDENCE)), np.float32)
        self._known: set[str] = set()
        self._most = most
        self.add(numbers)

    def __len__(self) -> int:
        return len(self.numbers)

    @property
    def modules(self) -> np.ndarray:
        """(n, 191): 1 dark, -1 light."""
        return self._room[: len(self.numbers)]

    def add(self, numbers: Iterable[str]) -> None:
        """Takes numbers in; about a fifth of a millisecond each."""
        new = [number for number in dict.fromkeys(numbers) if number not in self._known]
        new = new[: self._most - len(self)]
        for start in range(0, len(new), AT_ONCE):
            self._take(new[start : start + AT_ONCE])

    def _take(self, new: list[str]) -> None:
        before, after = len(self), len(self) + len(new)
        if after > len(self._room):  # twice the room, so that many small steps cost no more than one large one
            longer = np.zeros((max(after, 2 * len(self._room)), len(EVIDENCE)), np.float32)
            longer[:before] = self.modules
            self._room = longer
        self._room[before:after] = _signs(new)
        self.numbers += new
        self._known.update(new)


def _signs(numbers: list[str]) -> np.ndarray:
    dark = symbols(numbers).reshape(len(numbers), -1)[:, EVIDENCE]
    return np.where(dark, 1, -1).astype(np.float32)
