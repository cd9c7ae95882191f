"""The app is killed while it records: what it had confirmed is there."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft
from teardown_app.records.clock import MachineClock
from teardown_app.records.home import Home

CHILD = """
import os
import sys
from pathlib import Path
from teardown_app.domain.ledger.record import Draft
from teardown_app.records.clock import MachineClock
from teardown_app.records.home import Home

home = Home(Path(sys.argv[1]), MachineClock()).open()
home.records("J1")
n = 0
while True:
    photo = home.attach(str(n).encode() * 500, "jpg")
    body = {"photo": photo, "note": "x" * 900}
    act = [Draft("J1", "photographed", ("new:1",), body), Draft("_shop", "place", (), {})]
    for record in home.append(act, "P1", home.heads("J1")):
        os.write(1, (record.ref + "\\n").encode())  # one write: whole or not at all
    n += 1
"""


def worked_until_killed(folder: Path, seconds: float) -> list[str]:
    """Names of the records that the app confirmed before it was killed.

    They go through a file: of a pipe read by line, what the reader had in hand would be lost.
    """
    folder.parent.mkdir(parents=True, exist_ok=True)
    said = folder.parent / f"{folder.name}.confirmed"
    with (
        said.open("wb") as file,
        subprocess.Popen([sys.executable, "-c", CHILD, str(folder)], stdout=file, stderr=subprocess.PIPE) as child,
    ):
        while not said.stat().st_size and child.poll() is None:
            time.sleep(0.005)  # until it has begun
        time.sleep(seconds)
        child.kill()
        _, trouble = child.communicate()
    lines = said.read_text(encoding="utf-8").splitlines(keepends=True)
    assert lines, trouble
    return [line for line in lines if line.endswith("\n")]


def rounds(folder: Path, number: int, seed: int) -> None:
    chance, confirmed = random.Random(seed), set[str]()
    for _ in range(number):
        confirmed |= {line.strip() for line in worked_until_killed(folder, chance.uniform(0.0, 0.15))}
        with Home(folder, MachineClock()).open() as home:
            found = home.records("J1") + home.records("_shop")
            assert confirmed <= {record.ref for record in found}
            for record in home.records("J1"):
                if "photo" in record.body:
                    home.attachment(record.body["photo"])
            home.append([Draft("J1", "finding", (), {})], "P2", home.heads("J1"))
            assert home.dev.endswith("~0"), f"a kill is no reason for a new incarnation: {home.troubles}"
    assert len(confirmed) > number


def test_twenty_kills_lose_nothing_that_was_confirmed(tmp_path: Path) -> None:
    rounds(tmp_path / "data", 20, 1)


@pytest.mark.faults
def test_two_hundred_kills_lose_nothing_that_was_confirmed(tmp_path: Path) -> None:
    for seed in range(10):
        rounds(tmp_path / f"data{seed}", 20, seed + 2)
