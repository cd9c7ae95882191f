"""A file read whole: what it is and how long it is are looked at before a byte of it is read."""

from __future__ import annotations

import errno
import stat
from pathlib import Path


def read_whole(path: Path, most: int) -> bytes:
    """The bytes of a file of at most `most`; raises `OSError` with what is wrong: also for a device, a pipe, a socket.

    >>> read_whole(Path("/dev/zero"), 10)
    Traceback (most recent call last):
    OSError: [Errno 22] is no file but a device, a pipe or a folder: '/dev/zero'
    """
    about = path.stat()
    if not stat.S_ISREG(about.st_mode):
        raise OSError(errno.EINVAL, "is no file but a device, a pipe or a folder", str(path))
    if about.st_size > most:
        raise OSError(errno.EFBIG, f"is larger than {most / 2**20:g} MB", str(path))
    with path.open("rb") as file:
        found = file.read(most + 1)
    if len(found) > most:
        raise OSError(errno.EFBIG, f"is larger than {most / 2**20:g} MB", str(path))
    return found
