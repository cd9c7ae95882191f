"""What stands against work on a part: an operation of its route begun or brought to its end."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.against.leaving import against_leaving
from teardown_app.domain.against.release import against_going_on
from teardown_app.domain.bill.bill import Operation
from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.finding import waiting_lacks
from teardown_app.domain.lacks.hold import part_holds
from teardown_app.domain.lacks.lack import HARMS, Lack, ToDo, lack, of_part, standing
from teardown_app.domain.lacks.release import wait_lacks
from teardown_app.domain.parts.naming import part_named
from teardown_app.domain.parts.parts import own_place
from teardown_app.domain.parts.routing import IRREVERSIBLE, Moment


def against_work(
    job: Job, part: str, operation: Operation, now: Moment, materials: Materials | None = None
) -> Iterator[Lack]:
    """What stands against an operation on a part at a moment; what harms its material where the table is given."""
    yield from against_leaving(job, part)
    yield from against_going_on(job, part)
    yield from standing(job, part_holds(job, part))
    if is_irreversible(operation):
        for one in standing(job, waiting_lacks(job, part)):
            yield one._replace(wrong=f"{operation.id} cannot be taken back. {one.wrong}")
    yield from wait_lacks(job, part, now)
    if materials is not None:
        yield from _harm(job, part, operation, materials)


def is_irreversible(operation: Operation) -> bool:
    """True for trades whose work cannot be taken back."""
    words = operation.trade.casefold().split()
    return any(trade in words for trade in IRREVERSIBLE)


def _harm(job: Job, part: str, operation: Operation, materials: Materials) -> Iterator[Lack]:
    position = job.positions.get(own_place(job, part))
    material = position.line.material if position else ""
    harm = materials.harm(operation, material) if material else ""
    if harm:
        to_do = ToDo("part skip", part, (("operation", operation.id),))
        wrong = f"{part_named(job, part)} is of {material}: {harm}."
        clears = f"Do not do {operation.id} on it: skip it by name."
        yield lack(HARMS, of_part(job, part), wrong, clears=clears, to_do=to_do)
