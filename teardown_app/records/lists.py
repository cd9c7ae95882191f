"""Lists and searches across jobs from the index, brought up to date first.

Rows come from the caller: for a journal's name, the rows it stands for. Only journals that have
grown since they were last read are asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import Any

from teardown_app.domain.ledger.record import SHOP
from teardown_app.records.home import Home
from teardown_app.records.store import Row, Store

Rows = Mapping[str, Mapping[str, Mapping[str, Any]]]
"""Table -> key -> row."""


class Lists:
    """The index of one data folder, current when asked."""

    def __init__(self, home: Home, rows_of: Callable[[str], Rows]) -> None:
        self._home = home
        self._rows_of = rows_of
        self._store: Store | None = None

    def jobs(self) -> list[Row]:
        """A row for each job, in the order of their numbers."""
        return self._current().rows("jobs")

    def jobs_so_far(self) -> list[Row]:
        """Rows of the jobs that the index knows as it stands, without bringing it up to date."""
        return self._opened().rows("jobs")

    def tags_so_far(self) -> list[str]:
        """Numbers bound in jobs that the index knows as it stands, without bringing it up to date."""
        return [str(row["key"]) for row in self._opened().rows("tags")]

    def left(self) -> list[str]:
        """Journals that have grown since the index saw them; many where it is missing."""
        stems = {key.partition("/")[2] for key in self._opened().behind(self._home.extents())}
        return [one for one in (SHOP, *self._home.jobs()) if one.lower() in stems] if stems else []

    def catch_up_on(self, journals: Collection[str]) -> None:
        """Brings the index up to date on these journals alone, so that a long list can say how far it is."""
        store, extents = self._opened(), self._home.extents()
        stems = {journal.lower() for journal in journals}
        for journal in journals:
            self._take(store, self._rows_of(journal))
        before = {row["key"]: row["bytes"] for row in store.rows("extents")}
        seen = {key: size for key, size in extents.items() if key.partition("/")[2] in stems}
        store.caught_up({**before, **seen})

    def search(self, words: str) -> list[Row]:
        """Rows in which every word occurs; each says in `table` what it is about."""
        return self._current().search(words)

    def tag(self, number: str, *, but: Collection[str] = ()) -> Row | None:
        """The job and part that a number stands for. Jobs in `but` are open and known better elsewhere:
        nothing on the way of a scan waits for their rows."""
        store = self._opened()
        self._catch_up(store, but)
        return store.tag(number)

    def jobs_of(self, number: str) -> list[str]:
        """Jobs in which a number is, or was, on a part, as far as the index has got."""
        row = self._opened().tag(number)
        return [str(job) for job in row.get("jobs", ())] if row else []

    def flush(self) -> None:
        """Puts the index on the disk; never on the way of a scan."""
        if self._store is not None and self._home.writable:
            self._store.flush()
            self._say()

    def _current(self) -> Store:
        store = self._opened()
        if self._catch_up(store, ()):
            self.flush()
        return store

    def _catch_up(self, store: Store, but: Collection[str]) -> bool:
        """Asks for the rows of journals that have grown; true when there were any."""
        left = {journal.lower() for journal in but}
        extents = self._home.extents()
        stems = {key.partition("/")[2] for key in store.behind(extents)} - left
        for journal in (SHOP, *self._home.jobs()) if stems else ():
            if journal.lower() in stems:
                self._take(store, self._rows_of(journal))
        if stems:
            store.caught_up({key: size for key, size in extents.items() if key.partition("/")[2] not in left})
        return bool(stems)

    def _opened(self) -> Store:
        if self._store is None:
            self._store = Store(self._home.path)
            self._say()
        return self._store

    def _say(self) -> None:
        """What became of the file of the index, once; nothing that is recorded hangs on it."""
        trouble = self._store.trouble if self._store else None
        if trouble and trouble not in self._home.troubles:
            self._home.troubles.append(trouble)

    def _take(self, store: Store, rows: Rows) -> None:
        for table, named in rows.items():
            for key, row in named.items():
                if table == "tags":
                    known = store.tag(key) or {}
                    row = {**row, "jobs": sorted({*known.get("jobs", ()), str(row["job"])})}
                store.put(table, key, row)
