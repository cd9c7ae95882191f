"""Whether the operations of a part's route are over: done by somebody who began them and wrote down what is asked."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from teardown_app.domain.bill.bill import Operation, Route
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.kind import is_said
from teardown_app.domain.ledger.kinds.work import operation_facet, pass_of
from teardown_app.domain.ledger.record import Record

OVER = ("done", "skipped")


class Left(NamedTuple):
    """An operation that is not over: which one, and why it is not though it was recorded (empty: it was not)."""

    route: Route
    operation: Operation
    why: str = ""


def left_in(job: Job, part: str, route: Route) -> Iterator[Left]:
    """Operations of one of a part's routes that are not over, in order."""
    before: list[Entry] = []
    for operation in route.operations:
        heads = job.heads(part, operation_facet(route.name, operation.id, 1))
        why = _why_left(job, part, operation, heads, before)
        if why is not None:
            yield Left(route, operation, why)
        before += heads


def beginnings(job: Job, part: str, facet: str) -> list[Record]:
    """Records by which a pass of an operation was begun, whatever came after."""
    return [entry.record for entry in job.entries(part, facet) if entry.value == "started"]


def _why_left(job: Job, part: str, operation: Operation, heads: tuple[Entry, ...], before: list[Entry]) -> str | None:
    if not heads or any(head.value not in OVER for head in heads):
        return ""
    if any(not job.knowing.knew(head.record, one.record) for head in heads for one in before):
        return "recorded out of order"
    if any(head.value == "skipped" for head in heads):
        return None
    return next(filter(None, (_why_not_done(job, part, operation, head.record) for head in heads)), None)


def operation_of(job: Job, done: Record) -> Operation:
    """What the bill says of the operation that a record is of; one that asks nothing where it does not know it."""
    work = pass_of(done)
    route = job.bill.routes.get(work.route)
    known = (one for one in (route.operations if route else ()) if one.id == work.operation)
    return next(known, Operation(work.operation))


def is_done_by(job: Job, part: str, done: Record) -> bool:
    """Does a *done* of any pass count for one of the parts it is about?"""
    return not _why_not_done(job, part, operation_of(job, done), done)


def _why_not_done(job: Job, part: str, operation: Operation, done: Record) -> str:
    """Empty where a *done* counts: its author had seen it begun, or says when; and what is asked is written down."""
    facet = pass_of(done).facet
    begun = [one for one in beginnings(job, part, facet) if job.knowing.knew(done, one)]
    if operation.time and not begun and "began" not in done.body:
        return "done, and nobody said when it began"
    written = {name for one in (done, *begun) for name in written_down(one)}
    lacking = [name for name in operation.record if name not in written]
    return f"done without {', '.join(lacking)}" if lacking else ""


def written_down(record: Record) -> set[str]:
    """Names of what a record of an operation has written down."""
    return {name for name, said in record.body.get("values", {}).items() if is_said(said)}
