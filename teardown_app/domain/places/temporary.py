"""Questions about what is in the tool only for a time: whether it is in, and how it ships."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job


def ships(position: Position) -> str:
    """`in` or `out` for shipping; in where the bill says nothing."""
    return position.line.ships or "in"


def state_of(job: Job, thing: str) -> str:
    """`in`, `out`, or empty while nobody has said or two tablets differ."""
    return str(job.value(thing, "temporary") or "")


def was_out(job: Job, thing: str) -> bool:
    """True when it was out once before it was put in again."""
    heads = job.heads(thing, "temporary")
    outs = [entry for entry in job.entries(thing, "temporary") if entry.value == "out"]
    return any(job.knowing.knew(head.record, one.record) for head in heads for one in outs)
