"""Which clock can be believed."""

from __future__ import annotations

from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.records.clock import Anchor, Clock, MachineClock, TrialClock, source_of, state
from teardown_app.records.hlc import LogicalTime, following
from teardown_app.records.trouble import ClockError

START = datetime.fromisoformat("2026-03-14T09:30:00+01:00")


def recorded_at(source: TrialClock) -> Clock:
    clock = Clock(source)
    clock.recorded(clock.now())
    return clock


def test_a_clock_whose_wall_and_steady_time_agree_is_ok() -> None:
    source = TrialClock(START)
    clock = recorded_at(source)
    source.pass_time(3 * 86_400)
    moment = clock.now()
    assert (moment.clk, moment.wall, moment.trial) == ("ok", "2026-03-17T09:30:00+01:00", True)


@pytest.mark.parametrize("by", [-86_400, -600, 600, 86_400])
def test_a_wall_clock_put_to_another_time_has_jumped_until_it_is_right_again(by: int) -> None:
    """It stays so over further records, and the judgement goes back to the last one believed."""
    source = TrialClock(START)
    clock = recorded_at(source)
    source.set_wall(START.timestamp() + by)
    for _ in range(3):
        source.pass_time(60)
        moment = clock.now()
        assert moment.clk == "jumped"
        clock.recorded(moment)
    source.set_wall(source.wall.timestamp() - by)
    assert clock.now().clk == "ok"


def test_a_person_can_confirm_a_clock_that_jumped() -> None:
    source = TrialClock(START)
    clock = recorded_at(source)
    source.set_wall(START.timestamp() + 86_400)
    clock.confirm()
    assert clock.now().clk == "ok"


def test_a_clock_before_2024_was_never_set() -> None:
    source = TrialClock(datetime.fromisoformat("1970-01-01T00:02:00+00:00"))
    clock = Clock(source)
    clock.recorded(clock.now())
    assert clock.now().clk == "unset" and clock.anchor is None
    source.set_wall(START.timestamp())
    assert clock.now().clk == "ok"


def test_after_a_restart_of_the_machine_only_going_back_is_certain() -> None:
    reading = TrialClock(START, steady=5.0, boot="second").read()
    before = reading.ms - 60_000_000
    assert state(reading, Anchor(before, 9_999.0, "first")) == "ok"
    assert state(reading, Anchor(reading.ms + 600_000, 9_999.0, "first")) == "jumped"
    assert state(reading, Anchor(before, 9_999.0, "first", jumped=True)) == "jumped"


def test_over_a_restart_of_the_app_the_machines_boot_mark_keeps_the_judgement() -> None:
    reading = TrialClock(START, steady=100.0, boot="b").read()
    assert state(reading, Anchor(reading.ms - 90_000, 10.0, "b")) == "ok"
    assert state(reading, Anchor(reading.ms - 9_000_000, 10.0, "b")) == "jumped"


def test_small_steps_of_network_time_are_no_jump() -> None:
    source = TrialClock(START)
    clock = recorded_at(source)
    source.set_wall(START.timestamp() + 20)
    assert clock.now().clk == "ok"


def test_both_clocks_can_be_handed_in() -> None:
    reading = source_of({"TEARDOWN_CLOCK": "2026-03-14T09:30:00+01:00;5400.5"}).read()
    assert (reading.wall, reading.steady) == ("2026-03-14T09:30:00+01:00", 5400.5)
    alone = source_of({"TEARDOWN_CLOCK": "2026-03-14T09:30:00+01:00"}).read()
    assert alone.ms == int(START.timestamp() * 1000) == int(alone.steady * 1000)
    assert isinstance(source_of({}), MachineClock)


@pytest.mark.parametrize("text", ["yesterday", "2026-03-14T09:30:00", "2026-03-14T09:30:00+01:00;soon", "2026-02-30"])
def test_a_clock_that_cannot_be_read_is_refused_with_the_right_form(text: str) -> None:
    with pytest.raises(ClockError, match=r"\+01:00"):
        source_of({"TEARDOWN_CLOCK": text})


def test_the_machines_own_clocks_say_no_trial_and_go_forward() -> None:
    clock = Clock(MachineClock())
    first, second = clock.now(), clock.now()
    assert first.clk == "ok" and not first.trial and second.steady >= first.steady
    assert datetime.fromisoformat(first.wall).tzinfo is not None


@given(st.lists(st.integers(0, 2**48 - 1) | st.from_regex(r"[0-9a-f]{12}-[0-9a-f]{4}", fullmatch=True)))
def test_logical_time_only_goes_forward_and_sorts_as_text(steps: list[int | str]) -> None:
    """Own ticks under any wall clock, mixed with whatever others wrote."""
    time, last = LogicalTime(), ""
    for step in steps:
        if isinstance(step, str):
            time.take(step)
            last = max(last, step)
            continue
        now = time.tick(step)
        assert len(now) == 17
        assert now > last or last == "ffffffffffff-ffff"
        last = now


def test_the_counter_carries_into_the_milliseconds() -> None:
    assert following("00000000000f-ffff") == "000000000010-0000"
    assert following("ffffffffffff-ffff") == "ffffffffffff-ffff"
