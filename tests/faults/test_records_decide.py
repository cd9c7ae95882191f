"""Index, lists, label files and output that fail afterwards: what was recorded is answered as recorded, and the lock
is given back."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from teardown_app.cli.main import main
from teardown_app.domain.ledger.record import SHOP
from teardown_app.records.home import Home
from teardown_app.records.store import Store
from tests.faults.bench_work import FOLDER, START
from tests.faults.model_disk import ModelDisk
from tests.patience import WHOLE_RUN_S


def places(home: Path) -> list[str]:
    """What the records of the shop name as places, read without any index."""
    from teardown_app.records.clock import MachineClock

    records = Home(home, MachineClock()).open_to_read().records(SHOP)
    return [str(one.body["name"]) for one in records if one.typ == "place.given"]


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A data folder with a person, a place and an index."""
    folder = tmp_path / "data"
    assert main(["shop", "person", "OF", "--by", "OF", "--home", str(folder)]) == 0
    assert main(["search", "OF", "--home", str(folder)]) == 0
    assert main(["shop", "place", "RACK 0", "--by", "OF", "--home", str(folder)]) == 0
    return folder


def index_is_a_file(home: Path) -> None:
    shutil.rmtree(home / "index", ignore_errors=True)
    (home / "index").write_text("not ours")


def list_is_a_folder(home: Path) -> None:
    (home / "index" / "lists.json").unlink(missing_ok=True)
    (home / "index" / "lists.json" / "in it").mkdir(parents=True)


def list_cannot_be_kept(home: Path) -> None:
    (home / "index" / "lists.json.tmp").mkdir(parents=True)


def list_is_garbage(home: Path) -> None:
    (home / "index").mkdir(exist_ok=True)
    (home / "index" / "lists.json").write_bytes(b'{"jobs":{"1":{"key":"J1"}},"tags":{}}')


def who_has_the_lock_is_a_folder(home: Path) -> None:
    (home / "private" / "in-use.json" / "in it").mkdir(parents=True)


SPOILED = [index_is_a_file, list_is_a_folder, list_cannot_be_kept, list_is_garbage, who_has_the_lock_is_a_folder]


@pytest.mark.parametrize("spoil", SPOILED)
def test_what_is_recorded_is_answered_as_recorded(
    home: Path, spoil: Callable[[Path], None], capsys: pytest.CaptureFixture[str]
) -> None:
    """A job is opened, which asks the lists whether it was opened twice; then the next program writes."""
    spoil(home)
    capsys.readouterr()
    bill = str(Path(__file__).parents[2] / "sample_bills" / "ddp-12")
    opened = ["job", "open", bill, "--order", "PO-1", "--serial", "7", "--by", "OF", "--json", "--home", str(home)]
    assert main(opened) == 0
    said = capsys.readouterr()
    assert json.loads(said.out)["recorded"]
    if "list" in spoil.__name__ or "index" in spoil.__name__:
        assert "lists and searches" in said.err
    for place in ("RACK 1", "RACK 2"):
        assert main(["shop", "place", place, "--by", "OF", "--home", str(home)]) == 0
    assert places(home) == ["RACK 0", "RACK 1", "RACK 2"]
    assert main(["job", "show", "PO-1", "--home", str(home)]) == 0


def test_an_answer_that_nobody_takes_is_no_failure_of_what_was_recorded(home: Path) -> None:
    """Standard output and error end in a full disk (`/dev/full`): 0, and one record. Looking alone has then failed."""
    if not Path("/dev/full").exists():
        pytest.skip("this system has no full disk to write to")
    run = [sys.executable, "-m", "teardown_app"]
    for n, streams in enumerate(("stdout", "both"), 1):
        with Path("/dev/full").open("w") as full:
            words = ["shop", "place", f"RACK {n}", "--by", "OF", "--home", str(home)]
            err = full if streams == "both" else subprocess.DEVNULL
            assert subprocess.run([*run, *words], stdout=full, stderr=err, timeout=WHOLE_RUN_S).returncode == 0
            look = [*run, "shop", "people", "--home", str(home)]
            assert subprocess.run(look, stdout=full, stderr=err, timeout=WHOLE_RUN_S).returncode == 2
    assert places(home) == ["RACK 0", "RACK 1", "RACK 2"]


def test_a_label_file_that_cannot_be_written_takes_nothing_back(
    home: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Numbers of a roll are issued before its file: they are answered as recorded, and their labels wait."""
    (tmp_path / "roll.pdf").mkdir()
    capsys.readouterr()
    to = str(tmp_path / "roll.pdf")
    assert main(["label", "roll", "3", "--out", to, "--by", "OF", "--json", "--home", str(home)]) == 0
    said = capsys.readouterr()
    answer = json.loads(said.out)
    assert len(answer["numbers"]) == 3 and len(answer["recorded"]) == 2 and not answer["file"]
    assert "could not be written" in said.err and "label print" in said.err


@pytest.mark.faults
def test_wherever_the_room_for_the_index_ends_nothing_is_raised_and_what_is_there_is_whole_or_built_anew() -> None:
    """The disk is full within every byte of the index."""

    def filled(disk: ModelDisk) -> Store:
        store = Store(FOLDER, disk)
        store.rebuild("jobs", {f"J{n}": {"order": f"A-{n}", "opened": START} for n in range(20)})
        store.flush()
        return store

    def fresh(room: int) -> ModelDisk:
        disk = ModelDisk(room=room)
        for folder in reversed([FOLDER, *FOLDER.parents[:-1]]):
            disk.entries[folder.parent][folder.name], disk.entries[folder] = None, {}
            disk.safe[folder] = {}
        return disk

    disk = fresh(10**6)
    filled(disk)
    for room in range(10**6 - (disk.room or 0) + 2):
        disk = fresh(room)
        store = filled(disk)
        kept = Store(FOLDER, disk)
        assert kept.trouble is None, "a half-written index is never found"
        assert bool(store.trouble) == (len(kept.rows("jobs")) != 20)
