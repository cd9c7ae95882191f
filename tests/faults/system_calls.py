"""What the real disk code asks of the operating system, told to a disk that keeps only what was synced.

`Watched` stands for the module `os` in `records/disk.py`. Every call goes to the system as it is, and a `ModelDisk`
is told of it: so it can be asked what would be left of the real work if the power went now.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.faults.bench_work import FOLDER
from tests.faults.model_disk import ModelDisk

TOLD = ("open", "write", "fsync", "close", "mkdir", "replace", "remove", "truncate")


class Watched:
    """The module `os`, listened to. `leaves_out` names calls that are not passed on; `writes` cuts writes short."""

    def __init__(self, real: Path) -> None:
        self.real = real
        self.disk = ModelDisk()
        for folder in reversed([FOLDER, *FOLDER.parents[:-1]]):
            self.disk.make_folder(folder)
            self.disk.sync_folder(folder.parent)
        self.calls: list[tuple[str, Path]] = []
        """Name of a call and what it was about, in the order of the calls."""
        self.leaves_out: Callable[[str, Path], bool] = lambda call, path: False
        self.writes: Callable[[Path, bytes], int] = lambda path, data: len(data)
        self._handles: dict[int, Path] = {}

    def __getattr__(self, name: str) -> Any:
        return getattr(self, "_" + name) if name in TOLD else getattr(os, name)

    def _told(self, path: Path | str) -> Path:
        """The same place on the model's disk."""
        return FOLDER / Path(path).relative_to(self.real)

    def _passes(self, call: str, path: Path) -> bool:
        if self.leaves_out(call, path):
            return False
        self.calls.append((call, path))
        return True

    def _open(self, path: Path, flags: int, mode: int = 0o777) -> int:
        handle = os.open(path, flags, mode)
        self._handles[handle] = told = self._told(path)
        if flags & os.O_TRUNC:
            self.disk.put(told, b"")
        return handle

    def _close(self, handle: int) -> None:
        del self._handles[handle]
        os.close(handle)

    def _write(self, handle: int, data: bytes) -> int:
        path = self._handles[handle]
        self._passes("write", path)
        number = os.write(handle, data[: self.writes(path, data)])
        self.disk.append(path, data[:number])
        return number

    def _fsync(self, handle: int) -> None:
        path = self._handles[handle]
        if self._passes("fsync", path):
            os.fsync(handle)
            (self.disk.sync_folder if path in self.disk.entries else self.disk.sync_file)(path)

    def _mkdir(self, path: Path) -> None:
        self._passes("mkdir", self._told(path))
        os.mkdir(path)
        if not self.disk.exists(self._told(path)):
            self.disk.make_folder(self._told(path))

    def _replace(self, source: Path, target: Path) -> None:
        self._passes("replace", self._told(target))
        os.replace(source, target)
        self.disk.replace(self._told(source), self._told(target))

    def _remove(self, path: Path) -> None:
        os.remove(path)
        self.disk.remove(self._told(path))

    def _truncate(self, path: Path, size: int) -> None:
        self._passes("truncate", self._told(path))
        os.truncate(path, size)
        self.disk.truncate(self._told(path), size)
