"""Reading labels in pictures at the tablet: one picture at a time, each in the black box while it is read.

The readers themselves are in `intake`; they and numpy are imported with the first picture.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable
from pathlib import Path
from threading import Lock
from time import monotonic
from typing import Any

from attrs import frozen

from teardown_app.ui.black_box import BlackBox, digest_of

AT_ONCE = 100
"""Numbers worked up with one frame."""
MOST_TOLD = 50_000
FILE_DEADLINE_S = 3.0

Read = Callable[[Any], list[Any]]
"""From a grey picture to its codes."""


def frame_reader() -> Read:
    """What reads the frames of a camera, one after the other."""
    from teardown_app.intake.live_codes import Rotation

    return Rotation().look


def picture_reader(known: Any) -> Read:
    """What reads a picture on its own, with all that can be tried and the numbers that are known."""
    from teardown_app.intake.still_codes import whole_still

    def read(grey: Any) -> list[Any]:
        still = whole_still(grey, known=known, deadline_s=FILE_DEADLINE_S)
        return [*still.codes, *still.unread]

    return read


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
    shape: float = 1.0
    """Width of the picture by its height."""
    unread: tuple[Label, ...] = ()
    """Places like a label where nothing was read; they have no text."""

    @property
    def ours(self) -> tuple[Label, ...]:
        """Those to take."""
        return tuple(one for one in self.labels if one.ours and not one.offered)


def labels_of(codes: list[Any], width: int, height: int) -> tuple[Label, ...]:
    """Codes as labels, row by row from the left."""
    found: dict[str, Label] = {}
    for code in codes:
        if code.text:
            found.setdefault(code.text, _label(code, width, height))
    return tuple(in_rows(list(found.values())))


def seen_of(codes: list[Any], width: int, height: int, file: str = "", number: int = 0) -> Seen:
    """What stands in a picture so wide and high, and where it is like a label and nothing was read."""
    unread = tuple(_label(code, width, height) for code in codes if not code.text)
    return Seen(labels_of(codes, width, height), file, number, width / height, unread)


def _label(code: Any, width: int, height: int) -> Label:
    corners = tuple((x / width, y / height) for x, y in code.corners)
    return Label(code.text, code.ours, code.offered, corners, code.chance)


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
        """A reader for the frames of a camera: also tells what is like a label under the mark and was not read.

        That is compared with what is known; each place where no number came out is a code without a text.
        """
        from teardown_app.ui.under_the_mark import UnderTheMark

        read, under = (self._frames or frame_reader)(), UnderTheMark(self._compared, self._clock)

        def look(grey: Any) -> list[Any]:
            codes = self._safely(read, grey)
            self._learn(AT_ONCE)
            return under.also(codes, grey)

        return look

    def in_file(self, path: Path) -> Seen:
        """What stands in a picture file: read, else compared with what is known; raises `PictureFault`."""
        from teardown_app.intake.pictures import open_grey

        grey = open_grey(path)
        self.learn_all()
        codes = self._safely(picture_reader(self._known), grey)
        return seen_of(codes, grey.shape[1], grey.shape[0], str(path))

    def learn_all(self) -> None:
        """Works up all numbers that were told."""
        self._learn(len(self._to_learn))

    def _learn(self, most: int) -> None:
        """Works up some of the numbers that were told; all at once would hold up the reading for seconds."""
        from teardown_app.intake.comparison.known_tags import KnownTags

        with self._lock:
            if self._known is None:
                self._known = KnownTags()
            self._known.add([self._to_learn.popleft() for _ in range(min(most, len(self._to_learn)))])

    def _compared(self, grey: Any, found: Any, deadline_s: float) -> list[Any]:
        from teardown_app.intake.known_codes import recognised

        with self._lock:
            return recognised(grey, self._known, deadline_s=deadline_s, found=found)

    def _safely(self, read: Read, grey: Any) -> list[Any]:
        with self._lock:
            if self.box.not_to_read and digest_of(grey) in self.box.not_to_read:
                return []
            self.box.begin(grey)
            try:
                return read(grey)
            finally:
                self.box.end()
