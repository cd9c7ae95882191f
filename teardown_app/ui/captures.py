"""What pictures come from: a camera through OpenCV, a picture file, or a folder whose newest picture is seen.

OpenCV is imported when a camera is opened and not before. It knows no torch and does not say which camera looks
to the front: the first one does, the second one to the back (common practice, no source); where there is one, both
are it.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Any

from teardown_app.ui.camera import (
    BUSY,
    FRONT,
    NO_PROGRAM,
    NONE,
    NOT_ALLOWED,
    CameraTrouble,
    Capture,
    Opening,
)
from teardown_app.ui.pictures import pictures_in

WIDTH, HEIGHT = 1280, 720
"""Asked of a camera: labels of 8 mm at arm's length have three pixels a module (common practice)."""
MOST_CAMERAS = 4
DEVICES = Path("/dev")
PICTURE_PAUSE_S = 0.1


class OpenCvCapture:
    """A camera that OpenCV opened."""

    has_torch = False
    pause_s = 0.0

    def __init__(self, library: Any, device: Any) -> None:
        self._library, self._device = library, device

    def read(self) -> Any | None:
        """The next picture; none when it did not come."""
        try:
            came, picture = self._device.read()
            if not came or picture is None or not picture.size:
                return None
            kind = self._library.COLOR_GRAY2RGB if picture.ndim == 2 else self._library.COLOR_BGR2RGB
            return self._library.cvtColor(picture, kind)
        except self._library.error:
            return None

    def torch(self, on: bool) -> bool:
        """There is none that OpenCV could switch."""
        return False

    def release(self) -> None:
        """Lets go of the camera."""
        self._device.release()


def open_camera(side: str) -> Capture:
    """Opens the camera of a side; raises `CameraTrouble`."""
    if hasattr(sys, "getandroidapilevel"):
        from teardown_app.ui.android_camera import open_android_camera

        return open_android_camera(side)
    try:
        import cv2
    except ImportError as missing:
        raise CameraTrouble(NO_PROGRAM) from missing
    return open_with(cv2, side)


def open_with(library: Any, side: str) -> Capture:
    """Opens it with a library that is called as OpenCV is."""
    numbers = cameras_there()
    if not numbers:
        raise CameraTrouble(NONE)
    number = numbers[0] if side == FRONT else numbers[min(1, len(numbers) - 1)]
    refused = why_refused(number)
    if refused:
        raise CameraTrouble(refused)
    by = library.CAP_DSHOW if sys.platform == "win32" else library.CAP_ANY
    device = library.VideoCapture(number, by)
    if not device.isOpened():
        device.release()
        raise CameraTrouble(BUSY if sys.platform == "linux" else NONE)
    device.set(library.CAP_PROP_FRAME_WIDTH, WIDTH)
    device.set(library.CAP_PROP_FRAME_HEIGHT, HEIGHT)
    device.set(library.CAP_PROP_BUFFERSIZE, 1)
    return OpenCvCapture(library, device)


def cameras_there() -> list[int]:
    """Numbers of the cameras. Linux lists them (each once: its first stream); elsewhere the first two are tried."""
    if sys.platform != "linux":
        return [0, 1]
    found = []
    for number in range(MOST_CAMERAS * 2):
        if (DEVICES / f"video{number}").exists():
            stream = Path(f"/sys/class/video4linux/video{number}/index")
            if not stream.is_file() or stream.read_text(encoding="ascii").strip() == "0":
                found.append(number)
    return found[:MOST_CAMERAS]


def why_refused(number: int) -> str:
    """The state in which a camera that is there cannot be opened; empty when nothing speaks against it."""
    if sys.platform == "linux" and not os.access(DEVICES / f"video{number}", os.R_OK | os.W_OK):
        return NOT_ALLOWED
    return NOT_ALLOWED if sys.platform == "win32" and _windows_says_no() else ""


def _windows_says_no() -> bool:
    """True where the person or the office forbade programs the camera (Windows 10 and later)."""
    import winreg

    key = r"Software\Microsoft\Windows\CurrentVersion\CapabilityAccessManager\ConsentStore\webcam"
    for name in (key, key + r"\NonPackaged"):
        try:
            with winreg.OpenKey(winreg.HKEY_CURRENT_USER, name) as found:  # type: ignore[attr-defined]
                if str(winreg.QueryValueEx(found, "Value")[0]) == "Deny":  # type: ignore[attr-defined]
                    return True
        except OSError:
            continue
    return False


class PictureCapture:
    """A picture file as the camera, or a folder: then its newest picture is what the camera sees."""

    has_torch = False
    pause_s = PICTURE_PAUSE_S

    def __init__(self, path: Path) -> None:
        self._path = path
        self._last: tuple[Path, int, int] | None = None
        self._picture: Any = None

    def read(self) -> Any | None:
        """What is seen now; a file that is being written shows what was there before."""
        from PIL import Image, ImageOps, UnidentifiedImageError

        try:
            path = next(iter(pictures_in(self._path)), None) if self._path.is_dir() else self._path
            if path is None:
                return None
            there = path.stat()
            known = (path, there.st_mtime_ns, there.st_size)
            if known != self._last:
                import numpy as np

                with Image.open(path) as image:
                    self._picture = np.asarray(ImageOps.exif_transpose(image).convert("RGB"))
                self._last = known
        except (OSError, SyntaxError, ValueError, UnidentifiedImageError, Image.DecompressionBombError):
            return self._picture
        return self._picture

    def torch(self, on: bool) -> bool:
        """A picture has no light."""
        return False

    def release(self) -> None:
        """Nothing is held."""


def opening_of(source: Path | None) -> Opening:
    """What opens pictures: the camera, or a picture or folder in its place."""
    if source is None:
        return open_camera

    def opened(side: str) -> Capture:
        if not source.exists():
            raise CameraTrouble(NONE)
        return PictureCapture(source)

    return opened
