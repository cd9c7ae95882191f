"""The camera at a tablet: a thread of its own that keeps the newest picture only, and in what state it is.

It knows neither labels nor a screen. Whoever wants pictures asks for the newest one and never waits; what is
older is gone. A camera that is not there, taken, not allowed or pulled out is asked for again every two
seconds, so that it goes on by itself.
"""

from __future__ import annotations

from collections.abc import Callable
from threading import Condition, Event, Thread
from time import monotonic
from typing import Any, Protocol

from attrs import frozen

OFF, OPENING, ON, SLOW = "off", "opening", "on", "slow"
NONE, BUSY, NOT_ALLOWED, UNPLUGGED = "none", "busy", "not allowed", "unplugged"
NO_PROGRAM, FAILED, KEPT_OFF = "no program", "failed", "kept off"

SAYS = {
    OPENING: "The camera is being switched on.",
    ON: "Bring the label onto the mark.",
    SLOW: "The camera gives no picture. Wait, or switch it off and on again.",
    NONE: "No camera was found. Plug one in: it goes on by itself.",
    BUSY: "Another program has the camera. Close that: it goes on by itself.",
    NOT_ALLOWED: "The app may not use the camera. Allow it in the system's settings, under privacy.",
    UNPLUGGED: "The camera was unplugged. Plug it in again: it goes on by itself.",
    NO_PROGRAM: "What cameras need (OpenCV) is not installed. Ask whoever set the tablet up.",
    FAILED: "The camera failed. Switch it off and on again.",
    KEPT_OFF: "The camera stays off: reading pictures stopped the app several times. Start the app anew to try again.",
}
"""What each state says; the number can be typed in all of them."""

FRONT, BACK = "front", "back"
AGAIN_S = 2.0
"""So long after a failure it is asked for again."""
SLOW_S = 2.0
"""So long without a picture is slow."""
MISSES = 10
"""So many pictures that do not come, one after the other, and the camera is taken for unplugged."""
MISSED_S = 0.05
SMALL = 480
"""Pixels across of the picture on the glass."""


class CameraTrouble(Exception):
    """The camera cannot be opened; `state` says why."""

    def __init__(self, state: str) -> None:
        super().__init__(SAYS[state])
        self.state = state


class Capture(Protocol):
    """An open camera, or what stands for one. Used by the camera's thread alone, but for `torch`."""

    has_torch: bool
    pause_s: float
    """How long to wait between two pictures, 0 where reading itself waits for the next one."""

    def read(self) -> Any | None:
        """The next picture as rows x columns x red, green, blue; none when nothing came."""
        ...

    def torch(self, on: bool) -> bool:
        """Switches the light; false where there is none."""
        ...

    def release(self) -> None:
        """Lets go of it, so that others can have it."""
        ...


Opening = Callable[[str], Capture]
"""Opens the camera of a side (front, back); raises `CameraTrouble`."""


@frozen(eq=False)
class Frame:
    """One picture: as it came, and small for the glass."""

    number: int
    picture: Any
    size: tuple[int, int]
    small: bytes
    """Rows of red, green, blue, the topmost first."""
    small_size: tuple[int, int]


def frame_of(picture: Any, number: int) -> Frame:
    """A frame with its small picture."""
    from PIL import Image

    image = Image.fromarray(picture)
    small = image.reduce(max(1, round(image.width / SMALL))).convert("RGB")
    return Frame(number, picture, image.size, small.tobytes(), small.size)


class Camera:
    """One camera at a time. All but its thread's own work returns at once."""

    def __init__(self, opening: Opening, clock: Callable[[], float] = monotonic, again_s: float = AGAIN_S) -> None:
        self.opening, self.side = opening, BACK
        self._clock, self._again_s = clock, again_s
        self._fresh = Condition()
        self._stop = Event()
        self._stop.set()
        self._state, self._since = OFF, 0.0
        self._newest: Frame | None = None
        self._capture: Capture | None = None
        self._count = 0
        self.thread: Thread | None = None

    @property
    def is_on(self) -> bool:
        """True while it is wanted, whether pictures come or not."""
        return not self._stop.is_set()

    @property
    def state(self) -> str:
        """In what state it is now."""
        late = self._clock() - self._since > SLOW_S
        return SLOW if self._state in (OPENING, ON) and late else self._state

    @property
    def has_torch(self) -> bool:
        """True where the open camera has a light."""
        return self._capture is not None and self._capture.has_torch

    def torch(self, on: bool) -> bool:
        """Switches the light; false where there is none."""
        return self._capture is not None and self._capture.torch(on)

    def start(self, side: str) -> None:
        """Switches on the camera of a side; one that was on is let go of."""
        self.stop()
        self.side, stop = side, Event()
        self._stop = stop
        self._became(stop, OPENING)
        self.thread = Thread(target=self._run, args=(stop, side), name="camera", daemon=True)
        self.thread.start()

    def stop(self) -> None:
        """Switches it off; the thread lets go of it at its next picture."""
        self._stop.set()
        with self._fresh:
            self._state, self._newest, self._capture = OFF, None, None
            self._fresh.notify_all()

    def newest(self) -> Frame | None:
        """The newest picture, none while none has come."""
        return self._newest

    def wait_newer(self, number: int, longest_s: float) -> Frame | None:
        """For the thread that reads: the newest picture once it is newer than one of a number."""
        with self._fresh:
            self._fresh.wait_for(lambda: not self.is_on or self._is_newer(number), longest_s)
            return self._newest if self._is_newer(number) else None

    def _is_newer(self, number: int) -> bool:
        return self._newest is not None and self._newest.number > number

    # in the thread

    def _became(self, stop: Event, state: str) -> None:
        """Another state, unless this thread was sent away meanwhile."""
        with self._fresh:
            if self._stop is stop and not stop.is_set():
                self._state, self._since = state, self._clock()
                if state != ON:
                    self._newest = None

    def _run(self, stop: Event, side: str) -> None:
        ended = FAILED
        try:
            while not stop.is_set():
                self._open_and_look(stop, side)
                stop.wait(self._again_s)
            ended = OFF
        finally:
            self._became(stop, ended)

    def _open_and_look(self, stop: Event, side: str) -> None:
        try:
            capture = self.opening(side)
        except CameraTrouble as trouble:
            self._became(stop, trouble.state)
            return
        try:
            self._look(capture, stop)
        finally:
            with self._fresh:
                if self._capture is capture:
                    self._capture = None
            capture.release()

    def _look(self, capture: Capture, stop: Event) -> None:
        """Takes one picture after the other until it is sent away, or until none come any more."""
        missed = 0
        with self._fresh:
            if self._stop is stop:
                self._capture = capture
        while not stop.is_set():
            picture = capture.read()
            if picture is None:
                missed += 1
                if missed == MISSES:
                    self._became(stop, UNPLUGGED)
                    return
                stop.wait(MISSED_S)
                continue
            missed = 0
            self._take(picture, stop)
            if capture.pause_s:
                stop.wait(capture.pause_s)

    def _take(self, picture: Any, stop: Event) -> None:
        frame = frame_of(picture, self._count + 1)
        self._became(stop, ON)
        with self._fresh:
            if self._stop is stop and not stop.is_set():
                self._count, self._newest = frame.number, frame
                self._fresh.notify_all()
