"""Which label is aimed at: nearest the mark in the middle of the picture, large enough, the same in several looks.

A label on the mark is aimed at whatever lies beside it: no other one of its size can be nearer. One a little off
the mark is aimed at where nothing else like a label is as near; one farther off never is. Two that are as near as
each other are both told, to be asked about. What is like a label and was not read holds up what lies behind it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from time import monotonic

from attrs import frozen

from teardown_app.intake.corners import Point, is_on, middle_of, width_of
from teardown_app.ui.label_reader import Label, Seen

ON_MARK = 0.6
"""The mark is on a label whose middle is so near, in widths of its symbol: with its quiet zone a label is 1.4 wide."""
IN_REACH = 1.2
"""Farther from the mark, in its own widths, no label is aimed at."""
AS_NEAR = 0.4
"""Labels that differ by less, in widths of the nearer one, are as near as each other."""
LARGE_ENOUGH = 0.05
"""Of the shorter side of the picture: a smaller symbol was not held up to be read."""
LOOKS = 2
"""So many looks in which the same label is aimed at, with no other one in between."""
WITHIN_S = 1.0
"""A look after a longer pause begins anew."""


@frozen
class Lies:
    """How a label lies to the mark, in one unit of length."""

    far: float
    """From its middle to the mark."""
    width: float
    """Of its symbol, as a square of its area."""
    picture: float
    """The shorter side of the picture."""

    @property
    def on_mark(self) -> bool:
        """The mark is on it."""
        return self.far <= ON_MARK * self.width and self._large_enough

    @property
    def in_reach(self) -> bool:
        """It is on the mark or near it."""
        return self.far <= IN_REACH * self.width and self._large_enough

    @property
    def _large_enough(self) -> bool:
        return self.width >= LARGE_ENOUGH * self.picture


def lies(corners: Sequence[Point], wide: float, high: float) -> Lies | None:
    """How corners (x, y), going round, lie in a picture so wide and high; None for what has no place."""
    if len(corners) < 3:
        return None
    return Lies(math.dist(middle_of(corners), (wide / 2, high / 2)), width_of(corners), min(wide, high))


def aimed_at(seen: Seen) -> tuple[Label, ...]:
    """The label aimed at; several that are as near as each other; none. Places not read count as labels."""
    near = sorted(_near(seen), key=lambda one: (not (one[0].on_mark and one[1].text), one[0].far))
    if not near:
        return ()
    (first, label), *others = near
    if first.on_mark and label.text:
        return (label,)
    return (label, *(other for lie, other in others if lie.far - first.far < AS_NEAR * first.width))


def is_on_mark(label: Label, seen: Seen) -> bool:
    """The mark lies on this label of a picture."""
    there = lies(_in_heights(label, seen), seen.shape, 1)
    return there is not None and there.on_mark


def nearer_unread(seen: Seen, label: Label) -> bool:
    """Something like a label that was not read lies nearer the middle than this one, which is not on it."""
    there = lies(_in_heights(label, seen), seen.shape, 1)
    if there is None or there.on_mark:
        return False
    others = [lies(_in_heights(one, seen), seen.shape, 1) for one in seen.unread]
    return any(one is not None and one.far < there.far for one in others)


def _near(seen: Seen) -> list[tuple[Lies, Label]]:
    placed = [(lies(_in_heights(one, seen), seen.shape, 1), one) for one in (*seen.labels, *seen.unread)]
    return [(there, one) for there, one in placed if there is not None and there.in_reach]


def _in_heights(label: Label, seen: Seen) -> list[Point]:
    return [(x * seen.shape, y) for x, y in label.corners]


class Aim:
    """What is aimed at over several looks."""

    def __init__(self, clock: Callable[[], float] = monotonic) -> None:
        self._clock = clock
        self._labels: tuple[Label, ...] = ()
        self._at = -math.inf
        self._looks = 0
        self.within_s = WITHIN_S
        """After a longer pause it begins anew; longer where pictures are read slowly."""

    def look(self, seen: Seen) -> tuple[Label, ...]:
        """What is aimed at for certain: one label, or several that it lies between; none until it is."""
        labels = aimed_at(seen)
        if not labels or self._is_the_same_unread(labels):
            return ()
        if not all(one.text for one in labels):
            self.forget()
            return ()
        now = self._clock()
        goes_on = _named(labels) == _named(self._labels) and now - self._at <= self.within_s
        self._looks = self._looks + 1 if goes_on else 1
        self._labels, self._at = labels, now
        return labels if self._looks >= LOOKS else ()

    def forget(self) -> None:
        """All begins anew."""
        self._labels, self._looks = (), 0

    def _is_the_same_unread(self, labels: tuple[Label, ...]) -> bool:
        """True where the one label that was aimed at lies, not read in this look."""
        if len(labels) != 1 or labels[0].text or len(self._labels) != 1:
            return False
        return is_on(self._labels[0].corners, middle_of(labels[0].corners))


def _named(labels: tuple[Label, ...]) -> set[tuple[str, bool]]:
    return {(one.text, one.offered) for one in labels}
