"""Moving out of the way what cannot be used, without losing a byte of it."""

from __future__ import annotations

from pathlib import Path

from teardown_app.records import journal
from teardown_app.records.disk import Disk, make_folders, place
from teardown_app.records.names import file_of
from teardown_app.records.trouble import Trouble


def torn_end(disk: Disk, home: Path, folder: Path, stem: str, reading: journal.Reading) -> Trouble:
    """Move what stands behind the last whole line to a file of its own; durable there before it is cut
    off here, so that nothing is ever added to a torn line."""
    tail = reading.tail
    number = tail.segment + 1 if reading.lost_first_line else tail.segment
    at = 0 if reading.lost_first_line else tail.length
    path = folder / file_of(stem, number)
    kept = keep(disk, home, f"{folder.name}.{path.stem}.at-{at}.torn", reading.torn)
    if reading.lost_first_line:
        disk.remove(path)
        disk.sync_folder(folder)
    else:
        disk.truncate(path, at)
        disk.sync_file(path)
    return Trouble(
        str(path), 0, at, journal.TORN,
        f"Enter it again if it is not shown. What was left of it is kept in {kept}.",
    )  # fmt: skip


def keep(disk: Disk, home: Path, name: str, data: bytes) -> Path:
    """Put bytes into `set-aside/` under this name, or one with a number behind it if that is taken."""
    folder = home / "set-aside"
    make_folders(disk, folder)
    path, n = folder / name, 1
    while disk.exists(path) and disk.read(path) != data:
        n += 1
        path = folder / f"{name}-{n}"
    place(disk, path, data)
    return path
