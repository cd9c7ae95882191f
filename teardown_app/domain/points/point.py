"""One open point: a lack with its name, its gate, and whether somebody conceded it."""

from __future__ import annotations

from attrs import field, frozen

from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import Lack, ToDo, conceded
from teardown_app.domain.lacks.lapsed import why_lapsed
from teardown_app.domain.parts.conceding import Ground, point_key
from teardown_app.domain.parts.parts import number_of

OPEN, CONCEDED = "open", "conceded"


@frozen
class Point:
    """What is wrong, where, what clears it, and the gate it stops.

    `ground` gives the records that a concession has to have seen. `never` is true for points that no signature
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
    never: bool
    to_do: ToDo | None = None
    right: str = ""
    """The right that accepts it, of what is *to be accepted*."""
    ground: Ground = field(default=tuple, eq=False, repr=False)

    @property
    def behind(self) -> tuple[str, ...]:
        """Names of the records that a concession has to have seen, sorted."""
        return tuple(sorted({record.ref for record in self.ground()}))


def point_of(job: Job, lack: Lack) -> Point:
    """The point of a lack that stops a gate, with its state looked up."""
    where, is_conceded = lack.where, conceded(job, lack)
    return Point(
        key=point_key(lack.kind, where.subject, lack.which),
        kind=lack.kind,
        gate=lack.gate,
        position=where.position,
        part=where.part,
        tag=number_of(job, where.part) if where.part else "",
        wrong=lack.wrong if is_conceded else why_lapsed(job, lack) + lack.wrong,
        clears=lack.clears,
        state=CONCEDED if is_conceded else OPEN,
        never=lack.never,
        to_do=lack.to_do,
        right=lack.right,
        ground=lack.ground,
    )
