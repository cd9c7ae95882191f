"""Codes in the frames of a camera: another step on each frame, and the same tag not again at once.

A hand is never still: what one step misses on this frame another reads on the next, so looking differently each
time reads more than looking thoroughly once, and each look is short. Opens no camera and starts no thread.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from teardown_app.intake.code_readers import Readers, installed
from teardown_app.intake.pictures import Grey
from teardown_app.intake.read_codes import Code, look
from teardown_app.intake.reading_order import Step, in_rotation

AGAIN_AFTER_S = 1.5
"""So long is a tag that was given not given again: it is still in the picture while the hand goes on."""


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


class NotTwice:
    """Lets each tag through once, and again only after a while.

    A number that was only offered does not keep back the same number when it is read.
    """

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._given: dict[tuple[str, bool], float] = {}

    def fresh(self, codes: Iterable[Code]) -> list[Code]:
        """Those of the codes that were not given within the last 1.5 s; they count as given now."""
        now = self._clock()
        self._given = {known: when for known, when in self._given.items() if now - when < AGAIN_AFTER_S}
        fresh = []
        for code in codes:
            if (code.text, code.offered) not in self._given:
                self._given[code.text, code.offered] = now
                fresh.append(code)
        return fresh
