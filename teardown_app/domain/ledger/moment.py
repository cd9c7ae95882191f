"""Times as they are written down: with their offset from UTC, so that tablets of two zones mean the same."""

from __future__ import annotations

import re
from datetime import datetime

_WRITTEN = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,6})?)?(Z|[+-]\d\d:\d\d)", re.ASCII)


def is_time(text: str) -> bool:
    """True for a time with its offset.

    >>> is_time("2026-03-14T08:00:00+01:00"), is_time("2026-03-14T08:00:00"), is_time("2026-02-30T08:00:00Z")
    (True, False, False)
    """
    if not _WRITTEN.fullmatch(text):
        return False
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return True
