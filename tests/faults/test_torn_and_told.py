"""A torn end is safe in its own file before it is cut off, and a damaged line is told with its file, line and byte."""

from __future__ import annotations

import random
from contextlib import suppress
from pathlib import Path

import pytest

from teardown_app.records.set_aside import keep
from teardown_app.records.trouble import Trouble
from tests.faults.bench_work import FOLDER, opened
from tests.faults.model_disk import ModelDisk, PowerCut
from tests.faults.test_cut_and_flipped import cut, disk_with, real_files

SET_ASIDE = FOLDER / "set-aside"
Files = tuple[str, dict[str, bytes]]


@pytest.fixture
def files(tmp_path: Path) -> Files:
    """A tablet's files of one job, as its real disk had them."""
    dev, found, _ = real_files(tmp_path / "data")
    return dev, found


def safe(disk: ModelDisk) -> ModelDisk:
    """The same disk with everything on it synced."""
    for folder in list(disk.entries):
        disk.sync_folder(folder)
        for name, node in disk.entries[folder].items():
            if node is not None:
                disk.sync_file(folder / name)
    return disk


def bytes_kept(disk: ModelDisk, segment: Path, torn: bytes) -> bool:
    """True where the torn bytes still stand in the segment, or all of them in a file set aside."""
    if disk.exists(segment) and disk.read(segment).endswith(torn):
        return True
    return torn in [disk.read(SET_ASIDE / name) for name in disk.sizes(SET_ASIDE) if name.endswith(".torn")]


@pytest.mark.parametrize("missing", [5, -1], ids=["within the last line", "within the first line"])
def test_wherever_the_power_goes_a_torn_end_is_in_one_of_the_two_files(files: Files, missing: int) -> None:
    """`journal-files.md` 6: moved to `set-aside/`, "makes that file durable, and only then cuts the segment back"."""
    dev, whole = files
    name, size = next(iter(whole)), sum(map(len, whole.values()))
    left = cut(whole, size - missing if missing > 0 else 30)
    torn = left[name].rpartition(b"\n")[2]
    step, done = 0, False
    while not done:
        disk = safe(disk_with(dev, left, private=True))
        disk.cut_at, disk.steps = step, 0
        with suppress(PowerCut):
            opened(disk).records("J1")
            done = True
        for survivor in disk.survivors(32, random.Random(step)):
            assert bytes_kept(survivor, FOLDER / "out" / "journals" / dev / name, torn), f"power cut before step {step}"
        step += 1
    assert step > 5, "the move has shrunk; this test looks at less than it should"


def damaged(line: int, files: Files) -> tuple[str, int, dict[str, bytes]]:
    """The first file with one bit changed within a line (from 1); its name, and where the line begins."""
    name, data = next(iter(files[1].items()))
    lines = data.split(b"\n")
    begins = sum(len(one) + 1 for one in lines[: line - 1])
    at = begins + len(lines[line - 1]) // 2
    return name, begins, {**files[1], name: data[:at] + bytes([data[at] ^ 1]) + data[at + 1 :]}


@pytest.mark.parametrize("line", [1, 2, 3, 4])
@pytest.mark.parametrize("own", [True, False], ids=["own file", "another tablet's"])
def test_a_damaged_line_is_told_with_its_place(files: Files, line: int, own: bool) -> None:
    """`journal-files.md` 6: "File, line (from 1) and byte (from 0) are reported"."""
    name, begins, changed = damaged(line, files)
    disk = disk_with(files[0], changed, private=own)
    home = opened(disk)
    home.records("J1")
    assert [place(trouble) for trouble in home.troubles if name in trouble.file] == [(line, begins)]
    assert any("damaged or changed" in trouble.message for trouble in home.troubles)


def place(trouble: Trouble) -> tuple[int, int]:
    """Line and byte."""
    return trouble.line, trouble.byte


def test_what_is_set_aside_under_a_name_that_is_taken_stands_beside_it_and_never_twice() -> None:
    """Torn ends of one place after two crashes: the second one must not take the first one's bytes away."""
    disk = ModelDisk()
    kept = [keep(disk, FOLDER, "a.torn", data) for data in (b"one", b"two", b"three", b"two")]
    assert [path.name for path in kept] == ["a.torn", "a.torn-2", "a.torn-3", "a.torn-2"]
    assert disk.read(SET_ASIDE / "a.torn") == b"one"
