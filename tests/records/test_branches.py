"""Two branches of one tablet in one data folder: both are read, both named in `seen`, none written on by mistake."""

from __future__ import annotations

import shutil
from datetime import datetime
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import SHOP, Draft, Record
from teardown_app.records import gate, incarnation
from teardown_app.records.backup import check
from teardown_app.records.clock import TrialClock
from teardown_app.records.home import Home

START = datetime.fromisoformat("2026-03-14T09:30:00+01:00")


def home_at(path: Path, day: int = 14) -> Home:
    return Home(path, TrialClock(START.replace(day=day))).open()


def record(home: Home, times: int = 1, job: str = "J1") -> None:
    for _ in range(times):
        home.append([Draft(job, "finding", (), {})], "P1", home.heads(job))


def restored(backup: Path, path: Path, day: int) -> Path:
    """A backup started on a machine that has not heard of any other: three records of a second incarnation."""
    shutil.copytree(backup, path)
    with home_at(path, day) as home:
        record(home, 3)
        record(home, 1, SHOP)
    return path


def carried(home: Path, to: Path, dev: str, as_: str) -> None:
    """What one tablet recorded, taken into the archive of another."""
    shutil.copytree(home / "out" / "journals" / dev, to / "archive" / as_)


@pytest.fixture
def twice(tmp_path: Path) -> tuple[Path, Path, str]:
    """One backup that was started twice, and the name under which both record now."""
    with home_at(tmp_path / "first") as home:
        record(home, 2)
        record(home, 1, SHOP)
        device = home.dev.partition("~")[0]
    shutil.rmtree(tmp_path / "first" / "private")
    one, other = (restored(tmp_path / "first", tmp_path / name, day) for name, day in (("a", 15), ("b", 16)))
    return one, other, f"{device}~1"


def test_a_third_tablet_reads_both_and_names_both(twice: tuple[Path, Path, str], tmp_path: Path) -> None:
    """The further branch under the name of its first record; after a restart too."""
    one, other, dev = twice
    with home_at(one) as mine, home_at(other) as theirs:
        ours, others = ([each for each in home.records("J1") if each.dev == dev] for home in (mine, theirs))
    third = tmp_path / "third"
    carried(one, third, dev, dev)
    carried(other, third, dev, f"{dev}#{others[0].h[:8]}")
    both = {dev: (3, ours[-1].h[:8]), f"{dev}#{others[0].h[:8]}": (3, others[-1].h[:8])}
    with home_at(third) as home:
        assert home.records("J1") == [*ours, *others]
        assert {name: last for name, last in home.heads("J1").items() if "/" not in name} == both
        written = home.append([Draft("J1", "finding", (), {})], "P1", home.heads("J1"))[0]
        own = home.dev
    assert {name: last for name, last in written.seen.items() if "/" not in name} == both
    with home_at(third) as home:
        assert home.dev == own and home.records("J1") == [written, *ours, *others] and home.troubles == []
        assert home.heads("J1") == {own: (1, written.h[:8]), **written.seen}
        assert home.append([Draft("J1", "finding", (), {})], "P1", home.heads("J1"))[0].seen == {}
    records, troubles = check(third)
    assert records == 2 + 2 * 3 + 2 * 1
    before = dev.replace("~1", "~0")
    assert ["not here" in one.message and before in one.message for one in troubles] == [True, True], (
        "what the incarnation before recorded, of the job and of the shop, was not carried"
    )


def test_the_other_branch_of_its_own_file_is_named_too_and_no_alarm(twice: tuple[Path, Path, str]) -> None:
    """Also where the other one is longer, and a tablet that has both says so."""
    one, other, dev = twice
    with home_at(other, 17) as theirs:
        record(theirs, 4)
        first, *_, last = (each for each in theirs.records("J1") if each.dev == dev)
    carried(other, one, dev, f"{dev}#{first.h[:8]}")
    with home_at(one, 18) as home:
        written = home.append([Draft("J1", "finding", (), {})], "P1", home.heads("J1"))[0]
        assert (home.dev, home.troubles) == (dev, [])
        assert written.seen[f"{dev}#{first.h[:8]}"] == (7, last.h[:8]) and dev not in written.seen
        shop = [name for name in written.seen if name.startswith(f"{SHOP}/{dev}")]
        assert len(shop) == 2, "of the shop's file too there are two branches, the own one among them"
    with home_at(one, 18) as home:
        assert home.records("J1")[-1].dev == dev and home.dev == dev
        record(home)
        assert (home.dev, home.troubles) == (dev, [])


def test_an_own_file_that_came_back_longer_is_not_written_on(twice: tuple[Path, Path, str], tmp_path: Path) -> None:
    """An image was put back, marks and all; what was carried away since shows it."""
    one, _, dev = twice
    shutil.copytree(one, tmp_path / "image")
    with home_at(one, 17) as home:
        record(home)
        first = next(each for each in home.records("J1") if each.dev == dev)
    carried(one, tmp_path / "kept", dev, f"{dev}#{first.h[:8]}")
    shutil.rmtree(one)
    shutil.copytree(tmp_path / "image", one)
    shutil.copytree(tmp_path / "kept" / "archive", one / "archive", dirs_exist_ok=True)
    with home_at(one, 18) as home:
        assert home.dev == dev
        record(home)
        assert home.dev != dev and "older copy" in home.troubles[0].message
        assert home.heads("J1")[dev][0] == 4 and not any("#" in name for name in home.heads("J1") if "/" not in name)


def test_branches_within_branches_have_names_of_their_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each after the first record that it shares with no other one. The disks were cloned, with their names."""
    for room in (incarnation, gate):
        monkeypatch.setattr(room, "fingerprint", lambda home: "cloned")
    with home_at(tmp_path / "a") as home:
        record(home, 2)
        dev = home.dev
    for before, name, day in (("a", "b", 15), ("a", "c", 16), ("c", "d", 17), ("c", "e", 18)):
        shutil.copytree(tmp_path / before, tmp_path / name)
        with home_at(tmp_path / name, day) as home:
            record(home)
            assert home.dev == dev
    ends: dict[str, list[Record]] = {}
    for n, name in enumerate("bdec"):
        with Home(tmp_path / name, TrialClock(START)).open_to_read() as home:
            ends[name] = home.records("J1")
        carried(tmp_path / name, tmp_path / "third", dev, f"{dev}#{n:08x}")
    with home_at(tmp_path / "third") as home:
        named = [dev, *(f"{dev}#{ends[name][-1].h[:8]}" for name in "de")]
        assert home.heads("J1") == {
            name: (ends[end][-1].seq, ends[end][-1].h[:8]) for name, end in zip(named, "bde", strict=True)
        }
        assert len(home.records("J1")) == 2 + 1 + 1 + 2, "before, on b, on c, on d and e"
