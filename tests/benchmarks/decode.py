"""Readers of labels side by side on photographs drawn by program; writes `docs/readers.md`.

Long; how long on idle cores was not measured.
"""

from __future__ import annotations

import os
import platform
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from tests.benchmarks import _label_hands, _label_report
from tests.benchmarks._label_count import Counts, count, pooled
from tests.benchmarks._label_pictures import tasks
from tests.benchmarks._label_readers import both, versions

MODERATE_EACH = 100
PLAN_EVERY = 4
PROCESSES = 1
CHUNKS = 59
PAGE = Path(__file__).resolve().parents[2] / "docs" / "readers.md"


def long() -> None:
    """Counts, prints the page and writes it."""
    both()
    counts = measure(MODERATE_EACH, PLAN_EVERY)
    page = _label_report.page(counts, _label_hands.measure(), versions(), machine())
    print(page, flush=True)
    PAGE.write_text(page, encoding="utf-8")


def measure(moderate_each: int, plan_every: int) -> Counts:
    """Counts of every group, drawn and read in a process of its own."""
    everything = tasks(moderate_each, plan_every)
    with ProcessPoolExecutor(PROCESSES) as processes:
        return pooled(processes.map(count, [everything[n::CHUNKS] for n in range(CHUNKS)]))


def machine() -> str:
    """The class of machine: what matters for times."""
    return f"{os.cpu_count()} cores, {platform.machine()}, {platform.system()}, Python {platform.python_version()}"
