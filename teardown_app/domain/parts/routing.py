"""The route of a part: which operations it needs, which are over, what comes next, which waits run."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import NamedTuple

from teardown_app.domain.bill.bill import Operation, Route
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.work import operation_facet
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.operations import OVER, Left, left_in
from teardown_app.domain.parts.parts import AS_RECEIVED, is_new, origin_of
from teardown_app.domain.parts.seat import lines_of

IRREVERSIBLE = ("straighten", "weld", "machine", "electropolish")
"""Trades whose work cannot be taken back."""


class Moment(NamedTuple):
    """When and on which tablet something is asked: its clock and the clock's state."""

    dev: str
    wall: str
    clk: str


@remembered
def routes_of(job: Job, part: str) -> list[Route]:
    """Of each line of the part's seat the first of its routes for parts of this origin; each once, none where nothing
    is required."""
    wanted = _route_origin(origin_of(job, part), is_new(job, part))
    every = ([job.bill.routes[name] for name in line.routes if name in job.bill.routes] for line in lines_of(job, part))
    found = [next((one for one in routes if (one.origin or AS_RECEIVED) == wanted), None) for routes in every]
    return list({route.name: route for route in found if route is not None}.values())


def route_of(job: Job, part: str) -> Route | None:
    """The route in hand: the first that has anything left, else the first; None where nothing is required."""
    routes = routes_of(job, part)
    return next((route for route in routes if any(left_in(job, part, route))), routes[0] if routes else None)


def _route_origin(origin: str, new: bool) -> str:
    if new:
        return "new"
    return "repaired" if origin == "repaired" else AS_RECEIVED


def pass_heads(job: Job, part: str, route: str, operation: str, pass_: int = 1) -> tuple[Entry, ...]:
    """What was last said of one pass of one operation."""
    return job.heads(part, operation_facet(route, operation, pass_))


def state_of(job: Job, part: str, route: str, operation: str) -> str:
    """`""` before it began, else started, stopped, skipped or done (of its first pass)."""
    return str(job.value(part, operation_facet(route, operation, 1), "") or "")


def operations_left(job: Job, part: str) -> Iterator[Left]:
    """Operations of the part's routes that are not over, one route after the other, and why they are not."""
    return (one for route in routes_of(job, part) for one in left_in(job, part, route))


def remaining(job: Job, part: str) -> list[Operation]:
    """The same without why: what is recorded and does not count is to be done once more, or skipped."""
    return [one.operation for one in operations_left(job, part)]


def begun(job: Job, part: str) -> list[str]:
    """Operations on the part, of whatever route and pass, that were begun and not brought to an end."""
    values = {facet: job.value(part, facet) for facet in operation_facets(job, part)}
    return [facet for facet, value in values.items() if value and value not in OVER]


def operation_facets(job: Job, part: str) -> list[str]:
    """All operations on the part, of whatever route and pass."""
    return job.facets(part, "operation")


def done_twice(job: Job, part: str) -> list[str]:
    """Passes with two *done* that had not seen each other: two removals."""
    found = []
    for facet in operation_facets(job, part):
        heads = job.heads(part, facet)
        if sum(head.value == "done" for head in heads) > 1:
            found.append(facet)
    return found


def waits_open(job: Job, part: str, moment: Moment) -> list[tuple[Operation, float]]:
    """Operations whose wait is not over at a moment, with the hours left.

    A wait is measured by the clock of the tablet that recorded its start; across two tablets only
    when both clocks are right. A clock that jumped satisfies no wait: hours left are then all.
    """
    found = []
    for route, operation in [(way, one) for way in routes_of(job, part) for one in way.operations]:
        if not operation.wait_h:
            continue
        facet = operation_facet(route.name, operation.id, 1)
        done = [head for head in job.heads(part, facet) if head.value == "done"]
        over = job.entries(part, "wait_over/" + facet)
        done = [head for head in done if not any(job.knowing.knew(one.record, head.record) for one in over)]
        if done:
            left = max(hours_left(head, float(operation.wait_h), moment) for head in done)
            if left > 0:
                found.append((operation, left))
    return found


def hours_left(start: Entry, hours: float, moment: Moment) -> float:
    """Hours of a wait still to come; all of them where the clocks prove nothing."""
    if moment.clk != "ok" or start.record.clk != "ok":
        return hours
    passed = datetime.fromisoformat(moment.wall) - datetime.fromisoformat(start.record.wall)
    if passed < timedelta(0):
        return hours
    return hours - passed.total_seconds() / 3600
