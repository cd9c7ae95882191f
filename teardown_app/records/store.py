"""The index for lists and searches across jobs: TinyDB on our own storage.

Derived from the records and deletable. Rows are handed in by the caller; nothing here knows what
they mean. Taking in a row costs nothing on the way of a scan: it reaches TinyDB with the next
search, the disk with `flush`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from tinydb import TinyDB
from tinydb.table import Document

from teardown_app.records.disk import Disk, RealDisk
from teardown_app.records.shelf import Shelf
from teardown_app.records.trouble import Trouble

TABLES = ("jobs", "tags", "positions", "registers", "extents")
"""A row a job; tag -> job and part; positions; the shop's registers; how far each file was read."""

Row = dict[str, Any]


class Store:
    """The index of one data folder."""

    def __init__(self, home: Path, disk: Disk | None = None) -> None:
        self._shelf = Shelf(disk or RealDisk(), home / "index" / "lists.json")
        self._db = TinyDB(storage=lambda: self._shelf)
        self._rows: dict[str, dict[str, Row]] = {}
        self._waiting: dict[str, dict[str, Row | None]] = {table: {} for table in TABLES}

    @property
    def trouble(self) -> Trouble | None:
        """Set when the file found was damaged and moved aside."""
        return self._shelf.trouble

    def put(self, table: str, key: str, row: Mapping[str, Any]) -> None:
        """A new or changed row."""
        self._waiting[table][key] = {**row, "key": key}

    def drop(self, table: str, key: str) -> None:
        """A row that is no more."""
        self._waiting[table][key] = None

    def rebuild(self, table: str, rows: Mapping[str, Mapping[str, Any]]) -> None:
        """All rows of a table anew; whatever was there goes."""
        self._waiting[table] = dict.fromkeys(self._read(table))
        for key, row in rows.items():
            self.put(table, key, row)

    def row(self, table: str, key: str) -> Row | None:
        """One row; None when there is none."""
        if key in self._waiting[table]:
            return self._waiting[table][key]
        return self._read(table).get(key)

    def rows(self, table: str) -> list[Row]:
        """All rows of a table, in the order of their keys."""
        self._settle(table)
        return [row for _, row in sorted(self._read(table).items())]

    def tag(self, number: str) -> Row | None:
        """What a number is bound to."""
        return self.row("tags", number)

    def search(self, words: str, tables: Iterable[str] = ("jobs", "tags", "positions", "registers")) -> list[Row]:
        """Rows in which every word occurs somewhere, without regard to capitals; each with its `table`."""
        wanted = words.casefold().split()
        found = ({**row, "table": table} for table in tables for row in self.rows(table))
        return [row for row in found if all(word in _text(row) for word in wanted)]

    def behind(self, extents: Mapping[str, int]) -> set[str]:
        """Keys of those files that have another length than when they were read; `extents` as
        `Home.extents` gives them."""
        read = {row["key"]: row["bytes"] for row in self.rows("extents")}
        return {key for key in {*extents, *read} if extents.get(key) != read.get(key)}

    def caught_up(self, extents: Mapping[str, int]) -> None:
        """The rows now show everything up to these lengths."""
        self.rebuild("extents", {key: {"bytes": size} for key, size in extents.items()})

    def flush(self) -> None:
        """Put everything on the disk. Not on the way of a scan."""
        for table in TABLES:
            self._settle(table)
        self._shelf.flush()

    def _read(self, table: str) -> dict[str, Row]:
        if table not in self._rows:
            self._rows[table] = {row["key"]: dict(row) for row in self._db.table(table).all()}
        return self._rows[table]

    def _settle(self, table: str) -> None:
        """Take waiting rows into TinyDB, all of a table in one go."""
        if not self._waiting[table]:
            return
        rows = self._read(table)
        for key, row in self._waiting[table].items():
            if row is None:
                rows.pop(key, None)
            else:
                rows[key] = row
        self._waiting[table] = {}
        documents = [Document(row, number) for number, row in enumerate(rows.values(), 1)]
        self._db.drop_table(table)
        self._db.table(table).insert_multiple(documents)


def _text(row: Row) -> str:
    return " ".join(str(value) for key, value in row.items() if key != "table").casefold()
