"""A desk on the invented demo shop, and a hand at it. No window, and no hurry."""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

import pytest

from teardown_app.intake import still_codes
from teardown_app.ui import label_reader, under_the_mark
from tests.ui.hands import Hand
from tests.ui.shop import DemoDesk, filled_desk


@pytest.fixture(autouse=True)
def no_hurry(monkeypatch: pytest.MonkeyPatch) -> None:
    """A comparison takes as long as it takes; that it ends in time is shown in tests/labels/test_comparison.py."""
    monkeypatch.setattr(under_the_mark, "FRAME_DEADLINE_S", math.inf)
    monkeypatch.setattr(label_reader, "FILE_DEADLINE_S", math.inf)
    monkeypatch.setattr(still_codes, "DEADLINE_S", math.inf)


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[DemoDesk]:
    """A desk on the demo shop."""
    made = filled_desk(tmp_path / "home")
    yield made
    made.slow.close()


@pytest.fixture
def hand(desk: DemoDesk) -> Hand:
    """A hand at it."""
    return Hand(desk)
