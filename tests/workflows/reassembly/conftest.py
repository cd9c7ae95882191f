"""A bench with the pump's job open."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.workflows.reassembly.bench import Bench
from tests.workflows.reassembly.pump import PUMP


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Bench:
    """One tablet, four people, the job PO-7781 of the pump."""
    made = Bench(tmp_path / "tablet", monkeypatch, capsys)
    made.people()
    made.job(PUMP)
    return made


@pytest.fixture
def second(bench: Bench, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Bench:
    """Another tablet, to which what the first one recorded is carried when a test says so."""
    return Bench(tmp_path / "second", monkeypatch, capsys)
