"""The power goes at every step of the work, and the disk forgets whatever was not synced."""

from __future__ import annotations

import random
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from teardown_app.records import pen
from teardown_app.records.trouble import RecordsError
from tests.faults.bench_work import Confirmed, must_hold, opened, work
from tests.faults.model_disk import ModelDisk, PowerCut


@pytest.fixture(autouse=True)
def short_segments(monkeypatch: pytest.MonkeyPatch) -> None:
    """So short that the work begins several."""
    monkeypatch.setattr(pen, "SEGMENT_BYTES", 2_000)


def cut_short(step: int, rounds: int) -> tuple[ModelDisk, Confirmed, bool]:
    """Work with the power cut before this step; the last value is true when the work came to its end."""
    disk, confirmed = ModelDisk(cut_at=step), Confirmed()
    try:
        work(disk, confirmed, rounds)
    except PowerCut:
        return disk, confirmed, False
    return disk, confirmed, True


def every_cut(rounds: int) -> Iterator[tuple[int, ModelDisk, Confirmed]]:
    step, done = 0, False
    while not done:
        disk, confirmed, done = cut_short(step, rounds)
        yield step, disk, confirmed
        step += 1


def test_whatever_the_disk_forgets_what_was_confirmed_is_there() -> None:
    """At every step, up to 24 disks that may be found afterwards."""
    steps = 0
    for step, disk, confirmed in every_cut(rounds=3):
        for survivor in disk.survivors(24, random.Random(step)):
            must_hold(survivor, confirmed)
        steps += 1
    assert steps > 60, "the work has shrunk; this test looks at less than it should"


@pytest.mark.faults
def test_the_power_goes_again_while_the_first_cut_is_being_repaired() -> None:
    """Two cuts, the second at every step of the start after the first."""
    for step, disk, confirmed in every_cut(rounds=2):
        chance = random.Random(step)
        for survivor in disk.survivors(6, chance):
            for second in range(12):
                cut_again(survivor, second, confirmed, chance)


def cut_again(survivor: ModelDisk, step: int, confirmed: Confirmed, chance: random.Random) -> None:
    disk = next(survivor.survivors(1, chance))
    disk.cut_at = step
    with suppress(PowerCut):
        opened(disk).records("J1")
    for found in disk.survivors(4, chance):
        must_hold(found, confirmed)


def first_loss(rounds: int = 2) -> str:
    """What the proof above says of the code as it is now; empty when it finds nothing."""
    for step, disk, confirmed in every_cut(rounds):
        for survivor in disk.survivors(24, random.Random(step)):
            try:
                must_hold(survivor, confirmed)
            except (AssertionError, RecordsError) as lost:
                return str(lost)
    return ""


LEFT_OUT = [
    ("sync_file", "journals", ".jsonl"),
    ("sync_file", "journals", ".tmp"),
    ("sync_file", "attachments", ".tmp"),
    ("sync_folder", "journals", ""),
    ("sync_folder", "attachments", ""),
]


@pytest.mark.parametrize(("sync", "place", "ending"), LEFT_OUT)
def test_a_sync_left_out_is_noticed(sync: str, place: str, ending: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The proof has teeth: without any one kind of sync it fails."""
    honest = getattr(ModelDisk, sync)

    def careless(disk: ModelDisk, path: Path) -> None:
        if place not in path.parts or not path.name.endswith(ending):
            honest(disk, path)

    assert not first_loss()
    monkeypatch.setattr(ModelDisk, sync, careless)
    assert first_loss()
