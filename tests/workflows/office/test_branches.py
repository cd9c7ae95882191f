"""One backup that was started on two machines: the office takes both in, and nobody's work stays open for ever."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Record
from tests.workflows.reassembly.bench import Bench

VERSIONS = "two versions of a record"


@pytest.fixture
def started(
    bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> tuple[Bench, Bench]:
    """Two tablets that were started from a backup of the bench: both record under one name."""
    shutil.rmtree(bench.home / "private")
    found = []
    for name in ("one", "other"):
        shutil.copytree(bench.home, tmp_path / name)
        found.append(Bench(tmp_path / name, monkeypatch, capsys))
    found[0].off("10.35")
    found[1].do("hardware count PO-7781 20/1.90 --found 4 --by AS")
    return found[0], found[1]


def recorded(on: Bench) -> tuple[str, list[Record]]:
    """The name under which a tablet records, and what it recorded of the job under it."""
    with on.open() as workshop:
        dev, job = workshop.home.dev, workshop.find_job("PO-7781").job
        return dev, [one for one in job.records.values() if one.dev == dev]


def test_the_office_has_seen_both_branches_and_concedes_two_versions(
    second: Bench, started: tuple[Bench, Bench]
) -> None:
    """On a real folder, over a restart: what was conceded is conceded when the program is opened again."""
    (dev, ours), (also, theirs) = (recorded(one) for one in started)
    assert dev == also and ours[0].seq == theirs[0].seq == 1
    branch = f"{dev}#{theirs[0].h[:8]}"
    started[0].carry_to(second)
    shutil.copytree(started[1].home / "out/journals" / dev, second.home / "archive" / branch)
    point = f"{VERSIONS}|job|{dev}:1"
    assert len(second.points(VERSIONS)) == 1
    second.do(f"job concede PO-7781 '{point}' --why 'one backup, started twice' --reference K-7 --by OF")
    _, mine = recorded(second)
    assert mine[-1].seen[dev] == (ours[-1].seq, ours[-1].h[:8])
    assert mine[-1].seen[branch] == (theirs[-1].seq, theirs[-1].h[:8])
    assert second.points(VERSIONS) == []
    said = {one["key"]: one["state"] for one in second.ask_points()}
    assert said[point] == "conceded"
