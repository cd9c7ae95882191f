"""Where a stick or another disk lies that was put into this machine. No Kivy here."""

from __future__ import annotations

import os
import string
from collections.abc import Iterable, Iterator
from pathlib import Path

ROOTS = ("/media", "/run/media", "/mnt", "/Volumes", "/storage")
"""Folders in which systems show disks that were put in, directly or below a person's name."""
_REMOVABLE = 2
"""What `GetDriveTypeW` of Windows calls a disk that can be taken out (from memory)."""


def sticks(roots: Iterable[str] = ROOTS) -> list[Path]:
    """Disks that were put in and can be written, in the order of their names."""
    found = _drives() if os.name == "nt" else _mounted(map(Path, roots))
    return sorted({path for path in found if os.access(path, os.W_OK)})


def _mounted(roots: Iterable[Path]) -> Iterator[Path]:
    for root in roots:
        for below in _folders(root):
            yield from (path for path in (below, *_folders(below)) if os.path.ismount(path))


def _folders(path: Path) -> list[Path]:
    try:
        return [one for one in path.iterdir() if one.is_dir()]
    except OSError:
        return []


def _drives() -> Iterator[Path]:
    import ctypes

    kind = ctypes.windll.kernel32.GetDriveTypeW  # type: ignore[attr-defined]
    yield from (Path(f"{letter}:\\") for letter in string.ascii_uppercase if kind(f"{letter}:\\") == _REMOVABLE)
