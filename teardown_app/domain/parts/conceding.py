"""Concessions: an open point accepted by signature, as long as its author had seen all that lies behind it."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from teardown_app.domain.bill.check import Check
from teardown_app.domain.job.ground import stands_on
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.claiming import claims_of
from teardown_app.domain.parts.filling import counts_for_unit
from teardown_app.domain.parts.parts import is_part
from teardown_app.domain.parts.seat import line_names

Ground = Callable[[], Iterable[Record]]
"""Records that a concession has to have seen, listed when somebody asks: of most lacks nobody ever does."""


def point_key(kind: str, subject: str, which: str = "") -> str:
    """Name of an open point, the same on every tablet.

    >>> point_key("missing", "10.20")
    'missing|10.20|'
    """
    return f"{kind}|{subject}|{which}"


def concessions(job: Job, kind: str, subject: str, which: str) -> list[Entry]:
    """Concessions of a point, under any name of what it is about."""
    if not job.speaks("concession"):
        return []
    keys = [point_key(kind, one, other) for one in job.group(subject) for other in job.group(which)]
    return [entry for key in keys for entry in job.entries("point:" + key, "concession")]


def ground_of(job: Job, subject: str, ground: Iterable[Record]) -> list[Record]:
    """All that a concession has to have seen: of a point about a place also the claims of that place."""
    return [*ground, *(claims_of(job, subject) if subject in job.positions else ())]


def is_conceded(job: Job, kind: str, subject: str, which: str, ground: Ground, thing: str = "") -> bool:
    """True while a concession of a point stands."""
    return bool(standing_concessions(job, kind, subject, which, ground, thing))


def standing_concessions(job: Job, kind: str, subject: str, which: str, ground: Ground, thing: str = "") -> list[Entry]:
    """Concessions of a point whose authors had seen all on its ground; of a point about a part (`subject`) only those
    that name the lines of the part's seat, of one about a place those that count for the unit it lies in."""
    found = concessions(job, kind, subject, which)
    if not found:
        return []
    whole = ground_of(job, subject, ground())
    if is_part(job, subject):
        names = line_names(job, subject)
        found = [entry for entry in found if list(entry.value.get("lines", ())) == names]
    elif subject in job.positions:
        found = [entry for entry in found if counts_for_unit(job, entry.record, subject)]
    return [entry for entry in found if stands_on(job, entry.record, whole, thing)]


def may_be_conceded(check: Check) -> bool:
    """False for checks of protective functions."""
    return not check.is_protective
