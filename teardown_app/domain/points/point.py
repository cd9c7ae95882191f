"""One open point: a lack with its name, its gate, and whether somebody conceded it."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.domain.lacks.lack import Lack, ToDo, conceded
from teardown_app.domain.nouns.conceding import point_key
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import number_of

OPEN, CONCEDED = "open", "conceded"


class Point(NamedTuple):
    """What is wrong, where, what clears it, and the gate it stops.

    `behind` names the records that a concession has to have seen. `never` is true for points that no signature
    concedes.
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
    to_do: ToDo | None = None


def point_of(job: Job, lack: Lack) -> Point:
    """The point of a lack that stops a gate, with its state looked up."""
    where = lack.where
    return Point(
        key=point_key(lack.kind, where.subject, lack.which),
        kind=lack.kind,
        gate=lack.gate,
        position=where.position,
        part=where.part,
        tag=number_of(job, where.part) if where.part else "",
        wrong=lack.wrong,
        clears=lack.clears,
        state=CONCEDED if conceded(job, lack) else OPEN,
        behind=tuple(sorted({record.ref for record in lack.ground})),
        never=lack.never,
        to_do=lack.to_do,
    )
