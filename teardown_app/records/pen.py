"""Writing one device's own file of one job: composes lines, then puts them on the disk in one go."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from teardown_app.domain.ledger.record import Record
from teardown_app.records import envelope
from teardown_app.records import header as first_line
from teardown_app.records.disk import Disk, Moved, make_folders, place
from teardown_app.records.header import Header, Seen
from teardown_app.records.journal import SEGMENT_BYTES, Tail, overlay
from teardown_app.records.names import file_of, stem_of
from teardown_app.records.whole_act import Piece


class Chunk:
    """What goes into one segment with one write."""

    def __init__(self, path: Path, at: int, head: bytes = b"") -> None:
        self.path = path
        self.at = at
        """Length of the file before; 0 for a new one."""
        self.data = bytearray(head)

    @property
    def end(self) -> int:
        return self.at + len(self.data)


class Pen:
    """The end of one file of records, and the lines composed but not yet on the disk.

    `blank` is a header with device, letters, key, job and app version; `blank.after` goes into the
    first segment.
    """

    def __init__(self, disk: Disk, folder: Path, blank: Header, tail: Tail) -> None:
        self._disk = disk
        self._folder = folder
        self._blank = blank
        self._stem = stem_of(blank.job)
        self._ahead = tail
        self._chunks: list[Chunk] = []
        self._unwritten: list[Chunk] = []
        self._before, self._written = tail, list[Chunk]()
        """The end before the last commit, and what that wrote."""
        self.tail = tail
        """The end on the disk."""

    @property
    def seq(self) -> int:
        """Number of the last record, those composed included."""
        return self._ahead.seq

    def compose(self, fields: dict[str, Any], seen: Seen, *, trial: bool) -> Record:
        """Add a record to what `commit` will write. `fields` are those of a line in their order;
        `seq`, `prev` and `seen` are set here. Raises `NotWritable`; then nothing was added."""
        tail = self._ahead
        changes = differences(tail.seen, seen)
        fields.update(seq=tail.seq + 1, prev=tail.h, seen=changes)
        line, record = envelope.write(fields, trial=trial)
        if not tail.segment or tail.length + len(line) > SEGMENT_BYTES:
            head, sealed = self._next_header()
            fields["prev"] = sealed.h
            line, record = envelope.write(fields, trial=trial)
            tail = Tail(sealed.seg, len(head), tail.seq, sealed.h, tail.h8, tail.seen)
            self._chunks.append(Chunk(self._path(sealed.seg), 0, head))
        elif not self._chunks:
            self._chunks.append(Chunk(self._path(tail.segment), tail.length))
        self._chunks[-1].data += line
        known = _overlaid(tail.seen, changes) if changes else tail.seen
        self._ahead = Tail(tail.segment, tail.length + len(line), record.seq, record.h, record.h[:8], known)
        return record

    def commit(self) -> None:
        """Write what was composed and return when it is on the disk.

        On an `OSError` nothing of it is kept; on `Moved` nothing was begun.
        """
        self._settle()
        for chunk in self._chunks:
            self._check(chunk)
        begun: list[Chunk] = []
        try:
            for chunk in self._chunks:
                begun.append(chunk)
                self._put(chunk)
        except Moved:  # only the first can be, and nothing of it was written
            self.abandon()
            raise
        except OSError:
            self._undo(begun)
            raise
        self._before, self._written = self.tail, self._chunks
        self.tail, self._chunks = self._ahead, []

    def pieces(self) -> list[Piece]:
        """What `commit` will write, file by file."""
        return [Piece(chunk.path.name, chunk.at, chunk.data.decode()) for chunk in self._chunks]

    def take_back(self) -> None:
        """Takes the last commit back, which nobody was told of. On an `OSError` it stands."""
        self._unwritten = list(reversed(self._written))
        try:
            self._settle()
        except OSError:
            self._unwritten = []
            raise
        self.tail = self._ahead = self._before

    def abandon(self) -> None:
        """Forget what was composed and not committed."""
        self._ahead, self._chunks = self.tail, []

    def _next_header(self) -> tuple[bytes, Header]:
        tail = self._ahead
        after = self._blank.after if not tail.segment else None
        header = self._blank._replace(seg=tail.segment + 1, prev=tail.h, seen=tail.seen, after=after)
        return first_line.seal(header)

    def _path(self, segment: int) -> Path:
        return self._folder / file_of(self._stem, segment)

    def _check(self, chunk: Chunk) -> None:
        if not chunk.at and self._disk.exists(chunk.path):
            raise Moved(0, "there is a file of somebody else", str(chunk.path))

    def _put(self, chunk: Chunk) -> None:
        if chunk.at:
            self._disk.append_for_good(chunk.path, chunk.at, bytes(chunk.data))
        else:
            make_folders(self._disk, self._folder)
            place(self._disk, chunk.path, bytes(chunk.data))

    def _undo(self, begun: list[Chunk]) -> None:
        """Take back what a failed commit began; what cannot be taken back now is tried next time."""
        self.abandon()
        self._unwritten = list(reversed(begun))
        try:
            self._settle()
        except OSError:
            return

    def _settle(self) -> None:
        while self._unwritten:
            chunk = self._unwritten[0]
            if chunk.at:
                self._cut(chunk)
            else:
                self._drop(chunk)
            self._unwritten.pop(0)

    def _cut(self, chunk: Chunk) -> None:
        if chunk.at < self._disk.size(chunk.path) <= chunk.end:
            self._disk.truncate(chunk.path, chunk.at)
            self._disk.sync_file(chunk.path)

    def _drop(self, chunk: Chunk) -> None:
        for path in (chunk.path.with_name(chunk.path.name + ".tmp"), chunk.path):
            if self._disk.exists(path):
                self._disk.remove(path)
                self._disk.sync_folder(path.parent)


def _overlaid(before: Seen, changes: Seen) -> Seen:
    known = dict(before)
    overlay(known, changes)
    return known


def differences(before: Seen, now: Seen) -> Seen:
    """Entries that turn `before` into `now`; `(0, "")` for what is no longer known.

    >>> differences({"ta~0": (3, "x"), "tb~0": (1, "y")}, {"ta~0": (4, "z")})
    {'ta~0': (4, 'z'), 'tb~0': (0, '')}
    """
    if before == now:
        return {}
    changes = {dev: known for dev, known in now.items() if before.get(dev) != known}
    changes.update((dev, (0, "")) for dev in before if dev not in now)
    return changes
