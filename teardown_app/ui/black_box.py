"""What was being read when the app died: the picture stands in a file that outlives the process.

A fault inside a reader's native code ends the app without a word. The picture is copied into a mapped file
before it is read and struck out after it; the next start finds the one that was not struck out, keeps it aside
and does not read it again. Nothing waits for the disk here: a mapped page survives the death of a program.
"""

from __future__ import annotations

import struct
from hashlib import blake2b
from mmap import mmap
from pathlib import Path
from typing import Any

HEADER = struct.Struct("<III")
"""1 while it is being read, width, height; then a byte a pixel."""
MOST_KEPT = 20


def digest_of(grey: Any) -> str:
    """By what a picture is known again."""
    return blake2b(grey.tobytes(), digest_size=16, person=f"{grey.shape[1]}x{grey.shape[0]}".encode()[:16]).hexdigest()


class BlackBox:
    """The file beside the settings of this tablet."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._file = folder / "being-read"
        self._aside = folder / "pictures-not-read"
        self._map: mmap | None = None
        self._room = 0
        self.not_to_read: frozenset[str] = frozenset(one.stem for one in self._kept())

    def _kept(self) -> list[Path]:
        return sorted(self._aside.glob("*.png"), key=lambda one: one.stat().st_mtime) if self._aside.is_dir() else []

    def begin(self, grey: Any) -> None:
        """This picture is being read now. On a full disk nothing is kept, and reading goes on."""
        height, width = grey.shape
        try:
            if self._map is None or self._room < grey.size:
                self._open(grey.size)
        except OSError:
            self.close()
            return
        assert self._map is not None
        self._map[HEADER.size : HEADER.size + grey.size] = grey.tobytes()
        self._map[: HEADER.size] = HEADER.pack(1, width, height)

    def end(self) -> None:
        """It is read."""
        if self._map is not None:
            self._map[: HEADER.size] = HEADER.pack(0, 0, 0)

    def _open(self, pixels: int) -> None:
        self.close()
        self._folder.mkdir(parents=True, exist_ok=True)
        with open(self._file, "wb") as file:
            file.write(b"\0" * (HEADER.size + pixels))  # real blocks: a page that cannot be had kills the program
        with open(self._file, "r+b") as file:
            self._map = mmap(file.fileno(), 0)
        self._room = pixels

    def close(self) -> None:
        """Lets go of the file."""
        if self._map is not None:
            self._map.close()
        self._map, self._room = None, 0

    def set_aside(self) -> str:
        """Keeps the picture that was being read aside; gives its file, empty when none was being read."""
        import numpy as np
        from PIL import Image

        try:
            data = self._file.read_bytes()
        except OSError:
            return ""
        if len(data) < HEADER.size:
            return ""
        reading, width, height = HEADER.unpack_from(data)
        if reading != 1 or not 0 < width * height <= len(data) - HEADER.size:
            return ""
        grey = np.frombuffer(data, np.uint8, width * height, HEADER.size).reshape(height, width)
        kept = self._aside / f"{digest_of(grey)}.png"
        try:
            self._aside.mkdir(parents=True, exist_ok=True)
            Image.fromarray(grey).save(kept)
            self._file.write_bytes(HEADER.pack(0, 0, 0))
            for old in self._kept()[:-MOST_KEPT]:
                old.unlink()
        except OSError:
            kept = Path()
        self.not_to_read |= {digest_of(grey)}
        return str(kept) if kept.name else ""
