"""Pictures of labels that somebody puts into a folder: a source gives the newest one, each once.

A fixed scanner, a camera of its own or a person puts pictures into the folder `scans`. The source is asked now and
then and never waits. The tablet's own camera is in `camera.py`.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from time import monotonic
from typing import Protocol

from teardown_app.ui.label_reader import LabelReader, Seen
from teardown_app.ui.pictures import pictures_in
from teardown_app.workflows.act import refuse

EVERY_S = 0.5
"""So often is the folder looked at."""


class FrameSource(Protocol):
    """Where pictures come from."""

    def newest(self) -> Path | None:
        """The newest picture that was not given before; older ones are passed over."""
        ...


class FolderFrames:
    """Pictures that appear in a folder after the app was started."""

    def __init__(self, folder: Path, clock: Callable[[], float] = monotonic) -> None:
        self._folder, self._clock = folder, clock
        self._looked = clock()
        self._given = set(self._there())

    def _there(self) -> list[tuple[str, int]]:
        return [(str(path), path.stat().st_size) for path in pictures_in(self._folder) if path.is_file()]

    def newest(self) -> Path | None:
        """The newest picture that was not given before. One that still grows is given when it has grown."""
        now = self._clock()
        if now - self._looked < EVERY_S:
            return None
        self._looked = now
        try:
            there = self._there()
        except OSError:
            return None
        fresh = [one for one in there if one not in self._given]
        self._given.update(there)
        return Path(fresh[0][0]) if fresh else None


def labels_in(path: Path, reader: LabelReader, report: Callable[[str], None]) -> Seen:
    """The codes in a picture, each once, in reading order."""
    from teardown_app.intake.pictures import PictureFault

    report(path.name)
    try:
        return reader.in_file(path)
    except PictureFault as fault:
        refuse(f"{path.name} cannot be read: {fault}", "Take the picture again, or type the number.")
