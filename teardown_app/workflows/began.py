"""When work was begun that nobody recorded: a person says it as on a watch, the record holds the whole time."""

from __future__ import annotations

import re
from datetime import datetime, timedelta

from teardown_app.domain.ledger.times import is_time
from teardown_app.domain.parts.routing import Moment
from teardown_app.workflows.act import refuse

_SAID = re.compile(r"(?:(\d{4}-\d{2}-\d{2})[ T])?(\d{1,2})[:.](\d{2})", re.ASCII)
"""With a colon or, as on a pad without one, a point; the day before it, where it is not today."""

MINUTES_AGO = (15, 30, 60, 120)
"""Beginnings that are offered. Common practice, no source."""


def when_begun(said: str, now: Moment) -> str:
    """A time with its offset; empty where nothing is said. `10:30` is of today, and of the tablet's own zone.

    >>> now = Moment("t1~0", "2026-03-14T10:00:00+01:00", "ok")
    >>> when_begun("8:30", now), when_begun("2026-03-13 22.15", now)
    ('2026-03-14T08:30:00+01:00', '2026-03-13T22:15:00+01:00')
    """
    text = said.strip()
    if not text:
        return ""
    begun, clock = _told(text, now), datetime.fromisoformat(now.wall)
    if now.clk == "ok" and begun > clock:
        refuse(f"{text} is still to come.", f"Say when it was begun; of another day as {now.wall[:10]} 10.30.")
    return begun.isoformat(timespec="seconds")


def _told(text: str, now: Moment) -> datetime:
    """The time that is meant, in the tablet's own zone where none is said."""
    of_day, whole = _SAID.fullmatch(text), text if is_time(text) else ""
    if of_day:
        whole = f"{of_day[1] or now.wall[:10]} {int(of_day[2]):02}:{of_day[3]}"
    try:
        begun = datetime.fromisoformat(whole)
    except ValueError:
        refuse(f"{text} is no time.", f"Write it as 10.30, or with the day as {now.wall[:10]} 10.30.")
    return begun if begun.tzinfo else begun.replace(tzinfo=datetime.fromisoformat(now.wall).tzinfo)


def offered_beginnings(now: Moment) -> tuple[str, ...]:
    """Times of today to choose from, the latest first; none where the clock is not right.

    >>> offered_beginnings(Moment("t1~0", "2026-03-14T01:10:40+01:00", "ok"))
    ('00.55', '00.40', '00.10')
    """
    if now.clk != "ok":
        return ()
    clock = datetime.fromisoformat(now.wall)
    begun = (clock - timedelta(minutes=minutes) for minutes in MINUTES_AGO)
    return tuple(f"{one:%H.%M}" for one in begun if one.date() == clock.date())
