"""A folder that was restored, cloned or moved never continues the files it finds."""

from __future__ import annotations

import json
import shutil
from datetime import datetime
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft
from teardown_app.records import incarnation
from teardown_app.records.clock import TrialClock
from teardown_app.records.home import Home

START = datetime.fromisoformat("2026-03-14T09:30:00+01:00")


def home_at(path: Path) -> Home:
    return Home(path, TrialClock(START)).open()


def record(home: Home, times: int = 1, job: str = "J1") -> None:
    for _ in range(times):
        home.append([Draft(job, "finding", ("new:1",), {})], "P1", home.heads(job))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with five records of a job."""
    with home_at(tmp_path / "data") as home:
        record(home, 5)
    return tmp_path / "data"


def number(dev: str) -> int:
    return int(dev.partition("~")[2])


def test_a_device_is_named_at_random_and_stays_the_same(folder: Path, tmp_path: Path) -> None:
    with home_at(folder) as home, home_at(tmp_path / "second") as second:
        dev, letters = home.dev, home.letters
        assert dev[:-2] != second.dev[:-2] and letters != second.letters
        assert len(letters) == 4 and set(letters) <= set(incarnation.TAG_ALPHABET)
        assert dev == dev.lower() and number(dev) == 0
    with home_at(folder) as home:
        assert (home.dev, home.letters, home.troubles) == (dev, letters, [])


def test_an_older_copy_put_back_is_noticed_before_anything_is_written(folder: Path, tmp_path: Path) -> None:
    """Only the records were put back; the marks know better."""
    shutil.copytree(folder / "out", tmp_path / "old")
    with home_at(folder) as home:
        record(home, 2)
    shutil.rmtree(folder / "out")
    shutil.copytree(tmp_path / "old", folder / "out")
    with home_at(folder) as home:
        assert number(home.dev) == 1
        assert "older copy" in home.troubles[0].message
        record(home)
        assert [(number(r.dev), r.seq) for r in home.records("J1")] == [(0, n) for n in range(1, 6)] + [(1, 1)]


def test_a_missing_file_is_noticed(folder: Path) -> None:
    next((folder / "out").rglob("j1.001.jsonl")).unlink()
    with home_at(folder) as home:
        assert number(home.dev) == 1 and home.troubles


def test_another_record_at_the_marked_place_is_noticed(folder: Path, tmp_path: Path) -> None:
    """Same length, whole chain, but not what was confirmed here."""
    shutil.copytree(folder / "out", tmp_path / "old")
    with home_at(folder) as home:
        record(home)
        marks = next((folder / "private").glob("marks-*")).read_bytes()
    shutil.rmtree(folder / "out")
    shutil.copytree(tmp_path / "old", folder / "out")
    for file in (folder / "private").glob("marks-*"):
        file.write_bytes(b"")
    other = Home(folder, TrialClock(START.replace(day=15))).open()
    record(other)
    other.close()
    next((folder / "private").glob("marks-*")).write_bytes(marks)
    with home_at(folder) as home:
        home.records("J1")
        assert number(home.dev) == 1 and "older copy" in home.troubles[0].message


def test_a_missing_or_shorter_mark_is_no_alarm(folder: Path) -> None:
    file = next((folder / "private").glob("marks-*"))
    lines = file.read_bytes().splitlines(keepends=True)
    for left in (b"", lines[0], b"".join(lines[:2]) + b'{"job":"J1","se', b"\x00" * 300, b"[]\n{}\n3\n"):
        file.write_bytes(left)
        with home_at(folder) as home:
            record(home)
            assert number(home.dev) == 0 and home.troubles == []
    file.unlink()
    with home_at(folder) as home:
        record(home)
        assert number(home.dev) == 0 and len(home.records("J1")) == 11


def test_a_clone_in_another_place_is_another_incarnation(folder: Path, tmp_path: Path) -> None:
    """With everything, `private/` too."""
    shutil.copytree(folder, tmp_path / "clone")
    with home_at(tmp_path / "clone") as clone, home_at(folder) as home:
        assert number(clone.dev) == 1 and number(home.dev) == 0
        assert clone.dev[:-2] == home.dev[:-2] and clone.letters != home.letters
        assert "copied or moved" in clone.troubles[0].message


def test_another_machine_is_another_incarnation(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(incarnation, "_machine_id", lambda: "another")
    with home_at(folder) as home:
        assert number(home.dev) == 1


def test_incarnations_are_counted_on_from_the_highest_known(folder: Path) -> None:
    """Also from what others have archived of this device."""
    with home_at(folder) as home:
        device = home.dev[:-2]
    (folder / "archive" / f"{device}~6").mkdir(parents=True)
    (folder / "private" / "device.json").unlink()
    with home_at(folder) as home:
        assert home.dev == f"{device}~7"


@pytest.mark.parametrize(
    "garbled", [b"", b"{", b"[]", b'{"id":"../x","n":0,"letters":"ABCD","fingerprint":""}', b"\xff"]
)
def test_a_damaged_identity_is_a_new_incarnation(folder: Path, garbled: bytes) -> None:
    (folder / "private" / "device.json").write_bytes(garbled)
    with home_at(folder) as home:
        assert number(home.dev) == 1 and len(home.records("J1")) == 5


def test_somebody_who_has_seen_more_of_this_tablet_shows_that_it_went_back(folder: Path, tmp_path: Path) -> None:
    """A whole image was put back, marks and all; only another tablet knows."""
    shutil.copytree(folder, tmp_path / "image")
    with home_at(folder) as home:
        record(home, 2)
        seen = home.heads("J1")
        dev = home.dev
    other = home_at(tmp_path / "other")
    other.append([Draft("J1", "finding", (), {})], "P2", seen)
    shutil.rmtree(folder)
    shutil.copytree(tmp_path / "image", folder)
    shutil.copytree(tmp_path / "other/out/journals", folder / "archive")
    with home_at(folder) as home:
        assert home.dev == dev
        record(home)
        assert number(home.dev) == 1 and "older copy" in home.troubles[0].message


def test_a_bad_line_in_an_act_on_two_jobs_moves_the_whole_act_to_the_new_incarnation(folder: Path) -> None:
    """The fault is found while the act is being written."""
    with home_at(folder) as home:
        record(home, 3, "J2")
    file = next((folder / "out").rglob("j2.001.jsonl"))
    file.write_bytes(file.read_bytes().replace(b"finding", b"FINDING", 1))
    with home_at(folder) as home:
        act = [Draft("J1", "handed_over", (), {}), Draft("J2", "taken_over", (), {})]
        made = home.append(act, "P1", {})
        assert [number(r.dev) for r in made] == [1, 1]
        assert made[0] in home.records("J1") and home.records("J2") == made[1:]
        assert home.troubles[0].line == 2


def test_no_machine_or_place_can_be_read_from_the_identity(folder: Path) -> None:
    said = json.loads((folder / "private" / "device.json").read_bytes())
    assert sorted(said) == ["fingerprint", "id", "letters", "n"] and str(folder) not in json.dumps(said)
