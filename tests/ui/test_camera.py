"""The camera with a capture of our own in place of a device: every state it can be in, and that it lets go."""

from __future__ import annotations

import builtins
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from queue import Empty, SimpleQueue
from typing import Any

import numpy as np
import pytest
from PIL import Image

from teardown_app.ui import camera as cam
from teardown_app.ui import captures
from teardown_app.ui.camera import Camera, CameraTrouble, Capture
from teardown_app.ui.captures import OpenCvCapture, PictureCapture, open_with, opening_of
from tests.patience import WHOLE_RUN_S, until

PICTURE = np.zeros((48, 64, 3), np.uint8)


class FakeCapture:
    """Gives what is put into it, one after the other; it waits for the next one as a device does."""

    pause_s = 0.0

    def __init__(self, *pictures: Any, has_torch: bool = False) -> None:
        self.pictures: SimpleQueue[Any] = SimpleQueue()
        for one in pictures:
            self.pictures.put(one)
        self.has_torch, self.lit, self.released = has_torch, False, threading.Event()

    def read(self) -> Any | None:
        """The next one; a device gives up waiting after a while."""
        try:
            return self.pictures.get(timeout=0.01)
        except Empty:
            return self.idle()

    def idle(self) -> Any | None:
        """What a device gives when nothing was put into it: the same picture again."""
        return PICTURE

    def torch(self, on: bool) -> bool:
        """Switches the light that it may have."""
        self.lit = on
        return self.has_torch

    def release(self) -> None:
        """Notes that it was let go of."""
        self.released.set()


@pytest.fixture
def made() -> Iterator[Callable[..., Camera]]:
    """Makes cameras; afterwards all of them are off and their threads have ended."""
    cameras: list[Camera] = []

    def make(opening: cam.Opening, **named: Any) -> Camera:
        cameras.append(Camera(opening, **{"again_s": 0.01, **named}))
        return cameras[-1]

    yield make
    for one in cameras:
        one.stop()
        if one.thread is not None:
            one.thread.join(WHOLE_RUN_S)
            assert not one.thread.is_alive()


def refusing(state: str, capture: Capture | None = None, times: int = 3) -> cam.Opening:
    """Does not open so often, for this reason; then it does, if there is something to open."""
    tries = iter(range(times))

    def opening(_side: str) -> Capture:
        if capture is None or next(tries, None) is not None:
            raise CameraTrouble(state)
        return capture

    return opening


@pytest.mark.parametrize("state", [cam.NONE, cam.BUSY, cam.NOT_ALLOWED, cam.NO_PROGRAM])
def test_one_that_does_not_open_says_why_and_goes_on_by_itself(made: Any, state: str) -> None:
    """It is asked for again; pictures come as soon as it opens."""
    stuck = made(refusing(state))
    stuck.start("back")
    until(lambda: stuck.state == state)
    assert cam.SAYS[state] and stuck.newest() is None and stuck.is_on
    capture = FakeCapture(PICTURE)
    later = made(refusing(state, capture))
    later.start("back")
    until(lambda: later.state == cam.ON and later.newest())


def test_pulled_out_it_says_so_and_comes_back(made: Any) -> None:
    """Pictures, then none any more: let go of, opened anew."""
    first, second, plugged_in = FakeCapture(PICTURE), FakeCapture(PICTURE), threading.Event()
    opened = iter((first, second))

    def opening(_side: str) -> Capture:
        capture = next(opened)
        if capture is second:
            plugged_in.wait(WHOLE_RUN_S)
        return capture

    one = made(opening)
    one.start("back")
    until(lambda: one.state == cam.ON)
    first.idle = lambda: None  # type: ignore[method-assign]
    until(lambda: one.state == cam.UNPLUGGED)
    assert one.newest() is None, "an old picture is not shown as if it were now"
    until(first.released.is_set)
    plugged_in.set()
    until(lambda: one.state == cam.ON)


def test_a_picture_that_is_missed_now_and_then_is_no_unplugging(made: Any) -> None:
    """Nine misses in a row and a picture."""
    capture = FakeCapture(PICTURE, *[None] * (cam.MISSES - 1), PICTURE)
    one = made(lambda _side: capture)
    states = set()
    one.start("back")
    until(lambda: states.add(one.state) or (one.newest() and one.newest().number >= 2))
    assert cam.UNPLUGGED not in states


def test_slow_is_said_after_two_seconds_without_a_picture(made: Any) -> None:
    """With a clock by hand; the thread hangs in the device meanwhile, and nobody waits for it."""
    now, held = [0.0], threading.Event()

    class Hanging(FakeCapture):
        def read(self) -> Any | None:
            held.wait(WHOLE_RUN_S)
            return PICTURE

    one = made(lambda _side: Hanging(), clock=lambda: now[0])
    one.start("back")
    until(lambda: one._capture is not None)
    assert one.state == cam.OPENING
    now[0] = cam.SLOW_S + 0.1
    assert one.state == cam.SLOW
    one.stop()
    assert one.thread.is_alive() and one.state == cam.OFF
    held.set()


def test_only_the_newest_picture_is_kept(made: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever comes late gets the last one; whoever asks for a newer one waits for it, but not for ever."""
    monkeypatch.setattr(cam, "MISSES", 1_000_000)  # it is not unplugged, however long this takes
    shades = [np.full((48, 64, 3), n, np.uint8) for n in range(6)]
    capture = FakeCapture(*shades)
    capture.idle = lambda: None  # type: ignore[method-assign]
    one = made(lambda _side: capture, again_s=5)
    one.start("back")
    until(lambda: one.newest() and one.newest().number == 6)
    frame = one.newest()
    assert frame.picture[0, 0, 0] == 5 and frame.size == (64, 48)
    assert one.wait_newer(5, 1) is frame and one.wait_newer(6, 0.01) is None
    capture.pictures.put(shades[0])
    assert one.wait_newer(6, WHOLE_RUN_S).number == 7


def test_switched_off_it_is_let_go_of_and_says_nothing_late(made: Any) -> None:
    """The thread ends, the device is free, a picture that was under way is not shown; the light goes with it."""
    capture = FakeCapture(PICTURE, has_torch=True)
    one = made(lambda _side: capture)
    one.start("front")
    until(lambda: one.newest() is not None)
    assert one.side == "front" and one.has_torch and one.torch(True) and capture.lit
    one.stop()
    assert (one.state, one.newest(), one.has_torch, one.torch(True)) == (cam.OFF, None, False, False)
    assert capture.released.wait(WHOLE_RUN_S)
    one.thread.join(WHOLE_RUN_S)
    assert not one.thread.is_alive() and one.newest() is None and one.state == cam.OFF


def test_one_without_a_light_says_so(made: Any) -> None:
    """Desktops: OpenCV knows none."""
    one = made(lambda _side: FakeCapture(PICTURE))
    one.start("back")
    until(lambda: one.newest() is not None)
    assert not one.has_torch and not one.torch(True)
    assert not OpenCvCapture(None, None).torch(True)


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
def test_a_failure_nobody_thought_of_is_a_state_too(made: Any) -> None:
    """The thread ends with its error told; the screen says that the camera failed."""

    def opening(_side: str) -> Capture:
        raise ZeroDivisionError

    one = made(opening)
    one.start("back")
    until(lambda: one.state == cam.FAILED)


# OpenCV's side, with a library that is called as it is


class FakeLibrary:
    """Answers as OpenCV does."""

    CAP_DSHOW, CAP_ANY = 700, 0
    CAP_PROP_FRAME_WIDTH, CAP_PROP_FRAME_HEIGHT, CAP_PROP_BUFFERSIZE = 3, 4, 38
    COLOR_GRAY2RGB, COLOR_BGR2RGB = 8, 4

    class error(Exception):  # noqa: N801, N818
        """As the library calls it."""

    def __init__(self, opens: bool) -> None:
        self.opens, self.asked, self.set_to, self.released = opens, [], {}, 0

    def VideoCapture(self, number: int, _by: int) -> Any:  # noqa: N802
        """A device."""
        self.asked.append(number)
        return self

    def isOpened(self) -> bool:  # noqa: N802
        """As it was told."""
        return self.opens

    def set(self, name: int, worth: float) -> None:
        """Keeps a property."""
        self.set_to[name] = worth

    def read(self) -> tuple[bool, Any]:
        """A picture of blue, green, red."""
        return True, np.dstack([np.full((2, 2), shade, np.uint8) for shade in (10, 20, 30)])

    def cvtColor(self, picture: Any, _kind: int) -> Any:  # noqa: N802
        """To red, green, blue."""
        return picture[:, :, ::-1]

    def release(self) -> None:
        """Counts it."""
        self.released += 1


@pytest.fixture
def devices(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder in the place of that of the system's devices, as on Linux."""
    monkeypatch.setattr(captures, "DEVICES", tmp_path)
    monkeypatch.setattr(captures.sys, "platform", "linux")
    return tmp_path


def trouble(library: FakeLibrary, side: str = "back") -> str:
    """The state in which it does not open."""
    with pytest.raises(CameraTrouble) as refused:
        open_with(library, side)
    return refused.value.state


def test_none_not_allowed_and_busy_are_told_apart(devices: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No device; one that may not be read; one that another program has, which is let go of again."""
    assert trouble(FakeLibrary(True)) == cam.NONE
    (devices / "video0").touch()
    busy = FakeLibrary(False)
    assert trouble(busy) == cam.BUSY and busy.released == 1
    monkeypatch.setattr(captures.os, "access", lambda *_: False)
    assert trouble(FakeLibrary(True)) == cam.NOT_ALLOWED


def test_front_and_back_are_the_first_and_the_second(devices: Path) -> None:
    """Where there is one, both are it."""
    (devices / "video0").touch()
    one = FakeLibrary(True)
    open_with(one, "front"), open_with(one, "back")
    assert one.asked == [0, 0]
    (devices / "video2").touch()
    two = FakeLibrary(True)
    opened = [open_with(two, "front"), open_with(two, "back")]
    assert two.asked == [0, 2] and two.set_to[FakeLibrary.CAP_PROP_BUFFERSIZE] == 1
    assert list(opened[0].read()[0, 0]) == [30, 20, 10], "red, green, blue"


def test_without_opencv_it_says_what_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    """The extra is not installed."""
    real = builtins.__import__

    def without(name: str, *rest: Any, **named: Any) -> Any:
        if name == "cv2":
            raise ImportError(name)
        return real(name, *rest, **named)

    monkeypatch.setattr(builtins, "__import__", without)
    with pytest.raises(CameraTrouble) as refused:
        captures.open_camera("back")
    assert refused.value.state == cam.NO_PROGRAM


# a picture or a folder in its place


def test_a_folder_shows_its_newest_picture_and_a_torn_one_changes_nothing(tmp_path: Path) -> None:
    """As a camera that is looked at again and again."""
    one = PictureCapture(tmp_path)
    assert one.read() is None
    for n in range(3):
        Image.new("RGB", (8, 6), (n, n, n)).save(tmp_path / f"{n}.png")
        assert one.read()[0, 0, 0] == n
    (tmp_path / "torn.png").write_bytes(b"\x89PNG\r\n\x1a\n")
    assert one.read()[0, 0, 0] == 2
    with pytest.raises(CameraTrouble):
        opening_of(tmp_path / "nothing")("back")
    assert opening_of(tmp_path / "1.png")("back").read()[0, 0, 0] == 1
