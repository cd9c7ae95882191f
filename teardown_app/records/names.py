"""Names of the files of records: which job's number may name a file, and which file is which segment."""

from __future__ import annotations

import re
from typing import NamedTuple

from teardown_app.records.trouble import NotWritable

_JOB = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_-]{0,39}")
_FILE = re.compile(r"([a-z0-9_][a-z0-9_-]{0,39})\.(\d{3,6})\.jsonl")
_DEVICE = re.compile(r"(t[a-z0-9]{5})~(\d{1,6})")
_BRANCH = re.compile(r"(t[a-z0-9]{5}~\d{1,6})#[0-9a-f]{8}")
_KEPT_BY_WINDOWS = {"con", "prn", "aux", "nul"} | {f"{port}{n}" for port in ("com", "lpt") for n in range(10)}


class SegmentName(NamedTuple):
    """A file's name taken apart."""

    stem: str
    number: int


def stem_of(job: str) -> str:
    """First part of the file names of a job. Raises `NotWritable` for a number no file can have."""
    if not _JOB.fullmatch(job) or job.lower() in _KEPT_BY_WINDOWS:
        raise NotWritable(
            f"The job number {job!r} cannot be used: 1 to 40 letters A-Z, digits, '-' and '_', beginning "
            "with a letter or digit, and none of the names Windows keeps for itself. Choose another number."
        )
    return job.lower()


def file_of(stem: str, number: int) -> str:
    """`j1.001.jsonl`."""
    return f"{stem}.{number:03d}.jsonl"


def segment_name(name: str) -> SegmentName | None:
    """Which segment a file is; None for any other file."""
    match = _FILE.fullmatch(name)
    if not match or name != file_of(match[1], int(match[2])):
        return None
    return SegmentName(match[1], int(match[2]))


def device_name(name: str) -> tuple[str, int] | None:
    """Device and number of the incarnation of `t7k3m9~0`; None for any other folder."""
    match = _DEVICE.fullmatch(name)
    return (match[1], int(match[2])) if match else None


def branch_name(name: str) -> bool:
    """True for a folder of further branches, `t7k3m9~0#3fa1c2d4`."""
    return _BRANCH.fullmatch(name) is not None


def device_of(name: str) -> str:
    """Whose records a folder holds.

    >>> device_of("t7k3m9~0#3fa1c2d4"), device_of("t7k3m9~0")
    ('t7k3m9~0', 't7k3m9~0')
    """
    return name.partition("#")[0]
