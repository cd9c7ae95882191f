"""Which labels are in the camera's picture, and which of them did something already: each does it once a visit.

A visit lasts while the label is in the picture, and a moment longer. A label that did something counts anew in the
same visit once another one did, as soon as it is aimed at again; one that was refused does not.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from time import monotonic

GONE_S = 1.5
"""So long has a label to be out of the picture before it counts anew."""
REFUSED_GONE_S = 3.0
"""So long has one that was refused."""


class Visits:
    """The labels of one camera, by what they are called."""

    def __init__(self, clock: Callable[[], float] = monotonic) -> None:
        self._clock = clock
        self._seen: dict[str, float] = {}
        self._aimed: dict[str, float] = {}
        self._done: dict[str, bool] = {}
        """Those that did something in this visit: whether it was refused."""
        self._last = ""
        self.gone_s = GONE_S
        """So long has a label to be gone; longer where pictures are read slowly."""

    def see(self, names: Iterable[str]) -> None:
        """These are in the picture now."""
        now = self._clock()
        for name, refused in list(self._done.items()):
            if now - self._seen.get(name, -math.inf) >= self._gone_s(refused):
                del self._done[name]
        self._seen.update(dict.fromkeys(names, now))

    def has(self, names: Iterable[str]) -> bool:
        """True while any of these is in the picture, or was a moment ago."""
        now = self._clock()
        return any(now - self._seen.get(name, -math.inf) < self.gone_s for name in names)

    def seen_lately(self) -> list[str]:
        """All that are in the picture, or were a moment ago."""
        return [name for name in self._seen if self.has([name])]

    def counts(self, name: str) -> bool:
        """It is aimed at: true where it may do something now."""
        now, before = self._clock(), self._aimed.get(name, -math.inf)
        self._aimed[name] = now
        if name not in self._done:
            return True
        return not self._done[name] and self._last != name and now - before >= self.gone_s

    def done(self, name: str, *, refused: bool = False) -> None:
        """It did something, or was refused."""
        self._seen[name] = self._clock()
        self._done[name], self._last = refused, name

    def forget(self) -> None:
        """All count anew."""
        for kept in (self._seen, self._aimed, self._done):
            kept.clear()

    def _gone_s(self, refused: bool) -> float:
        return max(REFUSED_GONE_S, self.gone_s) if refused else self.gone_s
