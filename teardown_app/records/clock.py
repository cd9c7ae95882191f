"""The tablet's clock: wall time, steady time and whether the two can be believed.

`ok`: wall and steady time since the last record agree. `jumped`: they do not, or the wall clock
stands before the last record; it stays so until the wall is right again or a person with the right
has confirmed it. `unset`: the wall stands before 2024. Nothing here decides an order.

For trials both clocks are handed in together in `TEARDOWN_CLOCK`:

    TEARDOWN_CLOCK=2026-03-14T09:30:00+01:00            wall; the steady clock agrees with it
    TEARDOWN_CLOCK=2026-03-14T09:30:00+01:00;5400.5     wall and steady seconds, handed in apart

Both stand still while the command runs. Records made so say `trial`.
"""

from __future__ import annotations

import time
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple, Protocol

from teardown_app.records.trouble import ClockError

VARIABLE = "TEARDOWN_CLOCK"
FIRST_YEAR_MS = 1_704_067_200_000
"""2024-01-01T00:00:00Z; a clock before it was never set (the app is younger)."""
TOLERANCE_S = 60.0
"""Disagreement of wall and steady that is no jump: network time steps. Common practice, no source."""
CENTURY_S = 3_155_760_000
DRIFT = 0.001
"""Further disagreement a second: 0.1 %, far above a quartz clock's. Common practice, no source."""

_BOOT_ID = Path("/proc/sys/kernel/random/boot_id")


class Reading(NamedTuple):
    """Both clocks at one moment."""

    ms: int
    """Wall clock, milliseconds since 1970 in UTC."""
    steady: float
    """Seconds that only ever go forward while the machine is on, sleep included."""
    boot: str
    """Mark of this start of the machine; empty where the system offers none."""
    wall: str
    """Wall clock as written: ISO 8601 with offset, to the second."""


class Moment(NamedTuple):
    """What goes into a record."""

    reading: Reading
    clk: str
    trial: bool

    @property
    def wall(self) -> str:
        return self.reading.wall

    @property
    def steady(self) -> float:
        return self.reading.steady


class Anchor(NamedTuple):
    """The last reading that was believed, and whether the clock has jumped since."""

    ms: int
    steady: float
    boot: str
    jumped: bool = False


class Source(Protocol):
    """Where the two clocks come from."""

    trial: bool

    def read(self) -> Reading:
        """Both clocks now."""
        ...


class MachineClock:
    """The machine's own clocks."""

    trial = False

    def __init__(self) -> None:
        self._boot = _boot_mark()
        self._second, self._text = -1, ""

    def read(self) -> Reading:
        ms = time.time_ns() // 1_000_000
        if ms // 1000 != self._second:  # written to the second, so worked out once a second
            self._second, self._text = ms // 1000, _iso(ms // 1000)
        return Reading(ms, _steady(), self._boot, self._text)


class TrialClock:
    """Both clocks handed in; they move only when told to."""

    trial = True

    def __init__(self, wall: datetime, steady: float | None = None, boot: str = "trial") -> None:
        if wall.tzinfo is None:
            raise ClockError(f"The clock {wall.isoformat()} has no offset; write it as {wall.isoformat()}+01:00.")
        self.wall = wall
        self.seconds = wall.timestamp() if steady is None else steady
        self.boot = boot

    def read(self) -> Reading:
        return Reading(
            int(self.wall.timestamp() * 1000),
            self.seconds,
            self.boot,
            self.wall.isoformat(timespec="seconds"),
        )

    def pass_time(self, seconds: float) -> None:
        """Let both clocks go on."""
        self.set_wall(self.wall.timestamp() + seconds)
        self.seconds += seconds

    def set_wall(self, timestamp: float) -> None:
        """Put the wall clock to another time; the steady clock stays."""
        self.wall = datetime.fromtimestamp(timestamp, self.wall.tzinfo)


class Clock:
    """Judges a source's readings against the last one that was believed."""

    def __init__(self, source: Source, anchor: Anchor | None = None) -> None:
        self.source = source
        self.anchor = anchor

    def now(self) -> Moment:
        """Both clocks now and their state; changes nothing."""
        reading = self.source.read()
        return Moment(reading, state(reading, self.anchor), self.source.trial)

    def recorded(self, moment: Moment) -> None:
        """A record was made at this moment: an `ok` one is what the next is judged against."""
        if moment.clk == "ok":
            self.confirm(moment)
        elif self.anchor and moment.clk == "jumped":
            self.anchor = self.anchor._replace(jumped=True)

    def confirm(self, moment: Moment | None = None) -> None:
        """A person has looked and the wall clock is right."""
        reading = (moment or self.now()).reading
        if reading.ms >= FIRST_YEAR_MS:
            self.anchor = Anchor(reading.ms, reading.steady, reading.boot)


def state(reading: Reading, anchor: Anchor | None) -> str:
    """`ok`, `unset` or `jumped`."""
    if reading.ms < FIRST_YEAR_MS:
        return "unset"
    if anchor is None:
        return "ok"
    wall_s = (reading.ms - anchor.ms) / 1000
    if reading.boot and reading.boot == anchor.boot:
        steady_s = reading.steady - anchor.steady
        return "jumped" if abs(wall_s - steady_s) > TOLERANCE_S + DRIFT * abs(steady_s) else "ok"
    # The machine was off for an unknown time: the wall cannot have gone back, no more is known.
    return "jumped" if anchor.jumped or wall_s < -TOLERANCE_S else "ok"


def source_of(environment: Mapping[str, str]) -> Source:
    """The machine's clocks, or the handed-in ones of `TEARDOWN_CLOCK`. Raises `ClockError`."""
    text = environment.get(VARIABLE, "")
    if not text:
        return MachineClock()
    wall, _, steady = text.partition(";")
    try:
        return TrialClock(datetime.fromisoformat(wall.strip()), _seconds(steady) if steady else None)
    except (ValueError, OverflowError) as fault:
        raise ClockError(
            f"{VARIABLE}={text!r} cannot be read ({fault}). Write it as 2026-03-14T09:30:00+01:00 or "
            "2026-03-14T09:30:00+01:00;5400 (wall clock; steady seconds)."
        ) from fault


def _seconds(text: str) -> float:
    """Steady seconds: 0 or more, and not more than a century."""
    seconds = float(text)
    if not 0 <= seconds <= CENTURY_S:
        raise ValueError(f"steady seconds {text} are not between 0 and {CENTURY_S}")
    return seconds


def _iso(timestamp: int) -> str:
    return datetime.fromtimestamp(timestamp, UTC).astimezone().isoformat(timespec="seconds")


def _steady() -> float:
    boot_time = getattr(time, "CLOCK_BOOTTIME", None)  # counts sleep too; Linux and Android
    return time.monotonic() if boot_time is None else time.clock_gettime(boot_time)


def steady_now() -> tuple[float, str]:
    """Seconds that only go forward, whatever the wall clock is set to, and the mark of this start of the machine."""
    return _steady(), _boot_mark()


def _boot_mark() -> str:
    try:
        return _BOOT_ID.read_text("ascii").strip()
    except (OSError, UnicodeDecodeError):
        return ""
