"""The disk is full at every write: nothing half is kept, the person is told, and room makes it work."""

from __future__ import annotations

import errno

import pytest

from teardown_app.domain.ledger.record import Draft
from teardown_app.records import pen
from teardown_app.records.trouble import NotRecorded, RecordsError
from tests.faults.bench_work import Confirmed, everything, must_hold, opened, work
from tests.faults.model_disk import ModelDisk


@pytest.fixture(autouse=True)
def short_segments(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pen, "SEGMENT_BYTES", 2_000)


def bytes_of_work() -> int:
    """How much the work writes in all."""
    disk = ModelDisk(room=10**9)
    work(disk, Confirmed(), rounds=2)
    return 10**9 - (disk.room or 0)


def test_wherever_the_room_ends_what_was_confirmed_stays_and_work_goes_on() -> None:
    """The room ends within every write (every 23 bytes, so also within a line)."""
    refused = 0
    for room in range(0, bytes_of_work(), 23):
        disk, confirmed = ModelDisk(room=room), Confirmed()
        try:
            work(disk, confirmed, rounds=2)
        except RecordsError as told:
            assert "disk is full" in str(told) and "ake room" in str(told)
            refused += 1
        disk.room = None
        must_hold(disk, confirmed)
    assert refused > 100


def test_after_a_refusal_the_same_act_can_be_saved_again_in_the_same_session() -> None:
    """What a person does: is told the disk is full, deletes something, touches save again."""
    for room in range(0, 900, 7):
        disk = ModelDisk()
        home = opened(disk)
        first = home.append([Draft("J1", "opened", (), {})], "P1", {})
        act = [
            Draft("J1", "taken_off", ("new:1",), {"note": "x" * 100}),
            Draft("J1", "put", ("new:0.1",), {}),
        ]
        disk.room = room
        try:
            kept = home.append(act, "P1", home.heads("J1"))
        except NotRecorded as refusal:
            assert refusal.written == ()
            assert everything(home) == first, "nothing half is kept"
            disk.room = None
            kept = home.append(act, "P1", home.heads("J1"))
        assert everything(opened(disk)) == first + kept


def test_a_disk_that_fails_to_sync_keeps_nothing_of_the_act(monkeypatch: pytest.MonkeyPatch) -> None:
    """The bytes were written, but whether they are safe is unknown: it is not called recorded."""
    disk = ModelDisk()
    home = opened(disk)
    first = home.append([Draft("J1", "opened", (), {})], "P1", {})
    honest, tries = disk.sync_file, []

    def failing(path):  # type: ignore[no-untyped-def]
        tries.append(path)
        if len(tries) == 1:
            raise OSError(errno.EIO, "input/output error", str(path))
        honest(path)

    monkeypatch.setattr(disk, "sync_file", failing)
    with pytest.raises(NotRecorded, match="NOT recorded"):
        home.append([Draft("J1", "finding", (), {})], "P1", {})
    assert everything(home) == first
    kept = home.append([Draft("J1", "finding", (), {})], "P1", {})
    assert everything(opened(disk)) == first + kept
