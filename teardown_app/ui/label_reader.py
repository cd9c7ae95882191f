"""Reading labels in pictures at the tablet: one picture at a time, each in the black box while it is read.

The readers themselves are in `intake`; they and numpy are imported with the first picture.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable, Iterable
from pathlib import Path
from threading import Lock
from time import monotonic
from typing import Any

from attrs import frozen

from teardown_app.ui.black_box import BlackBox, digest_of

BLIND_FRAMES = 8
"""After so many frames without a number of ours one is compared with what is known: two rounds of all readers."""
COMPARE_EVERY_S = 1.0
AT_ONCE = 100
"""Numbers worked up with one frame."""
MOST_TOLD = 50_000
FRAME_DEADLINE_S, FILE_DEADLINE_S = 0.5, 3.0

Read = Callable[[Any], list[Any]]
"""From a grey picture to its codes."""


def frame_reader() -> Read:
    """What reads the frames of a camera, one after the other."""
    from teardown_app.intake.live_codes import Rotation

    return Rotation().look


def picture_reader() -> Read:
    """What reads a picture on its own, with all that can be tried."""
    from teardown_app.intake.read_codes import read_still

    return read_still


@frozen
class Label:
    """One code in a picture, its corners as fractions from the top left."""

    text: str
    ours: bool
    offered: bool
    """Found by comparison, too weak to be taken: it counts once a person has compared the printed number."""
    corners: tuple[tuple[float, float], ...]
    chance: float = 0.0
    """That another number gave the picture, where it was found by comparison."""

    def as_note(self) -> list[Any]:
        """As it is kept in a screen's state."""
        return [self.text, self.ours, self.offered, [list(one) for one in self.corners]]


def label_from(note: Any) -> Label:
    """A label as it was kept."""
    text, ours, offered, corners = note
    return Label(str(text), bool(ours), bool(offered), tuple((float(x), float(y)) for x, y in corners))


@frozen
class Seen:
    """What stands in one picture, each text once, in reading order."""

    labels: tuple[Label, ...]
    file: str = ""
    number: int = 0

    @property
    def ours(self) -> tuple[Label, ...]:
        """Those to take."""
        return tuple(one for one in self.labels if one.ours and not one.offered)


def labels_of(codes: list[Any], width: int, height: int) -> tuple[Label, ...]:
    """Codes as labels, row by row from the left."""
    found: dict[str, Label] = {}
    for code in codes:
        corners = tuple((x / width, y / height) for x, y in code.corners)
        found.setdefault(code.text, Label(code.text, code.ours, code.offered, corners, code.chance))
    return tuple(in_rows(list(found.values())))


def in_rows(labels: list[Label]) -> list[Label]:
    """Row by row from the top, each from the left: what overlaps half a label in height is one row."""
    rows: list[list[Label]] = []
    for label in sorted(labels, key=lambda one: _middle(one)[1]):
        high = max((y for _, y in label.corners), default=0) - min((y for _, y in label.corners), default=0)
        if rows and _middle(label)[1] - _middle(rows[-1][0])[1] < high / 2:
            rows[-1].append(label)
        else:
            rows.append([label])
    return [label for row in rows for label in sorted(row, key=lambda one: _middle(one)[0])]


def _middle(label: Label) -> tuple[float, float]:
    count = max(1, len(label.corners))
    return sum(x for x, _ in label.corners) / count, sum(y for _, y in label.corners) / count


class LabelReader:
    """Reads one picture at a time, whoever asks; where no number of ours can be read, known ones are compared."""

    def __init__(
        self, box: BlackBox, frames: Callable[[], Read] | None = None, clock: Callable[[], float] = monotonic
    ) -> None:
        self.box = box
        self._frames, self._clock = frames, clock
        self._lock = Lock()
        self._told: set[str] = set()
        self._to_learn: deque[str] = deque()
        self._known: Any = None

    def know(self, numbers: Iterable[str]) -> None:
        """Numbers that a label may bear; told by the screen's thread, worked up in the reading one."""
        for number in numbers:
            if number not in self._told and len(self._told) < MOST_TOLD:
                self._told.add(number)
                self._to_learn.append(number)

    def for_frames(self) -> Read:
        """A reader for the frames of a camera: compares when nothing of ours was read for a while.

        What was recognised counts as seen in every frame until the next comparison, as if it had been read in each.
        """
        read, blind, looked = (self._frames or frame_reader)(), 0, -math.inf
        lies_there: list[Any] = []

        def look(grey: Any) -> list[Any]:
            nonlocal blind, looked, lies_there
            codes = self._safely(read, grey)
            self._learn(AT_ONCE)
            if any(code.ours for code in codes):
                blind, lies_there = 0, []
                return codes
            blind += 1
            if blind >= BLIND_FRAMES and self._clock() - looked >= COMPARE_EVERY_S:
                lies_there = self._compared(grey, FRAME_DEADLINE_S)
                looked = self._clock()
            return [*codes, *lies_there]

        return look

    def in_file(self, path: Path) -> Seen:
        """What stands in a picture file; raises `PictureFault`."""
        from teardown_app.intake.pictures import open_grey

        grey = open_grey(path)
        codes = self._safely(picture_reader(), grey)
        if not any(code.ours for code in codes):
            self._learn(len(self._to_learn))
            codes = [*codes, *self._compared(grey, FILE_DEADLINE_S)]
        return Seen(labels_of(codes, grey.shape[1], grey.shape[0]), str(path))

    def _learn(self, most: int) -> None:
        """Works up some of the numbers that were told; all at once would hold up the reading for seconds."""
        from teardown_app.intake.comparison.known_tags import KnownTags

        with self._lock:
            if self._known is None:
                self._known = KnownTags()
            self._known.add([self._to_learn.popleft() for _ in range(min(most, len(self._to_learn)))])

    def _compared(self, grey: Any, deadline_s: float) -> list[Any]:
        from teardown_app.intake.known_codes import recognised

        with self._lock:
            return recognised(grey, self._known, deadline_s=deadline_s)

    def _safely(self, read: Read, grey: Any) -> list[Any]:
        with self._lock:
            if self.box.not_to_read and digest_of(grey) in self.box.not_to_read:
                return []
            self.box.begin(grey)
            try:
                return read(grey)
            finally:
                self.box.end()
