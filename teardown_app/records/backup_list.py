"""`backup.json`, the list of a backup's files, held against what is there."""

from __future__ import annotations

import json
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path, PurePosixPath

from teardown_app.records.disk import Disk
from teardown_app.records.trouble import Trouble

LIST = "backup.json"
_NEVER_CHANGED = ("out/", "set-aside/")
"""What a start from the copy leaves as it was; lists, drafts and what others recorded go on."""
_KEPT = ("out/", "archive/")
_ANOTHER = "Compare with the tablet, or make a new backup."


def unlike_its_list(disk: Disk, folder: Path) -> list[Trouble]:
    """What is not as the list says, in a copy or in a folder that was started from one; a copy without a list."""
    started = disk.exists(folder / "private")
    if not disk.exists(folder / LIST):
        return [] if started or not disk.folders(folder / "out") else [_unfinished(folder)]
    listed = _listed(disk, folder)
    if listed is None:
        return [Trouble(str(folder / LIST), 0, 0, "the list of this backup cannot be read", _ANOTHER)]
    return _unlike(disk, folder, listed, started=started)


def _unlike(disk: Disk, folder: Path, listed: dict[str, str], *, started: bool) -> list[Trouble]:
    asked = {name: digest for name, digest in listed.items() if not started or name.startswith(_NEVER_CHANGED)}
    wrong = {name: _differs(disk, folder, name, digest) for name, digest in asked.items()}
    if not started:
        wrong |= dict.fromkeys(
            sorted(set(_kept(disk, folder)) - set(listed)), "this file is not in the list of the backup"
        )
    return [_trouble(folder / name, what) for name, what in wrong.items() if what]


def _listed(disk: Disk, folder: Path) -> dict[str, str] | None:
    """Path and SHA-256 of every file; None where this is no list, or names something outside the folder."""
    try:
        files = json.loads(disk.read(folder / LIST))["files"]
        listed = {str(name): str(digest) for name, digest in files.items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None
    return listed if all(map(_inside, listed)) else None


def _inside(name: str) -> bool:
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts and not set(name) & set("\\:\0")


def _differs(disk: Disk, folder: Path, name: str, digest: str) -> str:
    try:
        same = sha256(disk.read(folder / name)).hexdigest() == digest
    except FileNotFoundError:
        return "this file of the backup is not there"
    except OSError as fault:
        return f"this file of the backup cannot be read ({fault.strerror or fault})"
    return "" if same else "this file is not as the backup was made"


def _kept(disk: Disk, folder: Path) -> Iterator[str]:
    """Files of records and attachments that are there."""
    left = [folder / top.rstrip("/") for top in _KEPT]
    while left:
        here = left.pop()
        left += [here / name for name in disk.folders(here)]
        names = (name for name in disk.sizes(here) if not name.endswith(".tmp"))
        yield from ((here / name).relative_to(folder).as_posix() for name in names)


def _trouble(file: Path, what: str) -> Trouble:
    return Trouble(str(file), 0, 0, what, _ANOTHER)


def _unfinished(folder: Path) -> Trouble:
    what = f"{LIST} is not there: this is no complete backup"
    return Trouble(str(folder), 0, 0, what, "Make a new backup, or start the app on it to go on from what is there.")
