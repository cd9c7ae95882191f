"""Looking for labels in the newest picture of the camera, in a thread of its own, off the screen's.

What was found is handed over as plain values.
"""

from __future__ import annotations

from collections import deque
from pathlib import Path
from threading import Event, Thread
from time import monotonic

from attrs import evolve

from teardown_app.ui.camera import Camera, Frame
from teardown_app.ui.label_reader import LabelReader, Seen, seen_of
from teardown_app.ui.visits import GONE_S

WAIT_S = 0.5
MOST_WAITING = 8
KEPT_PICTURES = 16
ROUND = 6
LATELY = 0.9
ON_DISK_WIDE = 1600


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
            seen = seen_of(read(grey_of(frame)), *frame.size, number=number)
            labels, texts = seen.labels, frozenset(one.text for one in seen.labels)
            if at - seen_at > GONE_S:
                kept = frozenset()
            seen_at = at if texts else seen_at
            if sum(one.ours for one in labels) > 1 and not texts <= kept:
                kept, file = texts, self._keep(frame)
            if not stop.is_set():
                self.newest = seen = evolve(seen, file=file if texts == kept else "")
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
