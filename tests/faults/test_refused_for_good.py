"""What a person was told is NOT recorded does not come back, whatever the disk still had of it when the power went."""

from __future__ import annotations

import errno
import random
from collections.abc import Callable
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft
from teardown_app.records.home import Home
from teardown_app.records.trouble import NotRecorded
from tests.faults.bench_work import everything, opened
from tests.faults.model_disk import ModelDisk


def failing_once(honest: Callable[[Path], None], is_meant: Callable[[Path], bool]) -> Callable[[Path], None]:
    """A sync that fails the first time it is about such a path, and is honest then."""
    failed: list[Path] = []

    def sync(path: Path) -> None:
        if is_meant(path) and not failed:
            failed.append(path)
            raise OSError(errno.EIO, "input/output error", str(path))
        honest(path)

    return sync


def refused(home: Home) -> None:
    """An act whose sync failed: the bytes are written, the person is told that they are not recorded."""
    with pytest.raises(NotRecorded):
        home.append([Draft("J1", "finding", (), {"note": "gasket stuck"})], "P1", {})


SYNCS: list[tuple[str, Callable[[Path], bool], int]] = [
    ("sync_file", lambda path: path.suffix == ".jsonl", 1),  # added to a segment
    ("sync_folder", lambda path: path.parent.name == "journals", 0),  # the name of a new segment
]


@pytest.mark.parametrize(("sync", "is_meant", "before"), SYNCS, ids=["added", "new segment"])
def test_a_refused_record_is_on_no_disk_that_may_be_found(
    sync: str, is_meant: Callable[[Path], bool], before: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of all that an unsynced disk may keep, nothing is the record that was refused."""
    disk = ModelDisk()
    home = opened(disk)
    kept = [home.append([Draft("J1", "opened", (), {})], "P1", {})[0] for _ in range(before)]
    monkeypatch.setattr(disk, sync, failing_once(getattr(disk, sync), is_meant))
    refused(home)
    for survivor in disk.survivors(64, random.Random(1)):
        assert everything(opened(survivor)) == kept
