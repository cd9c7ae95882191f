"""What was being read when the app died: the picture stands in a file that outlives the process.

A fault inside a reader's native code ends the app without a word. The picture is copied into a mapped file
before it is read and struck out after it; the start after a fault finds the one that was not struck out, keeps it
aside and does not read it again; any other start throws it away. Nothing waits for the disk here: a mapped page
survives the death of a program. Records come first: where the disk is nearly full no picture is kept.
"""

from __future__ import annotations

import math
import shutil
import struct
from collections.abc import Callable
from contextlib import suppress
from hashlib import blake2b
from mmap import mmap
from pathlib import Path
from threading import Lock
from time import monotonic
from typing import Any

HEADER = struct.Struct("<III16s")
"""1 while it is being read, width, height, digest of the whole picture where it is kept shrunk; then a byte a pixel."""
MOST_KEPT = 20
MOST_PIXELS = 4_000_000
"""A larger picture is kept shrunk."""
RESERVE = 64 * 2**20
"""Bytes that stay free on the disk for the records."""
AGAIN_S = 60.0
"""So long nothing is kept after the disk had no room."""


def digest_of(grey: Any) -> str:
    """By what a picture is known again."""
    return blake2b(grey.tobytes(), digest_size=16, person=f"{grey.shape[1]}x{grey.shape[0]}".encode()[:16]).hexdigest()


def shrunk(grey: Any) -> Any:
    """The picture itself, or every second, third, ... pixel of a large one."""
    step = math.ceil(math.sqrt(grey.size / MOST_PIXELS))
    while grey[::step, ::step].size > MOST_PIXELS:  # a strip
        step += 1
    return grey[::step, ::step] if step > 1 else grey


class BlackBox:
    """The file beside the settings of this tablet. The reading thread writes it, the screen's closes it."""

    def __init__(self, folder: Path, clock: Callable[[], float] = monotonic) -> None:
        self._folder, self._clock = folder, clock
        self._file = folder / "being-read"
        self._aside = folder / "pictures-not-read"
        self._lock = Lock()
        self._map: mmap | None = None
        self._room = 0
        self._not_before = -math.inf
        self._closed = False
        self.not_to_read: frozenset[str] = frozenset(one.stem for one in self._kept())

    def _kept(self) -> list[Path]:
        return sorted(self._aside.glob("*.png"), key=lambda one: one.stat().st_mtime) if self._aside.is_dir() else []

    def begin(self, grey: Any) -> None:
        """This picture is being read now. On a full disk nothing is kept, and reading goes on."""
        small = shrunk(grey)
        digest = b"" if small is grey else bytes.fromhex(digest_of(grey))
        height, width = small.shape
        with self._lock:
            if not self._has_room(small.size):
                return
            assert self._map is not None
            self._map[HEADER.size : HEADER.size + small.size] = small.tobytes()
            self._map[: HEADER.size] = HEADER.pack(1, width, height, digest)

    def end(self) -> None:
        """It is read."""
        with self._lock:
            if self._map is not None:
                self._map[: HEADER.size] = bytes(HEADER.size)

    def _has_room(self, pixels: int) -> bool:
        """True when the file can take the picture; without the reserve on the disk the file goes, for a minute."""
        if self._closed or self._clock() < self._not_before:
            return False
        try:
            if self._room < pixels:
                self._strike_out()
            more = 0 if self._map is not None else HEADER.size + pixels
            enough = self._has_reserve(more)
            if enough and more:
                self._make(pixels)
        except OSError:
            enough = False
        if not enough:
            self._strike_out()
            self._not_before = self._clock() + AGAIN_S
        return enough

    def _has_reserve(self, more: int) -> bool:
        """True when the reserve is left with so many bytes more on the disk."""
        self._folder.mkdir(parents=True, exist_ok=True)
        return shutil.disk_usage(self._folder).free >= RESERVE + more

    def _make(self, pixels: int) -> None:
        """The file, as long as the picture."""
        with open(self._file, "wb") as file:
            file.write(bytes(HEADER.size + pixels))  # real blocks: a page that cannot be had kills the program
        with open(self._file, "r+b") as file:
            self._map = mmap(file.fileno(), 0)
        self._room = pixels

    def close(self) -> None:
        """No picture is being read any more, also where a reader still works; nothing is kept afterwards."""
        with self._lock:
            self._closed = True
            self._strike_out()

    def strike_out(self) -> None:
        """Throws away what an earlier life left: it did not end by a fault."""
        with self._lock:
            self._strike_out()

    def _strike_out(self) -> None:
        if self._map is not None:
            self._map[: HEADER.size] = bytes(HEADER.size)
            self._map.close()
        self._map, self._room = None, 0
        with suppress(OSError):  # one that stays says by its header that nothing is being read
            self._file.unlink(missing_ok=True)

    def set_aside(self) -> str:
        """Keeps the picture that was being read aside; gives its file, empty when none was being read."""
        with self._lock:
            found = self._left()
            self._strike_out()
        if found is None:
            return ""
        digest, grey = found
        self.not_to_read |= {digest}
        kept = self._aside / f"{digest}.png"
        try:
            return str(kept) if self._save(grey, kept) else ""
        except OSError:
            kept.unlink(missing_ok=True)
            return ""

    def _left(self) -> tuple[str, Any] | None:
        """Digest and picture that an earlier life left in the file."""
        import numpy as np

        try:
            data = self._file.read_bytes()
        except OSError:
            return None
        if len(data) < HEADER.size:
            return None
        reading, width, height, digest = HEADER.unpack_from(data)
        if reading != 1 or not 0 < width * height <= len(data) - HEADER.size:
            return None
        grey = np.frombuffer(data, np.uint8, width * height, HEADER.size).reshape(height, width)
        return digest.hex() if any(digest) else digest_of(grey), grey

    def _save(self, grey: Any, kept: Path) -> bool:
        """Saves the picture where the disk has room for it; the last few are kept."""
        from PIL import Image

        if not self._has_reserve(grey.size):
            return False
        self._aside.mkdir(parents=True, exist_ok=True)
        Image.fromarray(grey).save(kept)
        for old in self._kept()[:-MOST_KEPT]:
            old.unlink()
        return True
