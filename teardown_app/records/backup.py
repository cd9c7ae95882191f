"""A copy of the data folder without what is private, read back and checked."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from teardown_app import __version__
from teardown_app.domain.ledger.record import Record
from teardown_app.records import attachments, journal
from teardown_app.records.archive import device_folders
from teardown_app.records.backup_list import LIST, unlike_its_list
from teardown_app.records.completeness import lost_records, missing_attachments, odd_files, torn_end
from teardown_app.records.disk import Disk, RealDisk, make_folders, place
from teardown_app.records.known_of import unlike_what_was_seen
from teardown_app.records.trouble import BackupError, Trouble, why

_LEFT_OUT = ("private", LIST)


class Backup(NamedTuple):
    """What was copied and how it reads back."""

    files: int
    bytes: int
    records: int
    troubles: list[Trouble]
    """What is wrong in the copy because it is wrong in the folder itself."""


def make(home: Path, target: Path, wall: str, disk: Disk | None = None) -> Backup:
    """Copy all but `private/` into an empty or new folder, read it back, compare and check it.

    Raises `BackupError`.
    """
    disk = disk or RealDisk()
    _refuse_bad_target(home, target)
    try:
        return _made(disk, home, target, wall)
    except OSError as fault:
        raise BackupError(f"The backup is NOT complete. {why(fault)} Use a new folder.") from fault


def _made(disk: Disk, home: Path, target: Path, wall: str) -> Backup:
    make_folders(disk, target)
    left_out = odd_files(disk, home)
    listed = {name: _copy(disk, home, target, name) for name in _files(disk, home)}
    sizes = [_read_back(disk, target, name, digest) for name, digest in listed.items()]
    records, troubles = _read(disk, target)
    said = {"made": wall, "app": __version__, "files": listed}
    place(disk, target / LIST, json.dumps(said, indent=1).encode() + b"\n")
    return Backup(len(listed), sum(sizes), records, [*left_out, *troubles])


def check(folder: Path, disk: Disk | None = None) -> tuple[int, list[Trouble]]:
    """Check every line and every attachment of a data folder or copy against all that is there to show it: number of
    records, troubles."""
    disk = disk or RealDisk()
    records, troubles = _read(disk, folder)
    return records, [*troubles, *unlike_its_list(disk, folder)]


def _read(disk: Disk, folder: Path) -> tuple[int, list[Trouble]]:
    """The same but for the list of a backup, which is written last."""
    troubles = [*odd_files(disk, folder), *attachments.verify(disk, folder), *lost_records(disk, folder)]
    found: list[Record] = []
    for device in device_folders(disk, folder):
        for stem, segments in journal.numbers(disk, device).items():
            reading = journal.read(disk, device, stem, segments)
            found += reading.records
            troubles += [one for one in (reading.fault, torn_end(device, stem, segments, reading)) if one]
    troubles += [*missing_attachments(disk, folder, found), *unlike_what_was_seen(folder, found)]
    return len(found), troubles


def _refuse_bad_target(home: Path, target: Path) -> None:
    here, there = home.resolve(), target.resolve()
    if there == here or here in there.parents or there in here.parents:
        raise BackupError(f"{target} lies in the data folder or around it. Choose a folder elsewhere.")
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise BackupError(f"{target} is not empty. Name a new folder, for example {target}-2.")
    if not home.is_dir():
        raise BackupError(f"{home} is not there. Name the data folder with --home.")


def _files(disk: Disk, home: Path) -> Iterator[str]:
    """Paths of all files to copy, attachments last: whatever a copied record names is then copied too."""
    found = []
    for folder, folders, names in os.walk(home):
        if Path(folder) == home:
            folders[:] = [name for name in folders if name not in _LEFT_OUT]
            names = [name for name in names if name not in _LEFT_OUT]
        odd = disk.odd(Path(folder))
        plain = (name for name in names if not name.endswith(".tmp") and name not in odd)
        found += [(Path(folder) / name).relative_to(home).as_posix() for name in plain]
    yield from sorted(found, key=lambda name: (name.startswith("out/attachments/"), name))


def _copy(disk: Disk, home: Path, target: Path, name: str) -> str:
    data = disk.read(home / name)
    make_folders(disk, (target / name).parent)
    place(disk, target / name, data)
    return sha256(data).hexdigest()


def _read_back(disk: Disk, target: Path, name: str, digest: str) -> int:
    data = disk.read(target / name)
    if sha256(data).hexdigest() != digest:
        raise BackupError(f"{target / name} does not read back as it was written. Use another disk or stick.")
    return len(data)
