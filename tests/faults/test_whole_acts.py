"""An act on two journals, such as handing over: after a cut, a kill or a full disk both say it, or neither."""

from __future__ import annotations

import errno
import random
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft
from teardown_app.records import pen
from teardown_app.records.clock import MachineClock
from teardown_app.records.home import Home
from teardown_app.records.own_files import OwnFiles
from teardown_app.records.trouble import NotRecorded
from tests.faults.bench_work import opened
from tests.faults.model_disk import ModelDisk, PowerCut

JOBS = ("J1", "J2", "_shop")


@pytest.fixture(params=[2_000, 131_072], ids=["short segments", "one segment"], autouse=True)
def segments(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Both ways for a file to go on: at its end, and with a new one."""
    monkeypatch.setattr(pen, "SEGMENT_BYTES", request.param)


def hand_over(home: Home, n: int) -> None:
    """One act, each record of which says which it belongs to."""
    body = {"act": n, "note": "x" * 300}
    home.append([Draft(job, "handed_over", (), body) for job in JOBS], "P1", home.heads("J1"))


def acts(home: Home) -> Counter[int]:
    """How many records there are of each act."""
    return Counter(record.body["act"] for job in JOBS for record in home.records(job) if "act" in record.body)


def whole(home: Home, confirmed: int) -> None:
    """Every act is there in all its journals, and every confirmed one is there."""
    found = acts(home)
    assert set(found.values()) <= {len(JOBS)}, f"half an act: {found}"
    assert all(n in found for n in range(confirmed)), f"{confirmed} were confirmed: {found}"


def cut_before(step: int, rounds: int = 3) -> tuple[ModelDisk, int, bool]:
    disk, confirmed = ModelDisk(cut_at=step), 0
    with suppress(PowerCut):
        home = opened(disk)
        for n in range(rounds):
            hand_over(home, n)
            confirmed += 1
    return disk, confirmed, confirmed == rounds


def every_cut() -> Iterator[tuple[int, ModelDisk, int]]:
    step, done = 0, False
    while not done:
        disk, confirmed, done = cut_before(step)
        yield step, disk, confirmed
        step += 1


def test_wherever_the_power_goes_an_act_is_in_all_its_journals_or_in_none() -> None:
    """At every step, up to 16 disks that may be found; the start after it, and one more, work on."""
    completed = 0
    for step, disk, confirmed in every_cut():
        for survivor in disk.survivors(16, random.Random(step)):
            home = opened(survivor)
            whole(home, confirmed)
            completed += any("half-way" in one.message for one in home.troubles)
            hand_over(home, 90)
            again = opened(survivor)
            whole(again, confirmed)
            assert not [one for one in again.troubles if "half-way" in one.message], "said once"
    assert completed > 5, "no cut fell between the journals: this test looks at less than it should"


def test_without_the_note_half_acts_are_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """The proof has teeth."""
    monkeypatch.setattr(OwnFiles, "note_act", lambda *_: None)
    halves = 0
    for step, disk, _ in every_cut():
        for survivor in disk.survivors(16, random.Random(step)):
            halves += set(acts(opened(survivor)).values()) > {len(JOBS)}
    assert halves > 5


@pytest.mark.faults
def test_a_second_cut_while_the_act_is_being_completed() -> None:
    """The power goes again at every step of the start after the first cut."""
    for step, disk, confirmed in every_cut():
        chance = random.Random(step)
        for survivor in disk.survivors(6, chance):
            for second in range(10):
                once_more = next(survivor.survivors(1, chance))
                once_more.cut_at = second
                with suppress(PowerCut):
                    opened(once_more)
                for found in once_more.survivors(4, chance):
                    whole(opened(found), confirmed)


def test_wherever_the_room_ends_between_the_journals_nothing_of_the_act_is_kept_and_that_is_said() -> None:
    """Every 11 bytes; with room again the same act goes through, in the same session and after a start."""
    refused = 0
    for room in range(0, 3_200, 11):
        disk = ModelDisk()
        home = opened(disk)
        hand_over(home, 0)
        disk.room = room
        try:
            hand_over(home, 1)
        except NotRecorded as refusal:
            refused += 1
            assert refusal.written == () and str(refusal).startswith("NOT recorded. The disk is full")
            assert acts(opened(disk)) == {0: 3}
            disk.room = None
            assert acts(home) == {0: 3}
            hand_over(home, 1)
        assert acts(opened(disk)) == {0: 3, 1: 3}
    assert refused > 100


def test_a_disk_that_does_not_even_give_back_is_told_of_and_the_next_start_completes(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The second journal's write fails, and so does cutting the first one back: what was written is named, nothing
    more is written beside it, and the next start writes the rest."""
    monkeypatch.setattr(pen, "SEGMENT_BYTES", 131_072)
    disk = ModelDisk()
    home = opened(disk)
    hand_over(home, 0)
    written: list[Path] = []

    def failing(path: Path, at: int, data: bytes) -> None:
        if written:
            raise OSError(errno.EIO, "input/output error", str(path))
        written.append(path)
        ModelDisk.append_for_good(disk, path, at, data)

    def stuck(path: Path, *_: object) -> None:
        raise OSError(errno.EIO, "input/output error", str(path))

    with monkeypatch.context() as broken:
        broken.setattr(disk, "append_for_good", failing)
        broken.setattr(disk, "truncate", stuck)
        broken.setattr(disk, "remove", stuck)
        broken.setattr(
            disk, "put", lambda path, data: ModelDisk.put(disk, path, data) if "private" in path.parts else stuck(path)
        )
        with pytest.raises(NotRecorded) as refusal:
            hand_over(home, 1)
        assert [record.job for record in refusal.value.written] == ["J1"] and "of J1 is on the disk" in str(
            refusal.value
        )
    with pytest.raises(NotRecorded, match="start it anew"):
        hand_over(home, 2)
    again = opened(disk)
    assert acts(again) == {0: 3, 1: 3} and any("half-way" in one.message for one in again.troubles)


def test_a_note_of_another_incarnation_is_let_be() -> None:
    """What an earlier incarnation left half is not written into its files: they stay as they are."""
    disk = ModelDisk()
    home = opened(disk)
    hand_over(home, 0)
    note = disk.read(home.path / "private" / "act.json")
    assert home.dev.encode() in note
    disk.put(home.path / "private" / "act.json", note.replace(home.dev.encode(), b"tzzzzz~7"))
    assert acts(opened(disk)) == {0: 3}


CHILD = """
import os, sys
from pathlib import Path
from teardown_app.records.clock import MachineClock
from teardown_app.records.home import Home
from teardown_app.records.own_files import OwnFiles
from tests.faults.test_whole_acts import hand_over

home = Home(Path(sys.argv[1]), MachineClock()).open()
for n in range(int(sys.argv[2]), 10**6):
    hand_over(home, n)
    os.write(1, b"%d\\n" % n)
"""


@pytest.mark.faults
def test_kills_between_the_journals_leave_no_half_act(tmp_path: Path) -> None:
    """200 kills of a program that hands over without a pause."""
    chance, first, completed = random.Random(5), 0, 0
    for _ in range(200):
        said = tmp_path / "said"
        with said.open("wb") as file:
            child = subprocess.Popen([sys.executable, "-c", CHILD, str(tmp_path / "data"), str(first)], stdout=file)
            while not said.stat().st_size and child.poll() is None:
                time.sleep(0.005)
            time.sleep(chance.uniform(0.0, 0.05))
            child.kill()
            child.wait()
        confirmed = [int(line) for line in said.read_text().splitlines(keepends=True) if line.endswith("\n")]
        with Home(tmp_path / "data", MachineClock()).open() as home:
            whole(home, confirmed[-1] + 1)
            completed += any("half-way" in one.message for one in home.troubles)
            first = max(acts(home)) + 1
    assert completed, "no kill fell between the journals"
