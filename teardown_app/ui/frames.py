"""Frames to read labels in: a source gives the newest picture, whatever it comes from.

A camera, a fixed scanner or a person puts pictures into the folder `scans`; each is read once. The source
is asked now and then and never waits.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from time import monotonic
from typing import Protocol

from teardown_app.ui.pictures import pictures_in
from teardown_app.workflows.act import refuse

EVERY_S = 0.5
"""So often is the folder looked at."""


class FrameSource(Protocol):
    """Where frames come from."""

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


def numbers_in(path: Path, report: Callable[[str], None]) -> list[str]:
    """Our numbers in a picture, each once, in reading order."""
    from teardown_app.intake.pictures import PictureFault
    from teardown_app.intake.read_codes import read_picture  # brings the readers with it

    report(path.name)
    try:
        return list(dict.fromkeys(code.text for code in read_picture(path) if code.ours))
    except PictureFault as fault:
        refuse(f"{path.name} cannot be read: {fault}", "Take the picture again, or type the number.")
