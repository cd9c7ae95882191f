"""The flag *jumped* of a tablet's clock: what sets it, that it outlives restarts, and what clears it.

As `records/clock.py` says: it stays so until the wall is right again or a person has confirmed it; over a start of the
machine nobody can tell whether the wall is right, so there the flag decides.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import Draft
from teardown_app.records.clock import TrialClock
from teardown_app.records.home import Home

START = datetime.fromisoformat("2026-03-14T09:30:00+01:00")


class Tablet:
    """A tablet that is switched off and on, and whose wall clock somebody sets."""

    def __init__(self, path: Path) -> None:
        self._path, self._boots, self._wall = path, 0, START
        self.switch_on()

    def switch_on(self) -> None:
        """The machine starts: its steady time begins at nothing, its wall goes on."""
        self._boots += 1
        self.clock = TrialClock(self._wall, steady=0.0, boot=f"boot {self._boots}")
        self.start()

    def start(self) -> None:
        """The app starts."""
        self.home = Home(self._path, self.clock).open()

    def close(self) -> None:
        """The app is closed."""
        self.home.close()
        self._wall = self.clock.wall

    def off_for(self, hours: float) -> None:
        """Closed and switched off, then on again."""
        self.close()
        self._wall += timedelta(hours=hours)
        self.switch_on()

    def set_wall(self, hours: float) -> None:
        """Somebody sets the wall clock on, or back."""
        self.clock.set_wall(self.clock.wall.timestamp() + 3600 * hours)

    def record(self) -> str:
        """A record is made a minute later; the state of the clock that it carries."""
        self.clock.pass_time(60)
        return self.home.append([Draft("J1", "put", (), {})], "P1", {})[0].clk


@pytest.fixture
def tablet(tmp_path: Path) -> Tablet:
    """A tablet that recorded once under a good clock."""
    made = Tablet(tmp_path / "data")
    assert made.record() == "ok"
    return made


def test_a_clock_that_never_jumped_is_ok_after_the_machine_was_off(tablet: Tablet) -> None:
    """Without this the tests below would say nothing."""
    tablet.off_for(hours=30)
    assert tablet.record() == "ok"


@pytest.mark.parametrize("hours", [24, -24])
def test_the_flag_is_set_by_a_record_and_kept_over_every_restart(tablet: Tablet, hours: int) -> None:
    """Of the app and of the machine, however often, also when the wall stands after the last record again."""
    tablet.set_wall(hours)
    assert tablet.record() == "jumped"
    tablet.close()
    tablet.start()
    assert tablet.record() == "jumped"
    for _ in range(3):
        tablet.off_for(hours=48)
        assert tablet.record() == "jumped"


def test_a_jump_under_which_nothing_was_recorded_is_forgotten(tablet: Tablet) -> None:
    """Looking at the clock changes nothing; set on and back again between two records it is as if it never was."""
    tablet.set_wall(24)
    assert tablet.home.clock.now().clk == "jumped"
    tablet.set_wall(-24)
    assert tablet.record() == "ok"
    tablet.off_for(hours=1)
    assert tablet.record() == "ok"


def test_the_flag_is_cleared_by_a_record_under_a_wall_that_is_right_again(tablet: Tablet) -> None:
    """And it stays cleared when the machine starts anew."""
    tablet.set_wall(24)
    assert tablet.record() == "jumped"
    tablet.set_wall(-24)
    assert tablet.record() == "ok"
    tablet.off_for(hours=1)
    assert tablet.record() == "ok"


def test_the_flag_is_cleared_by_a_person_who_looked(tablet: Tablet) -> None:
    """From then on the wall as it stands is what is believed, also over a start of the machine."""
    tablet.set_wall(24)
    assert tablet.record() == "jumped"
    tablet.home.clock.confirm()
    assert tablet.record() == "ok"
    tablet.off_for(hours=1)
    assert tablet.record() == "ok"


def test_after_a_restart_only_a_person_clears_it(tablet: Tablet) -> None:
    """Nothing else can tell that the wall is right: it was off for an unknown time."""
    tablet.set_wall(24)
    assert tablet.record() == "jumped"
    tablet.off_for(hours=1)
    tablet.set_wall(-24)
    assert tablet.record() == "jumped"
    tablet.home.clock.confirm()
    assert tablet.record() == "ok"


def test_a_clock_that_was_never_set_clears_nothing(tablet: Tablet) -> None:
    """Its battery was empty: the flag is there when the wall is set."""
    tablet.set_wall(24)
    assert tablet.record() == "jumped"
    tablet.off_for(hours=-24 * 365 * 50)
    assert tablet.record() == "unset"
    tablet.home.clock.confirm()
    assert tablet.record() == "unset"
    tablet.off_for(hours=24 * 365 * 50 + 100)
    assert tablet.record() == "jumped"
