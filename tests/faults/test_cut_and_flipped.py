"""A real file of records, cut at every byte and with bytes changed."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft, Record
from teardown_app.records import journal, pen
from teardown_app.records.clock import TrialClock
from teardown_app.records.disk import RealDisk
from teardown_app.records.home import Home
from teardown_app.records.trouble import Trouble
from tests.faults.bench_work import FOLDER, START, NoLock, everything, opened
from tests.faults.model_disk import ModelDisk, Node

NOTES = ["gasket stuck", "Dichtung klebt, Größe 12 µm", '"\\ \n \u2028', "x" * 150]


def real_files(path: Path) -> tuple[str, dict[str, bytes], list[Record]]:
    """Work on the real disk: device, the job's files with their bytes, the records confirmed."""
    home = Home(path, TrialClock(datetime.fromisoformat(START)), RealDisk()).open()
    confirmed = []
    for note in NOTES:
        act = [Draft("J1", "taken_off", ("new:1",), {"note": note}), Draft("_shop", "place", (), {})]
        confirmed += home.append(act, "P1", home.heads("J1"))
    dev = home.dev
    home.close()
    folder = path / "out" / "journals" / dev
    files = {p.name: p.read_bytes() for p in sorted(folder.glob("j1.*"))}
    return dev, files, [record for record in confirmed if record.job == "J1"]


@pytest.fixture
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> tuple[str, dict[str, bytes], list[Record]]:
    """Two segments of real records."""
    monkeypatch.setattr(pen, "SEGMENT_BYTES", 1_500)
    found = real_files(tmp_path / "data")
    assert len(found[1]) == 2
    return found


def disk_with(dev: str, files: dict[str, bytes], *, private: bool) -> ModelDisk:
    """A disk with these files of the job; with `private` the tablet is still the same one."""
    disk = ModelDisk()
    home = opened(disk)
    folder = FOLDER / "out" / "journals" / dev
    for path in (FOLDER / "out", FOLDER / "out" / "journals", folder):
        disk.make_folder(path)
    disk.entries[folder] = {name: Node(data) for name, data in files.items()}
    if private:
        same = home._own.who._replace(id=dev[:-2])  # type: ignore[union-attr]
        disk.put(FOLDER / "private" / "device.json", json_of(same))
    else:
        disk.remove(FOLDER / "private" / "device.json")
    return disk


def json_of(who: object) -> bytes:
    import json

    return json.dumps(who._asdict()).encode()  # type: ignore[attr-defined]


def cut(files: dict[str, bytes], at: int) -> dict[str, bytes]:
    """The first `at` bytes of all files in their order; files wholly behind it are not there."""
    kept = {}
    for name, data in files.items():
        if at > 0:
            kept[name] = data[:at]
        at -= len(data)
    return kept


def whole_records(files: dict[str, bytes], confirmed: list[Record]) -> list[Record]:
    """The confirmed records whose line is there with its end."""
    there = b"".join(data[: data.rfind(b"\n") + 1] for data in files.values())
    return [record for record in confirmed if f'"h":"{record.h}"'.encode() in there]


@pytest.mark.parametrize("same_tablet", [True, False])
def test_cut_at_every_byte_all_whole_records_come_out_and_work_goes_on(
    files: tuple[str, dict[str, bytes], list[Record]], same_tablet: bool
) -> None:
    """On the tablet itself, and where the cut copy is started as if from a backup."""
    dev, whole, confirmed = files
    for at in range(1, sum(map(len, whole.values())) + 1):
        left = cut(whole, at)
        disk = disk_with(dev, left, private=same_tablet)
        home = opened(disk)
        found = home.records("J1")
        assert found == whole_records(left, confirmed), f"cut at byte {at}"
        added = home.append([Draft("J1", "finding", (), {"at": at})], "P1", home.heads("J1"))
        again = opened(disk)
        assert again.records("J1") == found + added, f"cut at byte {at}"
        assert not [trouble for trouble in again.troubles if "start" not in trouble.message]


def test_a_torn_end_is_kept_in_a_file_of_its_own_and_said(
    files: tuple[str, dict[str, bytes], list[Record]],
) -> None:
    """Not one byte of it is thrown away."""
    dev, whole, _ = files
    size = sum(map(len, whole.values()))
    disk = disk_with(dev, cut(whole, size - 5), private=True)
    home = opened(disk)
    home.records("J1")
    torn = list(whole.values())[-1][:-5].rpartition(b"\n")[2]
    kept = disk.sizes(FOLDER / "set-aside")
    assert [disk.read(FOLDER / "set-aside" / name) for name in kept] == [torn]
    assert journal.TORN in home.troubles[-1].message and "set-aside" in home.troubles[-1].what_to_do


def flips(files: dict[str, bytes], step: int) -> list[tuple[str, int, dict[str, bytes]]]:
    """The files with one bit of one byte changed, at every `step`-th byte."""
    out = []
    for name, data in files.items():
        for at in range(0, len(data), step):
            changed = data[:at] + bytes([data[at] ^ (1 << (at % 8))]) + data[at + 1 :]
            out.append((name, at, {**files, name: changed}))
    return out


def look_at_flipped(dev: str, name: str, at: int, left: dict[str, bytes], confirmed: list[Record]) -> None:
    disk = disk_with(dev, left, private=True)
    home = opened(disk)
    found = home.records("J1")
    assert found == confirmed[: len(found)], "a changed record is never taken for what was written"
    assert found != confirmed, f"{name}, byte {at}: the change was not noticed"
    place = told_place(home.troubles, name)
    if place:
        data = left[name]
        assert place.byte <= at and data[place.byte : at].count(b"\n") <= 1
        assert home.dev == dev[:-1] + "1", "goes on in files of its own"
    added = home.append([Draft("J1", "finding", (), {})], "P1", home.heads("J1"))
    again = opened(disk)
    assert again.records("J1") == found + added
    assert disk.read(FOLDER / "out" / "journals" / dev / name).startswith(left[name][: place.byte if place else 0])


def told_place(troubles: list[Trouble], name: str) -> Trouble | None:
    """The trouble that names the file, line and byte; none when the end was taken for torn."""
    return next((trouble for trouble in troubles if name in trouble.file and trouble.line), None)


def test_one_changed_bit_is_noticed_and_named(files: tuple[str, dict[str, bytes], list[Record]]) -> None:
    """Every 7th byte; every byte in the long run."""
    dev, whole, confirmed = files
    for name, at, left in flips(whole, 7):
        look_at_flipped(dev, name, at, left, confirmed)


@pytest.mark.faults
def test_one_changed_bit_in_every_byte_is_noticed(files: tuple[str, dict[str, bytes], list[Record]]) -> None:
    """All of them."""
    dev, whole, confirmed = files
    for name, at, left in flips(whole, 1):
        look_at_flipped(dev, name, at, left, confirmed)


def test_a_file_missing_in_the_middle_is_named(files: tuple[str, dict[str, bytes], list[Record]]) -> None:
    """What stands after the gap is not taken for a continuation."""
    dev, whole, confirmed = files
    last = dict(list(whole.items())[1:])
    home = opened(disk_with(dev, last, private=True))
    assert home.records("J1") == []
    assert "j1.001.jsonl before it is missing" in home.troubles[-1].message


def test_damage_in_one_job_stops_no_other(files: tuple[str, dict[str, bytes], list[Record]]) -> None:
    """The shop's file and other jobs are read on."""
    dev, whole, confirmed = files
    name = next(iter(whole))
    disk = disk_with(dev, {**whole, name: b"?" + whole[name][1:]}, private=True)
    home = opened(disk)
    other = home.append([Draft("J2", "opened", (), {})], "P1", {})
    assert home.records("J1") == [] and home.records("J2") == other
    assert everything(home) == []
    assert isinstance(NoLock(), NoLock)
