"""What `verify` sees: each way in which a data folder or a copy shows by itself that something is not as it was."""

from __future__ import annotations

import json
import os
import random
import shutil
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft
from teardown_app.records import backup, pen
from teardown_app.records.attachments import find
from teardown_app.records.clock import TrialClock
from teardown_app.records.disk import RealDisk
from teardown_app.records.home import Home
from teardown_app.records.trouble import AttachmentError

WALL = "2026-03-14T09:30:00+01:00"


def home_at(path: Path) -> Home:
    return Home(path, TrialClock(datetime.fromisoformat(WALL))).open()


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with two tablets' records of one job, a photograph, and several segments."""
    monkeypatch.setattr(pen, "SEGMENT_BYTES", 2_000)
    with home_at(tmp_path / "other") as other:
        other.append([Draft("J1", "note", (), {"n": n}) for n in range(4)], "P2", {})
        other.append([Draft("_shop", "place", (), {"name": "shelf 1"})], "P2", {})
        dev = other.dev
    carried = tmp_path / "data" / "archive" / dev
    shutil.copytree(tmp_path / "other" / "out" / "journals" / dev, carried)
    with home_at(tmp_path / "data") as home:
        photo = home.attach(b"a picture", "jpg")
        for n in range(12):
            body = {"photo": photo, "n": n, "note": "x" * 100}
            home.append([Draft("J1", "photographed", (), body)], "P1", home.heads("J1"))
        home.append([Draft("_shop", "place", (), {"name": "shelf 3"})], "P1", home.heads("_shop"))
    assert backup.check(tmp_path / "data") == (18, [])
    return tmp_path / "data"


def own(folder: Path) -> list[Path]:
    return sorted((folder / "out" / "journals").rglob("j1.*.jsonl"))


def other(folder: Path) -> Path:
    return next((folder / "archive").rglob("j1.001.jsonl"))


def picture(folder: Path) -> Path:
    return next((folder / "out" / "attachments").rglob("*.jpg"))


def others_end_is_gone(folder: Path) -> None:
    lines = other(folder).read_bytes().splitlines(keepends=True)
    other(folder).write_bytes(b"".join(lines[:-2]))


def others_file_is_gone(folder: Path) -> None:
    shutil.rmtree(folder / "archive")


def others_file_was_made_anew(folder: Path) -> None:
    """The same tablet's name and number of records, each line right in itself, made on another disk."""
    dev = other(folder).parent.name
    with home_at(folder.parent / "forger") as home:
        assert home._own is not None
        home._own.who = home._own.who._replace(id=dev[:-2], n=int(dev[-1]))
        home._own._pens.clear()
        home.append([Draft("J1", "note", (), {"n": -n}) for n in range(4)], "P2", {})
    shutil.copy(folder.parent / "forger" / "out" / "journals" / dev / "j1.001.jsonl", other(folder))


def marks_and_end_are_gone(folder: Path) -> None:
    """Nothing but what the marks of another tablet's records can show; here the own file is cut at a whole line."""
    own(folder)[-1].unlink()


def last_entry_is_torn(folder: Path) -> None:
    own(folder)[-1].write_bytes(own(folder)[-1].read_bytes() + b'{"v":1,"dev"')


def first_line_is_torn(folder: Path) -> None:
    path = own(folder)[-1]
    path.with_name(f"j1.{len(own(folder)) + 1:03d}.jsonl").write_bytes(b'{"v":1,"dev":"t')


def first_line_of_the_first_is_torn(folder: Path) -> None:
    own(folder)[0].write_bytes(own(folder)[0].read_bytes()[:40])


def others_first_line_is_torn(folder: Path) -> None:
    other(folder).write_bytes(other(folder).read_bytes()[:40])


def linked(there: Path, elsewhere: Path) -> None:
    """What stood there lies elsewhere, and a link leads to it."""
    shutil.move(there, elsewhere)
    there.symlink_to(elsewhere)


def piped(there: Path) -> None:
    """A pipe, which never ends, in its place."""
    there.unlink()
    os.mkfifo(there)


def picture_is_a_link(folder: Path) -> None:
    linked(picture(folder), folder.parent / "elsewhere.jpg")


def picture_is_a_pipe(folder: Path) -> None:
    piped(picture(folder))


def pictures_folder_is_a_link(folder: Path) -> None:
    linked(picture(folder).parent, folder.parent / "elsewhere")


def records_are_a_link(folder: Path) -> None:
    linked(other(folder), folder.parent / "elsewhere.jsonl")


def records_are_a_pipe(folder: Path) -> None:
    piped(other(folder))


BLIND_SPOTS: list[tuple[Callable[[Path], None], str]] = [
    (others_end_is_gone, "records 3 to 4 of J1"),
    (others_file_is_gone, "records 1 to 4 of J1"),
    (others_file_was_made_anew, "record 4 of J1 by"),
    (marks_and_end_are_gone, "are missing"),
    (last_entry_is_torn, "cut off"),
    (first_line_is_torn, "its first line was cut off"),
    (first_line_of_the_first_is_torn, "its first line was cut off"),
    (others_first_line_is_torn, "its first line was cut off"),
    (picture_is_a_link, "a link, a pipe"),
    (picture_is_a_pipe, "a link, a pipe"),
    (pictures_folder_is_a_link, "a link, a pipe"),
    (records_are_a_link, "cannot be read"),
    (records_are_a_pipe, "cannot be read"),
]


@pytest.mark.parametrize(("spoil", "says"), BLIND_SPOTS, ids=[spoil.__name__ for spoil, _ in BLIND_SPOTS])
def test_verify_sees_it(folder: Path, spoil: Callable[[Path], None], says: str) -> None:
    """Said with the file; nothing is followed, nothing waits, nothing is changed."""
    spoil(folder)
    assert any(says in str(trouble) for trouble in backup.check(folder)[1])


@pytest.mark.parametrize("spoil", [picture_is_a_link, picture_is_a_pipe, pictures_folder_is_a_link])
def test_what_is_no_file_is_never_shown_and_is_kept_anew(folder: Path, spoil: Callable[[Path], None]) -> None:
    """The screen and the commands ask `find` where a picture lies, and keeping it again puts the file itself there."""
    digest = picture(folder).stem
    spoil(folder)
    with pytest.raises(AttachmentError):
        find(RealDisk(), folder, digest)
    if spoil is not pictures_folder_is_a_link:
        with home_at(folder) as home:
            assert home.attach(b"a picture", "jpg") == digest and home.attachment(digest) == b"a picture"


def test_a_job_with_a_pipe_among_its_files_opens_without_waiting(folder: Path) -> None:
    records_are_a_pipe(folder)
    with home_at(folder) as home:
        assert len(home.records("J1")) == 12 and any("cannot be read" in str(one) for one in home.troubles)


def test_a_link_in_the_folder_is_left_out_of_the_backup_and_said(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "secret").write_text("not of the data folder")
    (folder / "shop").mkdir()
    (folder / "shop" / "findings.toml").symlink_to(tmp_path / "secret")
    made = backup.make(folder, tmp_path / "copy", WALL)
    assert ["findings.toml" in str(one) for one in made.troubles] == [True]
    assert not (tmp_path / "copy" / "shop" / "findings.toml").exists()


@pytest.fixture
def copy(folder: Path, tmp_path: Path) -> Path:
    """A backup that is well."""
    backup.make(folder, tmp_path / "copy", WALL)
    assert backup.check(tmp_path / "copy") == (18, [])
    return tmp_path / "copy"


def test_every_file_of_a_copy_is_missed_and_every_change_is_seen(copy: Path) -> None:
    """All files that the list names, those of lists and drafts too."""
    for name in json.loads((copy / "backup.json").read_text())["files"]:
        whole = (copy / name).read_bytes()
        for now in (None, whole + b"\n", whole[:-1]):
            if now is None:
                (copy / name).unlink()
            else:
                (copy / name).write_bytes(now)
            assert any(name in str(trouble) for trouble in backup.check(copy)[1]), name
        (copy / name).write_bytes(whole)
    assert backup.check(copy) == (18, [])


def test_a_file_that_the_list_does_not_name_is_seen(copy: Path) -> None:
    (copy / "out" / "attachments" / "zz").mkdir()
    (copy / "out" / "attachments" / "zz" / "more.txt").write_text("x")
    assert ["not in the list" in str(one) for one in backup.check(copy)[1]] == [True]


@pytest.mark.parametrize("files", [{"../secret": "0"}, {"/etc/passwd": "0"}, {"out\\..\\x": "0"}, ["out"], 7])
def test_a_list_that_names_anything_else_is_no_list(copy: Path, files: object) -> None:
    (copy / "backup.json").write_text(json.dumps({"files": files}))
    assert ["cannot be read" in str(one) for one in backup.check(copy)[1]] == [True]


def test_a_start_from_a_copy_leaves_its_old_records_as_the_list_says(copy: Path) -> None:
    """What goes on is no fault; a photograph that changed since the backup still is."""
    with home_at(copy) as home:
        home.append([Draft("J1", "note", (), {})], "P1", home.heads("J1"))
    assert backup.check(copy)[1] == []
    picture(copy).write_bytes(b"another one")
    assert len(backup.check(copy)[1]) == 2


@pytest.mark.faults
def test_wherever_a_file_of_records_is_cut_verify_sees_it(folder: Path) -> None:
    """Every segment but the last, which nobody had seen, at 60 places drawn with a seed. Marks are taken away: only
    lines, chains and what others had seen can show it."""
    for mark in (folder / "private").glob("marks-*"):
        mark.unlink()
    chance = random.Random(12)
    seen = [*own(folder)[:-1], other(folder)]
    for path in seen:
        whole = path.read_bytes()
        for at in sorted(chance.sample(range(len(whole)), 60)):
            path.write_bytes(whole[:at])
            assert backup.check(folder)[1], f"{path.name} cut at byte {at}"
        path.write_bytes(whole)
    assert backup.check(folder)[1] == []
