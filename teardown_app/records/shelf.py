"""Storage of the index: in memory, written whole and durable when asked, moved aside when garbled."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tinydb.storages import Storage

from teardown_app.records.disk import Disk, make_folders, place
from teardown_app.records.trouble import Trouble

Tables = dict[str, dict[str, Any]]


class Shelf(Storage):
    """A TinyDB storage. `trouble` says so when the file found was garbled; the index is then empty."""

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
        """Put the tables on the disk, if they have changed."""
        if not self._changed:
            return
        make_folders(self._disk, self._path.parent)
        place(self._disk, self._path, json.dumps(self._tables, ensure_ascii=False).encode())
        self._changed = False

    def close(self) -> None:
        """Nothing is kept open."""

    def _load(self) -> Tables:
        try:
            data = self._disk.read(self._path)
        except FileNotFoundError:
            return {}
        try:
            tables = json.loads(data)
        except (ValueError, RecursionError):
            tables = None
        return tables if _is_whole(tables) else self._moved_aside()

    def _moved_aside(self) -> Tables:
        n = 1
        while self._disk.exists(aside := self._path.with_name(f"{self._path.name}.garbled-{n}")):
            n += 1
        self._disk.replace(self._path, aside)
        self._disk.sync_folder(self._path.parent)
        self.trouble = Trouble(
            str(self._path), 0, 0, "the file for lists and searches was damaged",
            f"It is built anew from the entries, nothing is lost; the damaged one is kept as {aside.name}.",
        )  # fmt: skip
        return {}


def _is_whole(tables: object) -> bool:
    """Tables of rows, each row with its key, as this app writes them."""
    return isinstance(tables, dict) and all(
        isinstance(rows, dict)
        and all(
            number.isdigit() and isinstance(row, dict) and isinstance(row.get("key"), str)
            for number, row in rows.items()
        )
        for rows in tables.values()
    )
