"""The disk: the few operations through which everything in the data folder is written and read.

Narrow on purpose, so that the tests can put a model in its place that forgets whatever was not
synced. Nothing here knows what is in the files.
"""

from __future__ import annotations

import errno
import os
from contextlib import suppress
from pathlib import Path
from stat import S_ISREG
from typing import Protocol

_BINARY = getattr(os, "O_BINARY", 0)
_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
_NO_WAIT = getattr(os, "O_NONBLOCK", 0)


class Disk(Protocol):
    """What the records room asks of a disk. Every failure is an `OSError`."""

    def read(self, path: Path, limit: int = -1) -> bytes:
        """The file's bytes, at most `limit` of them; `FileNotFoundError` when it is not there, `OSError` for a link,
        a pipe or a device."""
        ...

    def size(self, path: Path) -> int:
        """Length in bytes; `FileNotFoundError` when it is not there."""
        ...

    def sizes(self, folder: Path) -> dict[str, int]:
        """Name and length of each file in a folder; empty when there is no such folder."""
        ...

    def names(self, folder: Path) -> list[str]:
        """Names of all that is in a folder; empty when there is no such folder."""
        ...

    def folders(self, folder: Path) -> list[str]:
        """Names of the folders in a folder, sorted; empty when there is no such folder."""
        ...

    def exists(self, path: Path) -> bool:
        """True for a file or folder that is there."""
        ...

    def odd(self, folder: Path) -> list[str]:
        """Names in a folder that are neither a file nor a folder: links, pipes, devices. They are never followed, read
        or waited for."""
        ...

    def make_folder(self, path: Path) -> None:
        """Make one folder; its parent must be there, it must not."""
        ...

    def owner_only(self, folder: Path) -> bool:
        """Take a folder from everybody but its owner; false where the disk knows no owners."""
        ...

    def put(self, path: Path, data: bytes) -> None:
        """Write a whole file anew, not synced: for temporary names, and for what may be lost."""
        ...

    def append(self, path: Path, data: bytes) -> None:
        """Add bytes to a file that is there, in one write; a short write is an `OSError`."""
        ...

    def append_for_good(self, path: Path, at: int, data: bytes) -> None:
        """Add bytes in one write and return when they are on the disk. `Moved`, and nothing is written,
        unless the file is `at` bytes long."""
        ...

    def truncate(self, path: Path, size: int) -> None:
        """Cut a file back to a length."""
        ...

    def sync_file(self, path: Path) -> None:
        """Return when the file's bytes are on the disk."""
        ...

    def sync_folder(self, path: Path) -> None:
        """Return when the folder's names are on the disk."""
        ...

    def replace(self, source: Path, target: Path) -> None:
        """Give a file another name, in one step, over what had that name."""
        ...

    def remove(self, path: Path) -> None:
        """Take a file's name away."""
        ...


class Moved(OSError):
    """The file is not as it was left: somebody else wrote in it."""


class RealDisk:
    """The operating system's files: Linux, Android, Windows."""

    def read(self, path: Path, limit: int = -1) -> bytes:
        with open(path, "rb", opener=_open_file) as file:
            return file.read(limit)

    def size(self, path: Path) -> int:
        return os.stat(path).st_size

    def sizes(self, folder: Path) -> dict[str, int]:
        try:
            with os.scandir(folder) as entries:
                return {entry.name: entry.stat().st_size for entry in entries if _is_file(entry)}
        except (FileNotFoundError, NotADirectoryError):
            return {}

    def names(self, folder: Path) -> list[str]:
        try:
            return os.listdir(folder)
        except (FileNotFoundError, NotADirectoryError):
            return []

    def folders(self, folder: Path) -> list[str]:
        try:
            with os.scandir(folder) as entries:
                return sorted(entry.name for entry in entries if _is_folder(entry))
        except (FileNotFoundError, NotADirectoryError):
            return []

    def exists(self, path: Path) -> bool:
        return os.path.exists(path)

    def odd(self, folder: Path) -> list[str]:
        try:
            with os.scandir(folder) as entries:
                return sorted(one.name for one in entries if not _is_file(one) and not _is_folder(one))
        except (FileNotFoundError, NotADirectoryError):
            return []

    def make_folder(self, path: Path) -> None:
        os.mkdir(path)

    def owner_only(self, folder: Path) -> bool:
        if os.name == "nt":  # a person's own folders are theirs; there are no such bits
            return True
        with suppress(OSError):
            os.chmod(folder, 0o700)
        return not os.stat(folder).st_mode & 0o077

    def put(self, path: Path, data: bytes) -> None:
        _write(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, data)

    def append(self, path: Path, data: bytes) -> None:
        _write(path, os.O_WRONLY | os.O_APPEND, data)

    def append_for_good(self, path: Path, at: int, data: bytes) -> None:
        handle = os.open(path, os.O_RDWR | os.O_APPEND | _BINARY)
        try:
            if os.fstat(handle).st_size != at:
                raise Moved(0, "the file is not as it was left", str(path))
            _write_all(handle, data, path)
            os.fsync(handle)
        finally:
            os.close(handle)

    def truncate(self, path: Path, size: int) -> None:
        os.truncate(path, size)

    def sync_file(self, path: Path) -> None:
        _sync(path, os.O_RDWR | _BINARY)

    def sync_folder(self, path: Path) -> None:
        if os.name == "nt":  # Windows opens no folder; NTFS keeps names in its own log
            return
        _sync(path, os.O_RDONLY)

    def replace(self, source: Path, target: Path) -> None:
        os.replace(source, target)

    def remove(self, path: Path) -> None:
        os.remove(path)


def _is_file(entry: os.DirEntry[str]) -> bool:
    return entry.is_file(follow_symlinks=False)


def _is_folder(entry: os.DirEntry[str]) -> bool:
    return entry.is_dir(follow_symlinks=False)


def _open_file(path: str, flags: int) -> int:
    """Opens a plain file: what a link names is not followed, and nobody waits for the other end of a pipe."""
    try:
        handle = os.open(path, flags | _NO_LINK | _NO_WAIT)
    except OSError as fault:
        if fault.errno == errno.ELOOP:
            raise _no_file(path) from fault
        raise
    if not S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise _no_file(path)
    return handle


def _no_file(path: str) -> OSError:
    return OSError(errno.EINVAL, "it is a link, a pipe or a folder, no file", str(path))


def make_folders(disk: Disk, path: Path) -> None:
    """Make a folder with all that is missing above it, each made durable in the folder above."""
    if disk.exists(path):
        return
    make_folders(disk, path.parent)
    disk.make_folder(path)
    disk.sync_folder(path.parent)


def place(disk: Disk, path: Path, data: bytes) -> None:
    """Put a whole file in its place so that after a crash it is there whole, or not at all."""
    temporary = path.with_name(path.name + ".tmp")
    try:
        disk.put(temporary, data)
        disk.sync_file(temporary)
        disk.replace(temporary, path)
    except OSError:
        drop(disk, temporary)
        raise
    disk.sync_folder(path.parent)


def drop(disk: Disk, path: Path) -> None:
    """Take away a file that is not wanted, if it is there and the disk lets us; it does no harm else."""
    with suppress(OSError):
        disk.remove(path)


def _write(path: Path, flags: int, data: bytes) -> None:
    handle = os.open(path, flags | _BINARY, 0o666)
    try:
        _write_all(handle, data, path)
    finally:
        os.close(handle)


def _write_all(handle: int, data: bytes, path: Path) -> None:
    try:
        written = os.write(handle, data)
    except OSError as fault:  # the system does not say which file
        raise OSError(fault.errno, fault.strerror, str(path)) from fault
    if written != len(data):
        raise OSError(errno.ENOSPC, f"only {written} of {len(data)} bytes were written", str(path))


def _sync(path: Path, flags: int) -> None:
    handle = os.open(path, flags)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
