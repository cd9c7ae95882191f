"""When work was begun that nobody recorded: a person says it as on a watch, the record holds the whole time."""

from __future__ import annotations

import re
from datetime import datetime

from teardown_app.domain.parts.routing import Moment
from teardown_app.workflows.act import refuse

_OF_DAY = re.compile(r"(\d{1,2}):(\d{2})")
_LEAST = len("2026-03-14 10:30")


def when_begun(said: str, now: Moment) -> str:
    """A time with its offset; empty where nothing is said. `10:30` is of today, and of the tablet's own zone.

    >>> when_begun("8:30", Moment("t1~0", "2026-03-14T10:00:00+01:00", "ok"))
    '2026-03-14T08:30:00+01:00'
    """
    text = said.strip()
    if not text:
        return ""
    clock, of_day = datetime.fromisoformat(now.wall), _OF_DAY.fullmatch(text)
    whole = f"{now.wall[:10]} {int(of_day[1]):02}:{of_day[2]}" if of_day else text
    try:
        begun = datetime.fromisoformat(whole if len(whole) >= _LEAST else "")
    except ValueError:
        refuse(f"{text} is no time.", "Write it as 10:30, or as 2026-03-14 10:30.")
    begun = begun if begun.tzinfo else begun.replace(tzinfo=clock.tzinfo)
    if now.clk == "ok" and begun > clock:
        refuse(f"{text} is still to come.", "Say when it was begun; of another day with the day, as 2026-03-14 10:30.")
    return begun.isoformat(timespec="seconds")
