"""High-water marks: how long each own file was after the last acknowledged record.

Kept in `private/` and never synced: a mark that is missing or behind is no alarm, one that is ahead
of the file shows that an older copy was put back. Also keeps what the clock and the logical time
need across starts.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import NamedTuple

from teardown_app.records.clock import Anchor
from teardown_app.records.disk import Disk
from teardown_app.records.journal import Tail

_TIDY_BYTES = 65_536


class Mark(NamedTuple):
    """The end of one own file after an acknowledged record."""

    job: str
    seg: int
    len: int
    seq: int
    h: str


class Marks:
    """The marks of one incarnation."""

    def __init__(self, disk: Disk, private: Path, dev: str) -> None:
        self._disk = disk
        self._path = private / f"marks-{dev}.jsonl"
        self._size = 0
        self.by_job: dict[str, Mark] = {}
        self.hlc = ""
        self.anchor: Anchor | None = None
        self._load()

    def set(self, job: str, tail: Tail, hlc: str, anchor: Anchor | None) -> None:
        """Note the end of a file; returns without waiting for the disk."""
        mark = Mark(job, tail.segment, tail.length, tail.seq, tail.h)
        self.by_job[job], self.hlc, self.anchor = mark, hlc, anchor
        line = self._line(mark)
        try:
            self._add(line)
        except OSError:  # a full disk: the mark stays behind, which is no alarm, and is written anew
            self._size = 0

    def _add(self, line: bytes) -> None:
        if not self._size or self._size + len(line) > _TIDY_BYTES + 512 * len(self.by_job):
            self.tidy()
        else:
            self._disk.append(self._path, line)
            self._size += len(line)

    def tidy(self) -> None:
        """Write the marks anew, one line each."""
        data = b"".join(map(self._line, self.by_job.values()))
        self._disk.put(self._path, data)
        self._size = len(data)

    def _line(self, mark: Mark) -> bytes:
        """Written by hand: on the way of every record, and no value needs escaping."""
        at, clock = self.anchor, "null"
        if at:
            jumped = "true" if at.jumped else "false"
            clock = f'{{"ms":{at.ms},"steady":{at.steady!r},"boot":"{at.boot}","jumped":{jumped}}}'
        return (
            f'{{"job":"{mark.job}","seg":{mark.seg},"len":{mark.len},"seq":{mark.seq},"h":"{mark.h}",'
            f'"hlc":"{self.hlc}","clock":{clock}}}\n'
        ).encode()

    def _load(self) -> None:
        try:
            data = self._disk.read(self._path)
        except FileNotFoundError:
            return
        self._size = len(data) if data.endswith(b"\n") else 0
        for line in data.split(b"\n"):
            self._take(line)

    def _take(self, line: bytes) -> None:
        try:
            fields = json.loads(line)
            mark = Mark(fields["job"], fields["seg"], fields["len"], fields["seq"], fields["h"])
            clock, hlc = fields["clock"], fields["hlc"] + ""
            anchor = Anchor(clock["ms"], clock["steady"], clock["boot"], clock["jumped"]) if clock else None
        except (ValueError, KeyError, TypeError):
            return
        self.by_job[mark.job] = mark
        self.hlc, self.anchor = max(self.hlc, hlc), anchor or self.anchor
