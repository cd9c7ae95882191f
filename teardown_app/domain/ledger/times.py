"""Days and times as records hold them: what is written in another way is no day and no time."""

from __future__ import annotations

import re
from datetime import date, datetime

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
_TIME = re.compile(r"\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?([+-]\d{2}:\d{2}|Z)", re.ASCII)


def is_day(text: str) -> bool:
    """Is it a day of the calendar?

    >>> [is_day(each) for each in ("2031-06-30", "31.12.2020", "never", "2031-02-30", "20310630", "")]
    [True, False, False, False, False, False]
    """
    try:
        return bool(_DAY.fullmatch(text)) and bool(date.fromisoformat(text))
    except ValueError:
        return False


def is_time(text: str) -> bool:
    """Is it a time of day on a day, with its offset?

    >>> [is_time(each) for each in ("2026-03-14T08:00:00+01:00", "2026-03-14 08:00", "2026-03-14T25:00:00+01:00", "-")]
    [True, False, False, False]
    """
    try:
        return bool(_TIME.fullmatch(text)) and datetime.fromisoformat(text).tzinfo is not None
    except ValueError:
        return False
