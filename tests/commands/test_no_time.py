"""A journal in which somebody wrote a record at no time: every list and page is shown all the same."""

from __future__ import annotations

from pathlib import Path

import pytest

from teardown_app.records.clock import Moment
from tests.workflows.reassembly.bench import Bench
from tests.workflows.reassembly.pump import PUMP

PAGES = ("job list", "job show PO-7781", "job log PO-7781", "job places PO-7781", "part list PO-7781",
         "part show PO-7781 10.20", "job next PO-7781", "shop people")  # fmt: skip


@pytest.mark.parametrize("wall", ["yesterday", "2026-03-14T08:00:00", ""])
def test_it_is_one_point_and_stops_no_page(
    wall: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    bench = Bench(tmp_path / "tablet", monkeypatch, capsys)
    bench.people()
    bench.job(PUMP)
    (part,) = bench.off("10.20")
    with monkeypatch.context() as clock:
        clock.setattr(Moment, "wall", wall)
        done = {"route": "wash", "pass": 1, "values": {"bath": "B2", "time": "15 min"}}
        for operation in ("degrease", "polish", "dry"):
            bench.write("operation.done", part, operation=operation, **done)
        bench.write("part.noted", part, by="MK", condition="good")
    assert bench.points("record kept that does not fit") == ["", "", "", ""]
    for page in PAGES:
        bench.do(page)
