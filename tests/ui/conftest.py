"""A desk on the invented demo shop, and a hand at it. No window."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.ui.hands import Hand
from tests.ui.shop import DemoDesk, filled_desk


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
