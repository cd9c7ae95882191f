"""A backup holds all but what is private, reads back, and a start from it begins anew."""

from __future__ import annotations

import errno
import shutil
from datetime import datetime
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft
from teardown_app.records import backup
from teardown_app.records.clock import TrialClock
from teardown_app.records.disk import RealDisk
from teardown_app.records.home import Home
from teardown_app.records.trouble import BackupError

WALL = "2026-03-14T09:30:00+01:00"


def home_at(path: Path) -> Home:
    return Home(path, TrialClock(datetime.fromisoformat(WALL))).open()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A data folder after some work."""
    with home_at(tmp_path / "data") as home:
        photo = home.attach(b"a picture", "jpg")
        for n in range(5):
            home.append([Draft("J1", "photographed", ("new:1",), {"photo": photo, "n": n})], "P1", {})
        home.append([Draft("_shop", "place", (), {"name": "shelf 3"})], "P1", {})
    (tmp_path / "data" / "private" / "pins.json").write_text("never copied")
    (tmp_path / "data" / "drafts").mkdir()
    (tmp_path / "data" / "drafts" / "form.json").write_text("{}")
    return tmp_path / "data"


def test_a_backup_reads_back_and_leaves_out_what_is_private(folder: Path, tmp_path: Path) -> None:
    made = backup.make(folder, tmp_path / "stick" / "b1", WALL)
    copy = tmp_path / "stick" / "b1"
    assert made.records == 6 and made.troubles == []
    assert not (copy / "private").exists()
    assert b"never copied" not in b"".join(p.read_bytes() for p in copy.rglob("*") if p.is_file())
    assert (copy / "drafts" / "form.json").exists()
    assert backup.check(copy) == (made.records, made.troubles)


def test_a_start_from_a_backup_goes_on_in_files_of_its_own(folder: Path, tmp_path: Path) -> None:
    """New number of the incarnation, new letters, all records there, the old files untouched."""
    with home_at(folder) as home:
        old_dev, old_letters, before = home.dev, home.letters, home.records("J1")
    backup.make(folder, tmp_path / "b1", WALL)
    with home_at(tmp_path / "b1") as home:
        assert home.dev == old_dev[:-1] + "1" and home.letters != old_letters
        assert "backup" in home.troubles[0].message
        assert home.records("J1") == before
        new = home.append([Draft("J1", "finding", (), {})], "P1", home.heads("J1"))
        assert new[0].seen[old_dev] == (5, before[-1].h[:8])
        first_line = (tmp_path / "b1/out/journals" / home.dev / "j1.001.jsonl").read_bytes().split(b"\n")[0]
        assert f'"after":["{old_dev}",5,"{before[-1].h[:8]}"]'.encode() in first_line
        assert home.records("J1") == before + new
    for old in (folder / "out/journals" / old_dev).iterdir():
        assert (tmp_path / "b1/out/journals" / old_dev / old.name).read_bytes() == old.read_bytes()


def test_a_second_start_of_the_same_copy_is_the_same_tablet(folder: Path, tmp_path: Path) -> None:
    backup.make(folder, tmp_path / "b1", WALL)
    with home_at(tmp_path / "b1") as home:
        dev = home.dev
    with home_at(tmp_path / "b1") as home:
        assert home.dev == dev and home.troubles == []


def test_damage_in_the_copy_is_found(folder: Path, tmp_path: Path) -> None:
    backup.make(folder, tmp_path / "b1", WALL)
    file = next((tmp_path / "b1/out/attachments").rglob("*.jpg"))
    file.write_bytes(b"A picture")
    found = [str(one) for one in backup.check(tmp_path / "b1")[1]]
    assert len(found) == 2 and "damaged or changed" in found[0] and "not as the backup was made" in found[1]


def test_damage_in_the_folder_itself_is_copied_and_said(folder: Path, tmp_path: Path) -> None:
    file = next((folder / "out/journals").rglob("j1.001.jsonl"))
    file.write_bytes(file.read_bytes().replace(b'"n":2', b'"n":7'))
    made = backup.make(folder, tmp_path / "b1", WALL)
    assert made.records == 3  # two of the job before the changed line, one of the shop
    assert "line 4" in str(made.troubles[0])


@pytest.mark.parametrize("inside", ["", "backups", "out/b"])
def test_a_backup_into_the_folder_itself_is_refused(folder: Path, inside: str) -> None:
    with pytest.raises(BackupError, match="elsewhere"):
        backup.make(folder, folder / inside, WALL)


def test_a_folder_with_something_in_it_is_refused(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "x").write_text("x")
    with pytest.raises(BackupError, match="not empty"):
        backup.make(folder, tmp_path / "full", WALL)


def test_an_unfinished_copy_is_no_backup(folder: Path, tmp_path: Path) -> None:
    shutil.copytree(folder, tmp_path / "half", ignore=shutil.ignore_patterns("private"))
    assert [one.message for one in backup.check(tmp_path / "half")[1]] == [
        "backup.json is not there: this is no complete backup"
    ]


class ReadOnly(RealDisk):
    """A folder that nobody may write, with everything else as it is."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def put(self, path: Path, data: bytes) -> None:
        self._refuse(path)
        super().put(path, data)

    def make_folder(self, path: Path) -> None:
        self._refuse(path)
        super().make_folder(path)

    def replace(self, source: Path, target: Path) -> None:
        self._refuse(target)
        super().replace(source, target)

    def _refuse(self, path: Path) -> None:
        if path.is_relative_to(self.folder):
            raise OSError(errno.EROFS, "read-only", str(path))


def test_a_folder_that_may_only_be_read_is_backed_up(folder: Path, tmp_path: Path) -> None:
    """Nothing is written into it, and no lock is asked for."""
    before = {path: path.stat().st_mtime_ns for path in [folder, *folder.rglob("*")]}
    made = backup.make(folder, tmp_path / "b1", WALL, ReadOnly(folder))
    assert made.records == 6 and backup.check(tmp_path / "b1") == (6, [])
    assert {path: path.stat().st_mtime_ns for path in [folder, *folder.rglob("*")]} == before


def test_what_is_recorded_meanwhile_leaves_the_copy_whole(folder: Path, tmp_path: Path) -> None:
    """The app goes on at every step of the copy: records, pictures, a new job, numbers. The copy is as it was at the
    beginning, and nothing in it names what is not in it."""
    said: list[str] = []
    with home_at(folder) as home:

        def work(how_far: str) -> None:
            said.append(how_far)
            photo = home.attach(how_far.encode(), "jpg")
            act = [Draft("_shop", "place", (), {"name": how_far}), Draft("J1", "photographed", (), {"photo": photo})]
            home.append(act, "P1", home.heads("J1"))
            home.append([Draft(f"J{len(said) + 10}", "opened", (), {})], "P1", home.heads("J1"))

        made = backup.make(folder, tmp_path / "b1", WALL, home.disk, work)
        assert home.troubles == []
    assert made.records == 6 and made.troubles == [] and backup.check(tmp_path / "b1") == (6, [])
    assert said[0].startswith("copied 1 of ") and said[-1] == f"read back {made.files} of {made.files} files"
