"""The black box on disks without room, with large pictures, and at an end that was none by a fault."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from teardown_app.ui import black_box
from teardown_app.ui.black_box import AGAIN_S, HEADER, MOST_PIXELS, RESERVE, BlackBox, digest_of
from teardown_app.ui.guard import AGAIN
from teardown_app.ui.start import END, say_what_happened
from tests.ui.shop import DemoDesk

GREY = np.arange(1000 * 1500, dtype=np.uint32).astype(np.uint8).reshape(1000, 1500)
DISK = 2**20
RECORD = bytes(DISK * 7 // 8)


MOUNT = f'mount -t tmpfs -o size={DISK} tmpfs "$0" && echo mounted && read end'


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A real disk of one mebibyte, mounted by a process that sees it alone (namespaces(7)), so that anybody may."""
    folder = tmp_path / "disk"
    folder.mkdir()
    apart = ["unshare", "--mount"] if os.geteuid() == 0 else ["unshare", "--mount", "--user", "--map-root-user"]
    command = [*apart, "sh", "-c", MOUNT, str(folder)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as holder:
        assert holder.stdout
        if holder.stdout.readline() != "mounted\n":
            pytest.skip("no disk can be mounted here")
        yield Path(f"/proc/{holder.pid}/root{folder}")


@pytest.mark.skipif(sys.platform != "linux", reason="disks are mounted as on Linux")
@pytest.mark.parametrize("reserve", [RESERVE, 0])
def test_records_can_be_written_on_a_disk_without_room(
    small_disk: Path, reserve: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The picture does not fit; with the reserve looked for it is not begun, and without it what was begun is away."""
    monkeypatch.setattr(black_box, "RESERVE", reserve)
    if not reserve:  # the disk fills up between the look and the writing
        monkeypatch.setattr(black_box.shutil, "disk_usage", lambda _folder: plenty())
    box = BlackBox(small_disk / "private")
    for _ in range(3):
        box.begin(GREY)
        (small_disk / "record").write_bytes(RECORD)
        (small_disk / "record").unlink()
        box.end()
    assert not (small_disk / "private" / "being-read").exists()


class Disk:
    """A disk with a free space that can be set, and how often it was asked."""

    def __init__(self, free: int) -> None:
        self.free, self.asked = free, 0

    def usage(self, _folder: Path) -> Disk:
        """As `shutil.disk_usage`."""
        self.asked += 1
        return self


def plenty() -> Disk:
    """More than is ever asked for."""
    return Disk(10**12)


@pytest.fixture
def disk(monkeypatch: pytest.MonkeyPatch) -> Disk:
    """In place of the real one."""
    made = plenty()
    monkeypatch.setattr(black_box.shutil, "disk_usage", made.usage)
    return made


def test_after_a_disk_without_room_it_is_not_tried_for_a_minute(tmp_path: Path, disk: Disk) -> None:
    """The reserve and the picture have to fit; a byte less, and the disk is left alone till the minute is over."""
    now, file = [100.0], tmp_path / "being-read"
    disk.free = RESERVE + HEADER.size + GREY.size - 1
    box = BlackBox(tmp_path, lambda: now[0])
    box.begin(GREY)
    assert not file.exists() and disk.asked == 1
    disk.free += 1
    now[0] += AGAIN_S - 0.01
    box.begin(GREY)
    assert not file.exists() and disk.asked == 1
    now[0] += 0.01
    box.begin(GREY)
    assert file.exists() and BlackBox(tmp_path).set_aside()


def test_a_disk_that_fills_up_gets_the_room_back(tmp_path: Path, disk: Disk) -> None:
    """The file is there already: what it takes goes to the records."""
    box, file = BlackBox(tmp_path), tmp_path / "being-read"
    box.begin(GREY)
    assert file.exists()
    disk.free = RESERVE - 1
    box.begin(GREY)
    assert not file.exists()
    box.end()


def test_no_picture_is_put_aside_without_room(tmp_path: Path, disk: Disk) -> None:
    """And the mark is away all the same: a later fault is not blamed on it."""
    BlackBox(tmp_path).begin(GREY)
    disk.free = RESERVE
    after = BlackBox(tmp_path)
    assert after.set_aside() == "" and after.not_to_read == {digest_of(GREY)}
    disk.free = 10**12
    assert BlackBox(tmp_path).set_aside() == "" and not list(tmp_path.rglob("*.png"))


@pytest.mark.parametrize("shape", [(2000, 2001), (8000, 8000), (3, 5_000_000), (5_000_000, 1)])
def test_a_large_picture_is_kept_shrunk_and_known_again(tmp_path: Path, shape: tuple[int, int]) -> None:
    """64 megapixels take 4 MB, and the picture itself is not read again."""
    grey = np.zeros(shape, np.uint8)
    grey[-1, 0] = 7
    BlackBox(tmp_path).begin(grey)
    assert (tmp_path / "being-read").stat().st_size <= MOST_PIXELS + HEADER.size
    kept = Path(BlackBox(tmp_path).set_aside())
    assert BlackBox(tmp_path).not_to_read == {digest_of(grey)} == {kept.stem}
    wide, high = Image.open(kept).size
    assert MOST_PIXELS / 4 <= wide * high <= MOST_PIXELS


def test_a_picture_of_the_full_size_is_kept_whole(tmp_path: Path) -> None:
    """As it came."""
    grey = np.random.default_rng(5).integers(0, 256, (2000, 2000), np.uint8)
    BlackBox(tmp_path).begin(grey)
    assert np.array_equal(np.asarray(Image.open(BlackBox(tmp_path).set_aside())), grey)


def test_closing_while_a_picture_is_being_read_leaves_no_mark(tmp_path: Path) -> None:
    """Nor does a reader that begins another one after the closing."""
    box = BlackBox(tmp_path)
    box.begin(GREY)
    box.close()
    assert BlackBox(tmp_path).set_aside() == ""
    box.end()
    box.begin(GREY)
    assert BlackBox(tmp_path).set_aside() == ""


def test_only_the_start_after_a_fault_blames_a_picture(desk: DemoDesk) -> None:
    """The power went, or somebody killed the app, while a picture was being read: the next start throws it away, and
    a later fault of another kind is not blamed on it."""
    box = desk.watching.reader.box
    box.begin(GREY)
    say_what_happened(desk, "")
    say_what_happened(desk, AGAIN)
    assert desk.view().scan.says == END[AGAIN] and not box.not_to_read
    box.begin(GREY)
    say_what_happened(desk, AGAIN)
    assert desk.view().scan.says == END["picture"] and box.not_to_read == {digest_of(GREY)}
