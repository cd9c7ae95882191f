"""Looking for labels in the newest picture of the camera, in a thread of its own, off the screen's.

What was found is handed over as plain values. A tag that stays in the picture counts once: it has to be gone for
a second and a half, and a whole round of readers, before it counts again.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable, Iterable
from pathlib import Path
from threading import Event, Thread
from time import monotonic

from teardown_app.ui.camera import Camera, Frame
from teardown_app.ui.label_reader import LabelReader, Seen, labels_of

GONE_S = 1.5
WAIT_S = 0.5
MOST_WAITING = 8
KEPT_PICTURES = 16
ROUND = 6
LATELY = 0.9
ON_DISK_WIDE = 1600


class InView:
    """Which texts are in the picture, and which of them are new there."""

    def __init__(self, clock: Callable[[], float] = monotonic) -> None:
        self._clock = clock
        self._last: dict[str, float] = {}
        self.gone_s = GONE_S
        """So long has a text to be gone; longer where pictures are read slowly."""

    def fresh(self, texts: Iterable[str]) -> list[str]:
        """Those that were not seen for a second and a half."""
        now = self._clock()
        new = [text for text in texts if now - self._last.get(text, -math.inf) >= self.gone_s]
        self._last.update(dict.fromkeys(texts, now))
        return new

    def has(self, texts: Iterable[str]) -> bool:
        """True while any of these is in the picture, or was a moment ago."""
        now = self._clock()
        return any(now - self._last.get(text, -math.inf) < self.gone_s for text in texts)

    def forget(self) -> None:
        """All count anew."""
        self._last.clear()


class Looking:
    """The second thread: takes the newest picture, reads it, hands over what is in it."""

    def __init__(self, camera: Camera, reader: LabelReader, folder: Path) -> None:
        self._camera, self._reader, self._folder = camera, reader, folder
        self._found: deque[Seen] = deque(maxlen=MOST_WAITING)
        self._stop = Event()
        self._kept = 0
        self.newest: Seen | None = None
        """What was read last, also when nothing was found: for the outlines on the live picture."""
        self.pace_s = 0.0
        """How long one picture took lately, from one to the next."""
        self.thread: Thread | None = None

    @property
    def round_s(self) -> float:
        """How long a whole round of readers takes, and a little more."""
        return ROUND * self.pace_s

    def start(self) -> None:
        """Begins to look."""
        self.stop()
        stop = self._stop = Event()
        self.thread = Thread(target=self._run, args=(stop,), name="label reader", daemon=True)
        self.thread.start()

    def stop(self) -> None:
        """Looks no more; what was found and not taken is dropped."""
        self._stop.set()
        self._found.clear()
        self.newest = None

    def take(self) -> list[Seen]:
        """What was found since, the oldest first. Never waits."""
        found = []
        while self._found:
            found.append(self._found.popleft())
        return found

    # in the thread

    def _run(self, stop: Event) -> None:
        read, number, at = self._reader.for_frames(), 0, monotonic()
        kept, file, seen_at = frozenset[str](), "", at
        while not stop.is_set():
            frame = self._camera.wait_newer(number, WAIT_S)
            if frame is None or stop.is_set():
                continue
            number = frame.number
            self.pace_s, at = max(monotonic() - at, LATELY * self.pace_s), monotonic()
            labels = labels_of(read(grey_of(frame)), *frame.size)
            texts = frozenset(one.text for one in labels)
            if at - seen_at > GONE_S:
                kept = frozenset()
            seen_at = at if texts else seen_at
            if sum(one.ours for one in labels) > 1 and not texts <= kept:
                kept, file = texts, self._keep(frame)
            if not stop.is_set():
                self.newest = seen = Seen(labels, file if texts == kept else "", number)
                if labels:
                    self._found.append(seen)

    def _keep(self, frame: Frame) -> str:
        """The picture of several labels, for the screen that shows it; the last few are kept."""
        from PIL import Image

        self._kept = (self._kept + 1) % KEPT_PICTURES
        path = self._folder / f"tray-{frame.number}-{self._kept}.jpg"
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            for old in self._folder.glob(f"tray-*-{self._kept}.jpg"):
                old.unlink()
            image = Image.fromarray(frame.picture)
            image.thumbnail((ON_DISK_WIDE, ON_DISK_WIDE))
            image.save(path, quality=85)
        except OSError:
            return ""
        return str(path)


def grey_of(frame: Frame) -> object:
    """The picture in grey, as the readers want it."""
    import numpy as np
    from PIL import Image

    return np.asarray(Image.fromarray(frame.picture).convert("L"))
