"""Is everything there that records and marks speak of? What the lines of a file alone cannot show.

A record names its attachments by SHA-256; a mark in `private/` says how far an own file once was.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from teardown_app.domain.ledger.record import Record
from teardown_app.records import attachments, journal
from teardown_app.records.disk import Disk
from teardown_app.records.marks import Marks
from teardown_app.records.names import file_of, stem_of
from teardown_app.records.trouble import AttachmentError, Trouble

_DIGEST = re.compile(r"[0-9a-f]{64}")
_SET_ASIDE = "The next start of the app on this tablet sets it aside. Compare with another tablet or a backup."
_FROM_BACKUP = "Copy it back from a backup, or from another tablet."


def missing_attachments(disk: Disk, home: Path, records: Iterable[Record]) -> list[Trouble]:
    """Attachments that records name and that are not there."""
    named: dict[str, Record] = {}
    for record in records:
        for digest in _digests(record.body):
            named.setdefault(digest, record)
    found = []
    for digest, record in sorted(named.items()):
        try:
            attachments.find(disk, home, digest)
        except AttachmentError:
            what = f"the file {digest} that {record.ref} ({record.typ}) names is not there"
            found.append(Trouble(str(home / "out" / "attachments"), 0, 0, what, _FROM_BACKUP))
    return found


def odd_files(disk: Disk, home: Path) -> list[Trouble]:
    """Links, pipes and devices where files of the data folder should be: nothing of them is read or copied."""
    left, found = [home], []
    while left:
        folder = left.pop()
        below = [name for name in disk.folders(folder) if (folder, name) != (home, "private")]
        left += [folder / name for name in reversed(below)]
        found += [_odd(folder / name) for name in disk.odd(folder)]
    return found


def _odd(path: Path) -> Trouble:
    what = "this is a link, a pipe or a device, not a file of the data folder; it was neither followed nor read"
    return Trouble(str(path), 0, 0, what, "Put the file itself there, from a backup, or take it away.")


def torn_end(folder: Path, stem: str, segments: list[int], reading: journal.Reading) -> Trouble | None:
    """An entry at the end of a file, or a whole first line, that was cut off."""
    path = str(folder / file_of(stem, segments[-1]))
    if reading.lost_first_line:
        return Trouble(path, 0, 0, "its first line was cut off; nothing of this file can be read", _SET_ASIDE)
    return Trouble(path, 0, reading.tail.length, journal.TORN, _SET_ASIDE) if reading.torn else None


def _digests(value: Any) -> Iterator[str]:
    if isinstance(value, str) and _DIGEST.fullmatch(value):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from _digests(one)
    elif isinstance(value, list):
        for one in value:
            yield from _digests(one)


def lost_records(disk: Disk, home: Path) -> list[Trouble]:
    """Own files that are shorter than they once were, or gone: confirmed records are missing."""
    found = []
    for name in disk.names(home / "private"):
        match = re.fullmatch(r"marks-(.+)\.jsonl", name)
        if match:
            found += list(_behind(disk, home, match[1]))
    return found


def _behind(disk: Disk, home: Path, dev: str) -> Iterator[Trouble]:
    folder = home / "out" / "journals" / dev
    segments = journal.numbers(disk, folder)
    for mark in Marks(disk, home / "private", dev).by_job.values():
        stem = stem_of(mark.job)
        there = segments.get(stem)
        reading = journal.read(disk, folder, stem, there) if there else None
        have = len(reading.records) if reading else 0
        if have < mark.seq:
            what = f"confirmed records {have + 1} to {mark.seq} of {mark.job} are missing"
            yield Trouble(str(folder / f"{stem}.{mark.seg:03d}.jsonl"), 0, 0, what, _FROM_BACKUP)
