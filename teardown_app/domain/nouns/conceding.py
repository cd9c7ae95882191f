"""Concessions: an open point accepted by signature, as long as nothing behind it changes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.nouns.job import Job

NEVER_CHECKS = ("bonding", "insulation", "interlock", "emergency stop", "over-temperature")
"""Protective functions: a check of these types is never conceded."""


def point_key(kind: str, subject: str, which: str = "") -> str:
    """Name of an open point, the same on every tablet.

    >>> point_key("missing", "10.20")
    'missing|10.20|'
    """
    return f"{kind}|{subject}|{which}"


def refs(entries: Iterable[Entry]) -> tuple[str, ...]:
    """Names of the entries' records, each once, sorted."""
    return tuple(sorted({entry.record.ref for entry in entries}))


def is_conceded(job: Job, kind: str, subject: str, which: str, behind: Sequence[str]) -> bool:
    """True while a signed concession covers exactly what lies behind the point now."""
    if not job.speaks("concession"):
        return False
    keys = [point_key(kind, one, which) for one in job.group(subject)]
    entries = [entry for key in keys for entry in job.entries("point:" + key, "concession")]
    return any(tuple(entry.value["covers"]) == tuple(behind) for entry in entries)


def may_be_conceded(check: Check) -> bool:
    """False for checks of protective functions."""
    words = f"{check.type} {check.name} {check.says}".casefold().replace("-", " ").replace("_", " ")
    return not any(never.replace("-", " ") in words for never in NEVER_CHECKS)
