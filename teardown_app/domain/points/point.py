"""One open point."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from teardown_app.domain.bill.gate import CLOSED_UP
from teardown_app.domain.nouns.conceding import is_conceded, point_key
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import number_of

OPEN, CONCEDED = "open", "conceded"


class Point(NamedTuple):
    """What is wrong, where, what clears it, and the gate it stops.

    `behind` names the records it rests on: a concession covers exactly these. `never` is true for
    points that no signature concedes.
    """

    key: str
    kind: str
    gate: str
    position: str
    part: str
    tag: str
    wrong: str
    clears: str
    state: str
    behind: tuple[str, ...]
    never: bool


class Where(NamedTuple):
    """What a point is about: a place, a part, or both; `subject` names it in the key."""

    subject: str
    position: str = ""
    part: str = ""


def point(
    job: Job,
    kind: str,
    where: Where,
    *,
    wrong: str,
    clears: str,
    behind: Sequence[str] = (),
    which: str = "",
    gate: str = CLOSED_UP,
    never: bool = False,
) -> Point:
    """A point with its state looked up."""
    conceded = not never and is_conceded(job, kind, where.subject, which, behind)
    return Point(
        key=point_key(kind, where.subject, which),
        kind=kind,
        gate=gate,
        position=where.position,
        part=where.part,
        tag=number_of(job, where.part) if where.part else "",
        wrong=wrong,
        clears=clears,
        state=CONCEDED if conceded else OPEN,
        behind=tuple(behind),
        never=never,
    )


def at_place(key: str, part: str = "") -> Where:
    """About a place, and the part in it if there is one."""
    return Where(key, key, part)


def about_part(part: str, position: str = "") -> Where:
    """About a part, and the place it came from or sits in."""
    return Where(part, position, part)
