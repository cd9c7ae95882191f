"""Reading labels in pictures at the tablet: one picture at a time, each in the black box while it is read.

The readers themselves are in `intake`; they and numpy are imported with the first picture.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from threading import Lock
from typing import Any

from attrs import frozen

from teardown_app.ui.black_box import BlackBox, digest_of

Read = Callable[[Any], list[Any]]
"""From a grey picture to its codes."""


def frame_reader() -> Read:
    """What reads the frames of a camera, one after the other."""
    from teardown_app.intake.read_codes import read_grey

    return read_grey  # becomes `Rotation().look` with `intake/live_codes.py`


def picture_reader() -> Read:
    """What reads a picture on its own, with all that can be tried."""
    from teardown_app.intake.read_codes import read_grey

    return read_grey


@frozen
class Label:
    """One code in a picture, its corners as fractions from the top left."""

    text: str
    ours: bool
    offered: bool
    """Found by comparison, too weak to be taken: it counts once a person has compared the printed number."""
    corners: tuple[tuple[float, float], ...]

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
        found.setdefault(code.text, Label(code.text, code.ours, bool(getattr(code, "offered", False)), corners))
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
    """Reads one picture at a time, whoever asks."""

    def __init__(self, box: BlackBox, frames: Callable[[], Read] | None = None) -> None:
        self.box = box
        self._frames = frames
        self._lock = Lock()

    def for_frames(self) -> Read:
        """A reader for the frames of a camera."""
        read = (self._frames or frame_reader)()
        return lambda grey: self._safely(read, grey)

    def in_file(self, path: Path) -> Seen:
        """What stands in a picture file; raises `PictureFault`."""
        from teardown_app.intake.pictures import open_grey

        grey = open_grey(path)
        codes = self._safely(picture_reader(), grey)
        return Seen(labels_of(codes, grey.shape[1], grey.shape[0]), str(path))

    def _safely(self, read: Read, grey: Any) -> list[Any]:
        with self._lock:
            if self.box.not_to_read and digest_of(grey) in self.box.not_to_read:
                return []
            self.box.begin(grey)
            try:
                return read(grey)
            finally:
                self.box.end()
