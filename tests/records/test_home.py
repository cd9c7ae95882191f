"""The data folder as the workshop uses it."""

from __future__ import annotations

import multiprocessing
import os
import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft, Record
from teardown_app.records import disk as disk_module
from teardown_app.records import journal
from teardown_app.records.clock import TrialClock
from teardown_app.records.home import Home
from teardown_app.records.trouble import InUse, NotRecorded, NotWritable, ReadOnly

START = datetime.fromisoformat("2026-03-14T09:30:00+01:00")


def home_at(path: Path, source: TrialClock | None = None) -> Home:
    return Home(path, source or TrialClock(START)).open()


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return home_at(tmp_path / "data")


def test_new_things_get_their_full_names_wherever_they_are_named(home: Home) -> None:
    """Of the own entry, of an earlier and of a later entry of the same act, in another file too."""
    act = [
        Draft("J1", "taken_off", ("new:1", "new:2.1"), {"a": ["new:2", {"new:1": "xnew:1"}], "b": "new:01"}),
        Draft("_shop", "numbers_issued", ("new:0.2",), {"for": "new:1"}),
        Draft("J1", "put", ("new:0.1", "new:1"), {}),
    ]
    first, shop, second = home.append(act, "P1", {})
    dev = home.dev
    assert first.ent == (f"J1:{dev}:1:1", f"J1:{dev}:2:1") == (first.thing(), second.thing())
    assert first.body == {"a": [first.thing(2), {first.thing(): "xnew:1"}], "b": "new:01"}
    assert shop.ent == (first.thing(2),) and shop.body == {"for": shop.thing()}
    assert second.ent == (first.thing(), second.thing())
    with pytest.raises(NotWritable, match="only 1"):
        home.append([Draft("J1", "put", ("new:1.1",), {})], "P1", {})
    assert home.records("J1") == [first, second]


def test_an_act_of_which_one_entry_cannot_be_stored_is_refused_whole(home: Home) -> None:
    with pytest.raises(NotWritable):
        home.append([Draft("J1", "put", (), {}), Draft("J1", "finding", (), {"h": 1})], "P1", {})
    assert home.records("J1") == [] and home.jobs() == []
    assert [record.seq for record in home.append([Draft("J1", "put", (), {})], "P1", {})] == [1]


def test_reading_twice_and_after_a_restart_gives_equal_records(home: Home) -> None:
    """Over several segments; kinds that nobody knows pass through."""
    written: list[Record] = []
    for n in range(400):
        draft = Draft("J1", f"kind_of_tomorrow_{n % 3}", ("new:1",), {"n": n, "text": "größer " * 40})
        written += home.append([draft], "P1", home.heads("J1"))
    assert home.records("J1") == home.records("J1") == written
    assert home.jobs() == ["J1"]
    dev = home.dev
    home.close()
    again = home_at(home.path)
    assert (again.dev, again.records("J1"), again.troubles) == (dev, written, [])
    files = sorted((home.path / "out/journals" / dev).iterdir())
    assert [file.name for file in files] == ["j1.001.jsonl", "j1.002.jsonl", "j1.003.jsonl"]
    assert all(file.stat().st_size <= 131_072 for file in files)


def test_a_record_holds_only_what_its_author_newly_knew(home: Home) -> None:
    """Entries changed, gone back, and gone; putting them together gives the full vector again."""
    knew = [
        {"tother~0": (3, "aaaaaaaa"), "_shop/tother~0": (1, "bbbbbbbb")},
        {"tother~0": (3, "aaaaaaaa"), "_shop/tother~0": (2, "cccccccc")},
        {"tother~0": (2, "dddddddd")},
        {},
    ]
    made = [home.append([Draft("J1", "finding", (), {})], "P1", vector)[0].seen for vector in knew]
    assert made == [
        knew[0],
        {"_shop/tother~0": (2, "cccccccc")},
        {"tother~0": (2, "dddddddd"), "_shop/tother~0": (0, "")},
        {"tother~0": (0, "")},
    ]
    vector: dict[str, tuple[int, str]] = {}
    for changes, full in zip(made, knew, strict=True):
        journal.overlay(vector, changes)
        assert vector == full


def test_each_file_of_an_act_gets_its_own_part_of_what_was_known(home: Home) -> None:
    """A job's record: this job and all shop files; the shop's: other shop files only; never itself."""
    dev = home.dev
    known = {
        "tother~0": (3, "a" * 8), dev: (9, "b" * 8), "J2/tother~0": (6, "e" * 8),
        "_shop/tother~0": (4, "c" * 8), f"_shop/{dev}": (5, "d" * 8),
    }  # fmt: skip
    act = [Draft("_shop", "x", (), {}), Draft("J1", "x", (), {}), Draft("J2", "x", (), {})]
    shop, first, second = home.append(act, "P1", known)
    both = {"_shop/tother~0": (4, "c" * 8), f"_shop/{dev}": (5, "d" * 8)}
    assert shop.seen == {"_shop/tother~0": (4, "c" * 8)}
    assert first.seen == {"tother~0": (3, "a" * 8), **both}
    assert second.seen == {"tother~0": (6, "e" * 8), **both}


def test_the_second_start_is_told_who_has_the_folder(home: Home) -> None:
    """Another program; reading is open to it all the same."""
    home.append([Draft("J1", "opened", (), {})], "P1", {})
    with pytest.raises(InUse, match=rf"in use: program {os.getpid()} on .+, since 20"):
        home_at(home.path)
    code = (
        "import sys; from pathlib import Path; from teardown_app.records.clock import MachineClock;"
        "from teardown_app.records.home import Home; from teardown_app.records.trouble import InUse\n"
        "home = Home(Path(sys.argv[1]), MachineClock())\n"
        "print(len(home.open_to_read().records('J1')))\n"
        "try: home.open()\nexcept InUse as told: print(told)\n"
    )
    out = subprocess.run([sys.executable, "-c", code, str(home.path)], capture_output=True, text=True, check=True)
    assert out.stdout.startswith("1\n") and f"program {os.getpid()}" in out.stdout
    home.close()
    home_at(home.path).close()


def test_a_folder_open_for_reading_is_not_changed(home: Home, tmp_path: Path) -> None:
    home.append([Draft("J1", "opened", (), {})], "P1", {})
    home.close()
    file = next((home.path / "out").rglob("j1.001.jsonl"))
    file.write_bytes(file.read_bytes() + b'{"torn')
    before = {path: path.read_bytes() for path in home.path.rglob("*") if path.is_file()}
    with Home(home.path, TrialClock(START)).open_to_read() as reader:
        assert len(reader.records("J1")) == 1 and reader.jobs() == ["J1"]
        with pytest.raises(ReadOnly):
            reader.append([Draft("J1", "put", (), {})], "P1", {})
        with pytest.raises(ReadOnly):
            reader.attach(b"x", "jpg")
    assert {path: path.read_bytes() for path in home.path.rglob("*") if path.is_file()} == before
    nothing = Home(tmp_path / "none", TrialClock(START)).open_to_read()
    assert nothing.jobs() == nothing.records("J1") == [] and not (tmp_path / "none").exists()


@pytest.mark.parametrize("job", ["", "a/b", "..", "J.1", "CON", "com1", "x" * 41, "J 1", "-a", "ä"])
def test_a_job_number_that_no_file_can_have_is_refused(home: Home, job: str) -> None:
    with pytest.raises(NotWritable, match="job number"):
        home.append([Draft(job, "opened", (), {})], "P1", {})


def test_two_jobs_that_differ_in_capitals_only_are_not_mixed(home: Home) -> None:
    first = home.append([Draft("J1a", "opened", (), {})], "P1", {})
    with pytest.raises(NotRecorded, match="capitals"):
        home.append([Draft("J1A", "opened", (), {})], "P1", {})
    assert home.records("J1a") == first and home.jobs() == ["J1a"]


def test_records_of_other_tablets_are_read_from_the_archive(home: Home, tmp_path: Path) -> None:
    """Both devices' records, each in its order; the next record's logical time is later than all."""
    later = TrialClock(datetime.fromisoformat("2031-01-01T00:00:00+00:00"))
    other = home_at(tmp_path / "other", later)
    theirs = [other.append([Draft("J1", "finding", (), {})], "P2", other.heads("J1"))[0] for _ in range(3)]
    (home.path / "archive").mkdir()
    (tmp_path / "other/out/journals" / other.dev).rename(home.path / "archive" / other.dev)
    assert home.records("J1") == theirs
    mine = home.append([Draft("J1", "finding", (), {})], "P1", home.heads("J1"))[0]
    assert mine.seen == {other.dev: (3, theirs[-1].h[:8])}
    assert mine.hlc > theirs[-1].hlc and mine.wall < theirs[-1].wall
    assert home.records("J1") == [mine, *theirs]


def test_trial_records_say_so(home: Home) -> None:
    assert home.append([Draft("J1", "x", (), {})], "P1", {})[0].trial


def test_a_jump_of_the_clock_over_a_restart_is_noticed(home: Home) -> None:
    """The marks keep the last clock believed."""
    home.append([Draft("J1", "x", (), {})], "P1", {})
    home.close()
    again = home_at(home.path, TrialClock(START.replace(month=9), steady=START.timestamp() + 5))
    assert again.append([Draft("J1", "x", (), {})], "P1", {})[0].clk == "jumped"
    again.close()
    right = home_at(home.path, TrialClock(START))
    assert right.append([Draft("J1", "x", (), {})], "P1", {})[0].clk == "ok"


def test_a_record_is_written_once_and_synced_before_it_is_confirmed(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    """On the real disk: one write of the whole line, one sync of that file, nothing else synced."""
    home.append([Draft("J1", "opened", (), {})], "P1", {})
    file = next((home.path / "out").rglob("j1.001.jsonl"))
    calls: list[tuple[str, bool]] = []
    write, sync = os.write, os.fsync

    def is_file(handle: int) -> bool:
        return os.fstat(handle).st_ino == file.stat().st_ino

    monkeypatch.setattr(disk_module.os, "write", lambda h, d: (calls.append(("write", is_file(h))), write(h, d))[1])
    monkeypatch.setattr(disk_module.os, "fsync", lambda h: (calls.append(("sync", is_file(h))), sync(h))[1])
    record = home.append([Draft("J1", "put", (), {})], "P1", {})[0]
    assert calls[:2] == [("write", True), ("sync", True)]
    assert [call for call in calls[2:] if call != ("write", False)] == [], "only the mark is written besides"
    assert file.read_bytes().endswith(f'"h":"{record.h}"}}\n'.encode())


def test_a_file_that_somebody_else_has_changed_is_not_written_to(home: Home) -> None:
    """Nothing is added behind a stranger's bytes; the next try looks at the file anew."""
    first = home.append([Draft("J1", "opened", (), {})], "P1", {})
    file = next((home.path / "out").rglob("j1.001.jsonl"))
    file.write_bytes(file.read_bytes() + b"stray")
    with pytest.raises(NotRecorded, match="not as it was left"):
        home.append([Draft("J1", "put", (), {})], "P1", {})
    second = home.append([Draft("J1", "put", (), {})], "P1", {})
    assert home.records("J1") == first + second
    assert [path.read_bytes() for path in (home.path / "set-aside").iterdir()] == [b"stray"]


def test_a_process_started_from_this_one_cannot_write_either(home: Home) -> None:
    """The lock is the folder's, not the program's."""
    context = multiprocessing.get_context("spawn")
    with context.Pool(1) as pool:
        assert pool.apply(_try_to_open, (str(home.path),)) == "InUse"


def _try_to_open(path: str) -> str:
    try:
        Home(Path(path), TrialClock(START)).open()
    except InUse:
        return "InUse"
    return "open"
