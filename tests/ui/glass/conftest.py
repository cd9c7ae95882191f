"""Tests on the glass run file by file, each in a process of its own for each tablet (`tests/ui/test_tablets.py`)."""

from __future__ import annotations

import os
import sys
import traceback
from collections.abc import Iterator
from pathlib import Path

import pytest

collect_ignore_glob = [] if "TEARDOWN_TABLET" in os.environ else ["test_*.py"]

if "TEARDOWN_TABLET" in os.environ:
    from tests.ui.profiles import before_kivy

    before_kivy()


@pytest.fixture
def stage(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[object]:
    """The app on the demo shop, open on this tablet, with the stage's clock."""
    from teardown_app.ui import aiming, app, looking, visits
    from tests.ui.shop import filled_desk
    from tests.ui.stage import Stage

    made = Stage(filled_desk(tmp_path / "home"))
    monkeypatch.setattr(app, "monotonic", made.clock)
    monkeypatch.setattr(looking, "monotonic", made.clock)
    made.desk.watching.visits, made.desk.watching.aim = visits.Visits(made.clock), aiming.Aim(made.clock)
    made.open()
    yield made
    made.close()


@pytest.fixture
def hand(stage: object) -> object:
    """A person's hand on that stage."""
    from tests.ui.glass_hand import GlassHand

    return GlassHand(stage.desk, stage)  # type: ignore[attr-defined]


def pytest_exception_interact(node: object, call: pytest.CallInfo[object]) -> None:
    """Kivy takes the error channel; what went wrong is told on the other one."""
    if call.excinfo is not None:
        print("".join(traceback.format_exception(call.excinfo.value))[-3000:], file=sys.__stdout__)
