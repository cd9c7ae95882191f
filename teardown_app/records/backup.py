"""A copy of the data folder without what is private, read back and checked."""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterator, Mapping
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from teardown_app import __version__
from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.records import attachments, journal
from teardown_app.records.archive import device_folders
from teardown_app.records.backup_list import LIST, unlike_its_list
from teardown_app.records.completeness import lost_records, missing_attachments, odd_files, torn_end
from teardown_app.records.disk import Disk, RealDisk, make_folders, place
from teardown_app.records.known_of import unlike_what_was_seen
from teardown_app.records.trouble import BackupError, Trouble, why

_LEFT_OUT = ("private", LIST)
_RECORDS = "out/journals/"


class Backup(NamedTuple):
    """What was copied and how it reads back."""

    files: int
    bytes: int
    records: int
    troubles: list[Trouble]
    """What is wrong in the copy because it is wrong in the folder itself."""


Tell = Callable[[str], None]


def _tell_nobody(how_far: str) -> None: ...


def make(
    home: Path,
    target: Path,
    wall: str,
    disk: Disk | None = None,
    tell: Tell = _tell_nobody,
    there: Mapping[str, int] | None = None,
) -> Backup:
    """Copy all but `private/` into an empty or new folder, read it back, compare and check it.

    Takes no lock and writes nothing in the data folder: it may be read-only, or in use. `tell` gets how far it is,
    `there` is what `files` gave. Raises `BackupError`.
    """
    disk = disk or RealDisk()
    _refuse_bad_target(home, target)
    try:
        return _made(disk, home, target, wall, tell, files(disk, home) if there is None else there)
    except OSError as fault:
        raise BackupError(f"The backup is NOT complete. {why(fault)} Use a new folder.") from fault


def _made(disk: Disk, home: Path, target: Path, wall: str, tell: Tell, there: Mapping[str, int]) -> Backup:
    make_folders(disk, target)
    left_out = odd_files(disk, home)
    copying, reading = _told(there, "copied", tell), _told(there, "read back", tell)
    listed = {name: _copy(disk, home, target, name, there[name]) for name in copying}
    sizes = [_read_back(disk, target, name, listed[name]) for name in reading]
    records, troubles = _read(disk, target)
    said = {"made": wall, "app": __version__, "files": listed}
    place(disk, target / LIST, json.dumps(said, indent=1).encode() + b"\n")
    return Backup(len(listed), sum(sizes), records, [*left_out, *troubles])


def _told(names: Mapping[str, int], done: str, tell: Tell) -> Iterator[str]:
    """The names one after the other, each told of with how many there are."""
    for n, name in enumerate(names, 1):
        tell(f"{done} {n} of {len(names)} files")
        yield name


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


def files(disk: Disk, home: Path) -> dict[str, int]:
    """Paths of all files to copy, and how many bytes of each: of records as many as are there now, for the app may go
    on recording meanwhile.

    What a copied record names or had seen is copied too: files of jobs are measured before those of the shop, which
    they look at, and all of them before attachments are looked for, which are kept before the record that names them.
    Asked for between two acts, no act is copied in half.
    """
    records = [name for name in _names(disk, home) if name.startswith(_RECORDS)]
    records.sort(key=lambda name: (f"/{SHOP}." in name, name))
    measured = {name: disk.size(home / name) for name in records}
    others = [name for name in _names(disk, home) if not name.startswith(_RECORDS)]
    return {**measured, **dict.fromkeys(sorted(others), -1)}


def _names(disk: Disk, home: Path) -> Iterator[str]:
    for folder, folders, names in os.walk(home):
        here = Path(folder)
        if here == home:
            folders[:] = [name for name in folders if name not in _LEFT_OUT]
        left_out = {*disk.odd(here), *(_LEFT_OUT if here == home else ())}
        plain = (name for name in names if not name.endswith(".tmp") and name not in left_out)
        yield from ((here / name).relative_to(home).as_posix() for name in plain)


def _copy(disk: Disk, home: Path, target: Path, name: str, length: int) -> str:
    data = disk.read(home / name, length)
    make_folders(disk, (target / name).parent)
    place(disk, target / name, data)
    return sha256(data).hexdigest()


def _read_back(disk: Disk, target: Path, name: str, digest: str) -> int:
    data = disk.read(target / name)
    if sha256(data).hexdigest() != digest:
        raise BackupError(f"{target / name} does not read back as it was written. Use another disk or stick.")
    return len(data)
