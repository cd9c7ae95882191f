"""A disk that keeps apart what was synced and what was not, and can forget any part of the rest.

Files and folder entries are separate: a file's bytes are safe once the file was synced, its name
only once the folder was. A killed process cannot show a missing sync (the system still has the
bytes); this model can. It is stricter than real file systems, which order some things by themselves.
"""

from __future__ import annotations

import errno
import itertools
import random
from collections.abc import Iterator
from pathlib import Path

from teardown_app.records.disk import Moved


class PowerCut(Exception):
    """The power went at this step."""


class Node:
    """A file's bytes: as synced, and every state since then (a write may also arrive in part)."""

    def __init__(self, synced: bytes = b"") -> None:
        self.synced = synced
        self.now = synced
        self.states: list[bytes] = []

    def change(self, data: bytes, *, appended_at: int | None = None) -> None:
        if appended_at is not None and len(data) > appended_at:
            self.states += _parts(data, appended_at)
        self.states.append(data)
        self.now = data

    def sync(self) -> None:
        self.synced, self.states = self.now, []


class ModelDisk:
    """`Disk` in memory. `cut_at` = number of the step at which the power goes; `room` = bytes that still
    fit. Steps are all changes and syncs, counted in `steps`."""

    def __init__(self, cut_at: int = -1, room: int | None = None) -> None:
        self.cut_at = cut_at
        self.room = room
        self.steps = 0
        self.entries: dict[Path, dict[str, Node | None]] = {Path("/"): {}}
        """Folder -> names as a program sees them; None is a folder."""
        self.safe: dict[Path, dict[str, Node | None]] = {Path("/"): {}}
        """Folder -> names as synced."""
        self.pending: dict[Path, list[dict[str, Node | None]]] = {}
        """Folder -> changes of names since its last sync; a removed name is in `GONE`."""

    # Reading

    def read(self, path: Path, limit: int = -1) -> bytes:
        data = self._node(path).now
        return data if limit < 0 else data[:limit]

    def size(self, path: Path) -> int:
        return len(self._node(path).now)

    def sizes(self, folder: Path) -> dict[str, int]:
        return {name: len(node.now) for name, node in self.entries.get(folder, {}).items() if node}

    def names(self, folder: Path) -> list[str]:
        return list(self.entries.get(folder, {}))

    def folders(self, folder: Path) -> list[str]:
        return sorted(name for name, node in self.entries.get(folder, {}).items() if node is None)

    def exists(self, path: Path) -> bool:
        return path in self.entries or path.name in self.entries.get(path.parent, {})

    def odd(self, folder: Path) -> list[str]:
        return []

    def owner_only(self, folder: Path) -> bool:
        return True

    # Changing

    def make_folder(self, path: Path) -> None:
        self._step()
        self._take_room(path, 64)
        if self.exists(path):
            raise FileExistsError(errno.EEXIST, "there", str(path))
        self._entry(path, {path.name: None})
        self.entries[path], self.safe[path] = {}, {}

    def put(self, path: Path, data: bytes) -> None:
        self._step()
        there = self.entries[path.parent].get(path.name)
        node = there or Node()
        if not there:
            self._entry(path, {path.name: node})
        node.change(b"")
        fits = self._fits(data)
        node.change(data[:fits], appended_at=0)
        self._refuse(path, fits, data)

    def append(self, path: Path, data: bytes) -> None:
        self._step()
        node = self._node(path)
        fits, before = self._fits(data), len(node.now)
        node.change(node.now + data[:fits], appended_at=before)
        self._refuse(path, fits, data)

    def append_for_good(self, path: Path, at: int, data: bytes) -> None:
        if self.size(path) != at:
            raise Moved(0, "the file is not as it was left", str(path))
        self.append(path, data)
        self.sync_file(path)

    def truncate(self, path: Path, size: int) -> None:
        self._step()
        node = self._node(path)
        self._give_room(len(node.now) - size)
        node.change(node.now[:size])

    def sync_file(self, path: Path) -> None:
        self._step()
        self._node(path).sync()

    def sync_folder(self, path: Path) -> None:
        self._step()
        self.safe[path] = dict(self.entries[path])
        self.pending.pop(path, None)

    def replace(self, source: Path, target: Path) -> None:
        self._step()
        assert source.parent == target.parent, "a rename from one folder to another is not one step"
        node = self._node(source)
        del self.entries[source.parent][source.name]
        self._entry(target, {source.name: GONE, target.name: node})

    def remove(self, path: Path) -> None:
        self._step()
        self._give_room(len(self._node(path).now))
        self._entry(path, {path.name: GONE})

    # After the power is back

    def survivors(self, most: int, chance: random.Random) -> Iterator[ModelDisk]:
        """Disks that may be found afterwards: every choice of what was kept of each unsynced file and each
        unsynced name, or `most` random choices when there are more."""
        kept_names = [(folder, _subsets(changes)) for folder, changes in self.pending.items()]
        nodes = [node for node in self._nodes() if node.states]
        choices = [len(subsets) for _, subsets in kept_names] + [len(node.states) + 1 for node in nodes]
        for picks in _picks(choices, most, chance):
            yield self._after(kept_names, nodes, picks)

    def _after(self, kept_names: list, nodes: list[Node], picks: tuple[int, ...]) -> ModelDisk:  # type: ignore[type-arg]
        names = {folder: dict(entries) for folder, entries in self.safe.items()}
        for (folder, subsets), pick in zip(kept_names, picks, strict=False):
            for change in subsets[pick]:
                names[folder].update(change)
        bytes_of = {}
        for node, pick in zip(nodes, picks[len(kept_names) :], strict=True):
            bytes_of[id(node)] = ([node.synced, *node.states])[pick]
        return _built(names, bytes_of)

    def _nodes(self) -> list[Node]:
        found: dict[int, Node] = {}
        for entries in [*self.entries.values(), *self.safe.values()]:
            found.update((id(node), node) for node in entries.values() if node)
        for changes in self.pending.values():
            found.update((id(node), node) for change in changes for node in change.values() if node)
        found.pop(id(GONE), None)
        return list(found.values())

    # Inside

    def _node(self, path: Path) -> Node:
        node = self.entries.get(path.parent, {}).get(path.name)
        if node is None:
            raise FileNotFoundError(errno.ENOENT, "not there", str(path))
        return node

    def _entry(self, path: Path, change: dict[str, Node | None]) -> None:
        self.pending.setdefault(path.parent, []).append(change)
        for name, node in change.items():
            if node is GONE:
                self.entries[path.parent].pop(name, None)
            else:
                self.entries[path.parent][name] = node

    def _step(self) -> None:
        if self.steps == self.cut_at:
            raise PowerCut
        self.steps += 1

    def _fits(self, data: bytes) -> int:
        return len(data) if self.room is None else min(len(data), max(self.room, 0))

    def _give_room(self, size: int) -> None:
        if self.room is not None:
            self.room += size

    def _take_room(self, path: Path, size: int) -> None:
        if self.room is not None and self.room < size:
            raise OSError(errno.ENOSPC, "no space", str(path))
        self._give_room(-size)

    def _refuse(self, path: Path, fits: int, data: bytes) -> None:
        self._give_room(-fits)
        if fits < len(data):
            raise OSError(errno.ENOSPC, "no space", str(path))


GONE = Node()
"""Stands in a change of names for a name that was taken away."""


def _parts(data: bytes, at: int) -> list[bytes]:
    """A write that arrived in part: nothing but the length, a first part, all but the last byte."""
    middle = at + (len(data) - at) // 2
    zeros = data[:at] + bytes(len(data) - at)
    return [zeros, data[:middle], data[:-1]]


def _subsets(changes: list[dict[str, Node | None]]) -> list[tuple[dict[str, Node | None], ...]]:
    if len(changes) > 6:
        return [tuple(changes[:n]) for n in range(len(changes) + 1)]
    return [kept for n in range(len(changes) + 1) for kept in itertools.combinations(changes, n)]


def _picks(choices: list[int], most: int, chance: random.Random) -> Iterator[tuple[int, ...]]:
    total = 1
    for count in choices:
        total *= count
    if total <= most:
        yield from itertools.product(*map(range, choices))
        return
    yield tuple(0 for _ in choices)
    yield tuple(count - 1 for count in choices)
    for _ in range(most - 2):
        yield tuple(chance.randrange(count) for count in choices)


def _built(names: dict[Path, dict[str, Node | None]], bytes_of: dict[int, bytes]) -> ModelDisk:
    disk, fresh = ModelDisk(), dict[int, Node]()
    reachable = [Path("/")]
    disk.entries, disk.safe = {}, {}
    for folder in reachable:
        here: dict[str, Node | None] = {}
        for name, node in names.get(folder, {}).items():
            if node is None:
                here[name] = None
                reachable.append(folder / name)
            elif node is not GONE:
                here[name] = fresh.setdefault(id(node), Node(bytes_of.get(id(node), node.synced)))
        disk.entries[folder], disk.safe[folder] = here, dict(here)
    return disk
