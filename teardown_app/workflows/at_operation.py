"""Which operation of its route a part stands at, and whether the one that is named may be done now."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.bill.bill import Operation, Route
from teardown_app.domain.ledger.kinds.work import operation_facet
from teardown_app.domain.parts.operations import OVER, beginnings, left_in
from teardown_app.domain.parts.routing import remaining, route_of
from teardown_app.workflows.act import Act, refuse

NEXT = "next"
"""In place of an operation's name: the first that is left."""

At = tuple[Route, Operation]


def routes_at(act: Act, parts: Sequence[str], operation: str, pass_: int) -> dict[str, At]:
    """Route and operation of each part; the operation has to be the same one."""
    if not parts:
        refuse("No part is named.", "Scan the parts, or name their places.")
    found = {part: _at(act, part, operation, pass_) for part in parts}
    if len({one.id for _, one in found.values()}) > 1:
        each = ", ".join(f"{act.name(part)} at {one.id}" for part, (_, one) in found.items())
        refuse(f"These parts are not at the same operation: {each}.", "Record each operation by itself.")
    return found


def _at(act: Act, part: str, operation: str, pass_: int) -> At:
    route = route_of(act.job, part)
    if route is None:
        refuse(f"{act.name(part)} has no route.", "Nothing needs to be done to it before its release.")
    if pass_ != 1:
        return route, _again(act, part, route, operation, pass_)
    left = remaining(act.job, part)
    if not left:
        refuse(f"{act.name(part)} is through its route {route.name}.", "Read its checks and release it.")
    if operation in (NEXT, left[0].id):
        return route, left[0]
    return route, _out_of_order(act, part, route, operation, left)


def _out_of_order(act: Act, part: str, route: Route, operation: str, left: list[Operation]) -> Operation:
    known = [one.id for one in route.operations]
    if operation not in known:
        refuse(f"{act.name(part)}: its route {route.name} has no {operation}.", f"It has {', '.join(known)}.")
    if operation not in [one.id for one in left]:
        refuse(
            f"{act.name(part)}: {operation} is over already.",
            f"Next is {left[0].id}. To do {operation} once more, give the pass: 2.",
        )
    return refuse(f"{act.name(part)}: {operation} is not next.", f"Next is {left[0].id}: do or skip it first.")


def _again(act: Act, part: str, route: Route, operation: str, pass_: int) -> Operation:
    """An operation that is done once more has to be over in the pass before."""
    one = next((one for one in route.operations if one.id == operation), None)
    if one is None or pass_ < 1:
        known = ", ".join(each.id for each in route.operations)
        refuse(f"Pass {pass_} of {operation} cannot be done.", f"Name the operation: {known}.")
    if state_at(act, part, route, one, pass_) in OVER:
        refuse(f"{act.name(part)}: pass {pass_} of {one.id} is over already.", f"Give the pass {pass_ + 1}.")
    does_not_count = pass_ == 2 and one in [each.operation for each in left_in(act.job, part, route)]
    if does_not_count or state_at(act, part, route, one, pass_ - 1) not in OVER:
        refuse(f"{act.name(part)}: pass {pass_ - 1} of {one.id} is not over.", "Finish it first.")
    return one


def is_begun(act: Act, part: str, route: Route, operation: Operation, pass_: int = 1) -> bool:
    """Did anybody record that a pass was begun?"""
    return bool(beginnings(act.job, part, operation_facet(route.name, operation.id, pass_)))


def state_at(act: Act, part: str, route: Route, operation: Operation, pass_: int) -> str:
    """What was last said of a pass, empty before it began."""
    return str(act.job.value(part, operation_facet(route.name, operation.id, pass_), "") or "")
