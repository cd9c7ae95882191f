"""On the real disk: what was confirmed would be there if the power went at once, and no write is cut short unsaid."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft, Record
from teardown_app.records import disk as disk_module
from teardown_app.records import pen
from teardown_app.records.clock import TrialClock
from teardown_app.records.disk import RealDisk
from teardown_app.records.home import Home
from teardown_app.records.trouble import NotRecorded, RecordsError
from tests.faults.bench_work import FOLDER, START, Confirmed, must_hold
from tests.faults.model_disk import ModelDisk
from tests.faults.system_calls import Watched

PICTURE = b"picture of a torn gasket"


@pytest.fixture
def system(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Watched:
    """The operating system, listened to; segments so short that the work begins several."""
    watched = Watched(tmp_path / "data")
    (tmp_path / "data").mkdir()
    monkeypatch.setattr(disk_module, "os", watched)
    monkeypatch.setattr(pen, "SEGMENT_BYTES", 2_000)
    return watched


@pytest.fixture
def home(system: Watched) -> Iterator[Home]:
    """A data folder on the real disk."""
    with Home(system.real, TrialClock(datetime.fromisoformat(START)), RealDisk()).open() as opened:
        yield opened


def left_after_a_power_cut(system: Watched) -> ModelDisk:
    """The strictest: nothing is left of what was not synced."""
    return next(system.disk.survivors(1, random.Random(0)))


def worked(system: Watched, home: Home, rounds: int = 4) -> None:
    """Parts come off, each with a picture; after each round all that was confirmed so far is on a disk that forgets."""
    confirmed = Confirmed()
    for n in range(rounds):
        picture = PICTURE + bytes([n])
        confirmed.pictures[home.attach(picture, "jpg")] = picture
        act = [Draft("J1", "taken_off", ("new:1",), {"note": "gasket stuck " * 40}), Draft("_shop", "place", (), {})]
        confirmed.records += home.append(act, "P1", home.heads("J1"))
        must_hold(left_after_a_power_cut(system), confirmed)


def test_what_was_confirmed_is_synced_by_the_real_disk_too(system: Watched, home: Home) -> None:
    """Several segments of the job and of the shop are begun."""
    worked(system, home)
    segments = {path.name for call, path in system.calls if call == "replace" and path.suffix == ".jsonl"}
    assert len(segments) > 2, "the work has shrunk: it begins too few segments"


LEFT_OUT = [
    ("fsync", "journals", ".jsonl"),  # records added to a segment
    ("fsync", "journals", ".tmp"),  # a new segment
    ("fsync", "attachments", ".tmp"),  # a picture
    ("fsync", "journals", ""),  # the name of a new segment
    ("fsync", "attachments", ""),  # the name of a picture, and of its folder
    ("fsync", "out", ""),  # the name of the folders in `out`
]


@pytest.mark.parametrize(("call", "folder", "ending"), LEFT_OUT)
def test_a_sync_that_never_reaches_the_system_is_noticed(
    system: Watched, home: Home, call: str, folder: str, ending: str
) -> None:
    """The test before has teeth: without any one kind of sync it fails."""
    system.leaves_out = lambda name, path: name == call and folder in path.parts and path.suffix == ending
    with pytest.raises((AssertionError, RecordsError)):
        worked(system, home)


def steps(system: Watched, part: str) -> list[tuple[str, str]]:
    """Calls about paths below `out` that hold this word: name of the call, last part of the path."""
    below = FOLDER / "out"
    return [(call, path.name) for call, path in system.calls if part in str(path) and path.is_relative_to(below)]


def test_a_picture_is_written_synced_named_and_its_name_synced(system: Watched, home: Home) -> None:
    """`journal-files.md` 7.1: "temporary name in the same folder, sync of the file, rename, sync of the folder"."""
    digest = home.attach(PICTURE, "jpg")
    name, two = f"{digest}.jpg", digest[:2]
    assert steps(system, "attachments") == [
        ("mkdir", "attachments"),
        ("mkdir", two),
        ("fsync", "attachments"),
        ("write", f"{name}.tmp"),
        ("fsync", f"{name}.tmp"),
        ("replace", name),
        ("fsync", two),
    ]


def test_a_new_segment_is_written_synced_named_and_its_name_synced(system: Watched, home: Home) -> None:
    """7.3, and 7.4 for the folders: "created, then the folder above it synced"."""
    home.append([Draft("J1", "opened", (), {})], "P1", {})
    file = "j1.001.jsonl"
    assert steps(system, "") == [
        ("mkdir", "out"),
        ("mkdir", "journals"),
        ("fsync", "out"),
        ("mkdir", home.dev),
        ("fsync", "journals"),
        ("write", f"{file}.tmp"),
        ("fsync", f"{file}.tmp"),
        ("replace", file),
        ("fsync", home.dev),
    ]


def test_a_record_is_written_and_synced_and_nothing_else(system: Watched, home: Home) -> None:
    """7.2: "one write of the whole line, sync of the file"."""
    home.append([Draft("J1", "opened", (), {})], "P1", {})
    system.calls.clear()
    home.append([Draft("J1", "put", (), {})], "P1", {})
    assert steps(system, "") == [("write", "j1.001.jsonl"), ("fsync", "j1.001.jsonl")]


def put(home: Home) -> list[Record]:
    """One more record of the job."""
    return home.append([Draft("J1", "put", (), {"note": "gasket stuck " * 20})], "P1", home.heads("J1"))


@pytest.mark.parametrize("few", [0, 1, 100, -1], ids=["nothing", "one byte", "a part", "all but one byte"])
@pytest.mark.parametrize("before", [0, 1, 4], ids=["new file", "same segment", "next segment"])
def test_a_record_written_in_part_is_not_recorded(system: Watched, home: Home, few: int, before: int) -> None:
    """The system takes fewer bytes than it was given and calls that no error: nothing of the record is kept."""
    kept = [record for _ in range(before) for record in put(home)]
    system.writes = lambda path, data: (few if few >= 0 else len(data) + few) if "journals" in path.parts else len(data)
    with pytest.raises(NotRecorded, match="NOT recorded") as told:
        put(home)
    assert told.value.written == ()
    system.writes = lambda path, data: len(data)
    assert home.records("J1") == kept
    kept += put(home)
    confirmed = Confirmed()
    confirmed.records = kept
    must_hold(left_after_a_power_cut(system), confirmed)


def test_a_picture_written_in_part_is_not_kept(system: Watched, home: Home) -> None:
    """Nothing lies under its name, and the next try keeps it."""
    system.writes = lambda path, data: len(data) - 1
    with pytest.raises(NotRecorded, match=r"NOT kept"):
        home.attach(PICTURE, "jpg")
    assert [path for path in (home.path / "out").rglob("*") if path.is_file()] == []
    system.writes = lambda path, data: len(data)
    assert home.attachment(home.attach(PICTURE, "jpg")) == PICTURE
