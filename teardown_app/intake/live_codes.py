"""Codes in the frames of a camera: another step on each frame.

A hand is never still: what one step misses on this frame another reads on the next, so looking differently each
time reads more than looking thoroughly once, and each look is short. Opens no camera and starts no thread.
"""

from __future__ import annotations

from teardown_app.intake.code_readers import Readers, installed
from teardown_app.intake.pictures import Grey
from teardown_app.intake.read_codes import Code, look
from teardown_app.intake.reading_order import Step, in_rotation


class Rotation:
    """One step a frame, in rotation; raises `PictureFault` when no reader is installed."""

    def __init__(self, readers: Readers | None = None) -> None:
        self._readers = (installed() if readers is None else readers).needed()
        self.steps: tuple[Step, ...] = in_rotation(self._readers)
        self._frames = 0

    def look(self, grey: Grey) -> list[Code]:
        """What the step whose turn it is finds in this frame."""
        step = self.steps[self._frames % len(self.steps)]
        self._frames += 1
        return list(look(grey, step, self._readers))
