"""How what is done for one record grows with the job, counted in calls, not in time: the exponents asked of it."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from math import log10
from types import FrameType

import pytest

from tests.benchmarks import _growth_jobs
from tests.benchmarks.growth import WAYS, Way

TOO_LARGE = ("scan, records",)
"""Ways whose small size is too large to be built in every test run; `python -m tests.benchmarks growth` has them."""


class Steps:
    """Counts calls between a first question and a second one, as a clock counts time."""

    def __init__(self) -> None:
        self.counted = 0
        self._counts = False

    def __call__(self) -> float:
        self._counts = not self._counts
        sys.setprofile(self._count if self._counts else None)
        return float(self.counted)

    def _count(self, frame: FrameType, event: str, arg: object) -> None:
        self.counted += event in ("call", "c_call")


@pytest.fixture(autouse=True)
def nothing_counts_afterwards() -> Iterator[None]:
    """Also where something went wrong between the two questions."""
    yield
    sys.setprofile(None)


@pytest.mark.parametrize("way", [way for way in WAYS if way.name not in TOO_LARGE], ids=lambda way: way.name)
def test_it_grows_no_more_than_asked(way: Way, monkeypatch: pytest.MonkeyPatch) -> None:
    """The exponent between two sizes, one ten times the other."""
    monkeypatch.setattr(_growth_jobs, "process_time", Steps())
    monkeypatch.setattr(_growth_jobs, "SCANS", 5)
    monkeypatch.setattr(_growth_jobs, "LONGEST_S", float("inf"))
    small, large = way.sizes
    grows = log10(way.seconds(large) / way.seconds(small)) / log10(large / small)
    assert grows <= way.wanted
