"""The start-up gate: is this folder still the one that was written last, or an older or other copy?"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from teardown_app.records.archive import own_folder
from teardown_app.records.branches import Branch, continues
from teardown_app.records.disk import Disk
from teardown_app.records.incarnation import Incarnation, fingerprint
from teardown_app.records.journal import Reading
from teardown_app.records.marks import Mark, Marks
from teardown_app.records.names import device_of, file_of, stem_of
from teardown_app.records.trouble import Trouble

_GOES_ON = (
    "Nothing was deleted; new entries go to files of their own and numbers get new letters. Nothing to do, "
    "unless this is not the folder you meant"
)


def copied(home: Path) -> Trouble:
    """The folder has records but not the tablet's identity: a start from a backup."""
    return Trouble(str(home), 0, 0, "this data folder was started from a backup or a copy", _GOES_ON + ".")


def at_start(disk: Disk, home: Path, who: Incarnation, marks: Marks) -> list[Trouble]:
    """What speaks against going on with the files as they are; empty when nothing does."""
    if who.fingerprint != fingerprint(home):
        what = "this data folder was copied or moved from another place or machine"
        return [Trouble(str(home), 0, 0, what, _GOES_ON + ".")]
    folder = own_folder(home, who.dev)
    lengths = disk.sizes(folder)
    return [
        _older(folder / name)
        for name, mark in ((file_of(stem_of(mark.job), mark.seg), mark) for mark in marks.by_job.values())
        if lengths.get(name, 0) < mark.len
    ]


def on_reading(path: Path, reading: Reading, mark: Mark | None) -> Trouble | None:
    """The same question once the records of one job were read."""
    if reading.fault:
        return reading.fault
    if mark and (len(reading.records) < mark.seq or reading.records[mark.seq - 1].h != mark.h):
        return _older(path)
    return None


def goes_on(path: Path, own: Branch, branches: Iterable[Branch]) -> Trouble | None:
    """A copy that came back from elsewhere goes on where this tablet's file ends."""
    if any(len(one) > len(own) and continues(one, own) for one in branches):
        return _older(path)
    return None


def seen_by_others(
    path: Path, others: Iterable[Branch], key: str, last: int, branches: Iterable[Branch]
) -> Trouble | None:
    """Somebody has seen more of this tablet's file than is here, and it is on none of its other branches."""
    elsewhere = {(one.seq, one.h[:8]) for branch in branches for one in branch}
    for record in (record for records in others for record in records if record.seen):
        named = (known for name, known in record.seen.items() if device_of(name) == key)
        if any(known[0] > last and known not in elsewhere for known in named):
            return _older(path)
    return None


def _older(path: Path) -> Trouble:
    what = "an older copy of this file was put back; entries that were confirmed here are not in it"
    return Trouble(str(path), 0, 0, what, _GOES_ON + "; compare with a backup or another tablet for what is missing.")
