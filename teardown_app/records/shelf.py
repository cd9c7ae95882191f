"""Storage of the index: in memory, written whole and durable when asked, put aside when it is not as it was written.

Derived and never the truth: nothing that goes wrong here is raised, `trouble` says it.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tinydb.storages import Storage

from teardown_app.records.disk import Disk, make_folders, place
from teardown_app.records.envelope import hash_of
from teardown_app.records.trouble import Trouble, why

Tables = dict[str, dict[str, Any]]


class Shelf(Storage):
    """A TinyDB storage. `trouble` says what a person should know: the file found was garbled (the index is then
    empty), or could not be kept."""

    def __init__(self, disk: Disk, path: Path) -> None:
        self._disk = disk
        self._path = path
        self._changed = False
        self.trouble: Trouble | None = None
        self._tables = self._load()

    def read(self) -> Tables | None:
        """The tables, as held in memory."""
        return self._tables or None

    def write(self, data: Tables) -> None:
        """Take the tables into memory; the disk is not touched."""
        self._tables, self._changed = data, True

    def flush(self) -> None:
        """Put the tables on the disk, if they have changed. What cannot be kept is built anew at the next start:
        `trouble` says so, and nothing else comes of it."""
        if not self._changed:
            return
        try:
            make_folders(self._disk, self._path.parent)
            place(self._disk, self._path, written(self._tables))
        except OSError as fault:
            self.trouble = self._not_kept(fault)
            return
        self._changed = False

    def close(self) -> None:
        """Nothing is kept open."""

    def _load(self) -> Tables:
        try:
            tables = _tables_of(self._disk.read(self._path))
        except FileNotFoundError:
            return {}
        except OSError:
            tables = None
        return self._put_aside() if tables is None else tables

    def _put_aside(self) -> Tables:
        """What is no index of ours gets another name: the file, or what stands where its folder should be."""
        folder = self._path.parent
        found = self._path if folder.name in self._disk.folders(folder.parent) else folder
        n = 1
        while self._disk.exists(aside := found.with_name(f"{found.name}.garbled-{n}")):
            n += 1
        what = "the file for lists and searches was damaged"
        try:
            self._disk.replace(found, aside)
            self._disk.sync_folder(found.parent)
            then = f"the damaged one is kept as {aside.name}"
        except OSError as fault:
            then = f"the damaged one could not be put aside. {why(fault)}".rstrip(".")
        self.trouble = Trouble(str(found), 0, 0, what, f"It is built anew from the entries, nothing is lost; {then}.")
        return {}

    def _not_kept(self, fault: OSError) -> Trouble:
        what = f"the file for lists and searches could not be kept ({fault.strerror or fault})"
        return Trouble(
            str(self._path), 0, 0, what,
            "Nothing is lost: what was recorded is safe, and lists are built anew at the next start. "
            "Look whether the disk is full or the folder may not be written.",
        )  # fmt: skip


def written(tables: Tables) -> bytes:
    """The file: one line of JSON, and one with the check value of that line."""
    line = json.dumps(tables, ensure_ascii=False).encode()
    return line + b"\n" + hash_of(line).encode() + b"\n"


def _tables_of(data: bytes) -> Tables | None:
    """The tables of a file as `written`; None for anything else."""
    line, _, check = data.partition(b"\n")
    if check != hash_of(line).encode() + b"\n":
        return None
    tables: Tables = json.loads(line)
    return tables
