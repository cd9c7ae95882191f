"""Reading one device's file of one job, segment after segment.

Checks every line and how each follows on the one before. Stops at the first fault and says where;
changes nothing on the disk. Writing is in `pen.py`.
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from teardown_app.domain.ledger.record import Record
from teardown_app.records import envelope
from teardown_app.records import header as first_line
from teardown_app.records.disk import Disk
from teardown_app.records.envelope import BadLine
from teardown_app.records.header import Header, Seen
from teardown_app.records.names import device_of, file_of, segment_name
from teardown_app.records.trouble import Trouble

SEGMENT_BYTES = 131_072
"""Most bytes of one segment."""

TORN = "the last entry was cut off while it was being written (power cut or crash); it was never confirmed"
_KEPT = "Everything before it stands. The file is left as it is"


class Tail(NamedTuple):
    """The end of what is good: where the next record goes."""

    segment: int = 0
    """Number of the last segment; 0 when there is none."""
    length: int = 0
    """Bytes of it that are good."""
    seq: int = 0
    h: str = ""
    """`h` of the last good line."""
    h8: str = ""
    """First digits of `h` of the last record; empty when there is none."""
    seen: Seen = {}  # noqa: RUF012  a value that nobody changes


class Reading(NamedTuple):
    """What one (device, job) has on disk."""

    job: str
    """The number as people write it; empty when no first line could be read."""
    records: list[Record]
    tail: Tail
    torn: bytes
    """What stands behind the last whole line of the last segment."""
    fault: Trouble | None
    """The first bad line, or what else stopped the reading."""
    lost_first_line: bool = False
    """The last segment has not even one whole line."""


class _Bad(Exception):
    def __init__(self, path: Path, line: int, byte: int, why: str) -> None:
        self.trouble = Trouble(
            str(path), line, byte, f"this line was damaged or changed after it was written: {why}",
            f"{_KEPT}; what this device recorded after it in this job is not shown. "
            "Compare with a backup or another tablet.",
        )  # fmt: skip


def numbers(disk: Disk, folder: Path) -> dict[str, list[int]]:
    """The segments in a device's folder: first part of the name -> numbers in order."""
    found: dict[str, list[int]] = {}
    for name in disk.names(folder):
        segment = segment_name(name)
        if segment:
            found.setdefault(segment.stem, []).append(segment.number)
    return {stem: sorted(found[stem]) for stem in sorted(found)}


def job_of(disk: Disk, folder: Path, stem: str) -> str | None:
    """The job's number as people write it, from the first line; None when that cannot be read."""
    try:
        start = disk.read(folder / file_of(stem, 1), 4096)
        return first_line.parse(start.partition(b"\n")[0]).job
    except (BadLine, OSError):
        return None


def read(disk: Disk, folder: Path, stem: str, segments: list[int]) -> Reading:
    """Read one (device, job); `segments` as `numbers` gave them."""
    records: list[Record] = []
    tail, job, torn = Tail(), "", b""
    try:
        for number in segments:
            path = folder / file_of(stem, number)
            data = _bytes_of(disk, path)
            torn = data[data.rfind(b"\n") + 1 :]
            is_last = number == segments[-1]
            if number != tail.segment + 1:
                raise _Bad(path, 0, 0, f"the file {file_of(stem, tail.segment + 1)} before it is missing")
            if b"\n" not in data and is_last:
                return Reading(job, records, tail, torn, None, lost_first_line=True)
            if b"\n" not in data:
                raise _Bad(path, 1, 0, "its first line was cut off")
            tail, job = _read_segment(path, data, device_of(folder.name), stem, tail, records)
            if torn and not is_last:
                raise _Bad(path, data.count(b"\n") + 1, tail.length, "its end is missing")
    except _Bad as bad:
        return Reading(job, records, _tail_after(tail, records), b"", bad.trouble)
    return Reading(job, records, tail, torn, None)


def _bytes_of(disk: Disk, path: Path) -> bytes:
    """A segment's bytes. Raises `_Bad` where it cannot be read; a name that has just gone is not caught here."""
    try:
        return disk.read(path)
    except FileNotFoundError:
        raise
    except OSError as fault:
        raise _Bad(path, 0, 0, f"it cannot be read ({fault.strerror or fault})") from fault


def _tail_after(tail: Tail, records: list[Record]) -> Tail:
    """The last good record, for a file that is not written to any more."""
    if not records:
        return tail
    return tail._replace(seq=records[-1].seq, h=records[-1].h, h8=records[-1].h[:8])


def _read_segment(
    path: Path, data: bytes, dev: str, stem: str, before: Tail, records: list[Record]
) -> tuple[Tail, str]:
    """Take in the whole lines of one segment; its end and its job. Raises `_Bad`."""
    lines = data.split(b"\n")
    lines.pop()
    head = _read_header(path, lines[0], dev, stem, before)
    if records and records[-1].job != head.job:
        raise _Bad(path, 1, 0, "it belongs to another file")
    job, seq, prev, seen = head.job, before.seq, head.h, dict(head.seen)
    byte, number = len(lines[0]) + 1, 1
    parse, take = envelope.parse, records.append
    try:
        for line in lines[1:]:
            number += 1
            record = parse(line)
            seq += 1
            if record.prev != prev or record.seq != seq or record.dev != dev or record.job != job:
                raise BadLine("it does not continue the line before it")
            prev = record.h
            if record.seen:
                overlay(seen, record.seen)
            take(record)
            byte += len(line) + 1
    except BadLine as why:
        raise _Bad(path, number, byte, str(why)) from why
    h8 = prev[:8] if number > 1 else before.h8
    return Tail(before.segment + 1, byte, seq, prev, h8, seen), job


def _read_header(path: Path, line: bytes, dev: str, stem: str, before: Tail) -> Header:
    try:
        head = first_line.parse(line)
    except BadLine as why:
        raise _Bad(path, 1, 0, str(why)) from why
    if head.dev != dev or head.job.lower() != stem or head.seg != before.segment + 1:
        raise _Bad(path, 1, 0, "it belongs to another file")
    if head.prev != before.h or head.seen != before.seen:
        raise _Bad(path, 1, 0, "it does not continue the file before it")
    return head


def overlay(seen: Seen, changes: Seen) -> None:
    """Put the entries of one record over a vector; seq 0 takes an entry out."""
    for dev, known in changes.items():
        if known[0]:
            seen[dev] = known
        else:
            seen.pop(dev, None)
