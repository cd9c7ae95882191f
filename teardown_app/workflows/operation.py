"""Operations of a part's route, one after the other: started, done, stopped, skipped.

One record for all parts that stand at the same operation. A later pass does an operation again that
is over already.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from teardown_app.domain.bill import Operation, Route
from teardown_app.domain.kinds.work import operation_facet
from teardown_app.domain.materials import Materials
from teardown_app.domain.routing import OVER, remaining, route_of
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.may_work import check_work

NEXT = "next"
"""In place of an operation's name: the first that is left."""

At = tuple[Route, Operation]


def start(
    act: Act,
    parts: Sequence[str],
    materials: Materials,
    *,
    operation: str = NEXT,
    pass_: int = 1,
    values: Mapping[str, str] | None = None,
    note: str = "",
) -> Drafts:
    """Begins an operation on parts."""
    act.working()
    routes = _routes(act, parts, operation, pass_)
    for part, (route, one) in routes.items():
        if _state(act, part, route, one, pass_) == "started":
            refuse(f"{act.name(part)}: {one.id} is started already.", "Finish it: part done, or part stop.")
        check_work(act, part, one, materials)
    return _drafts(
        act, "operation.started", routes, pass_, values=dict(values or {}) or None, note=note or None
    )


def done(
    act: Act,
    parts: Sequence[str],
    materials: Materials,
    *,
    operation: str = NEXT,
    pass_: int = 1,
    values: Mapping[str, str] | None = None,
    note: str = "",
) -> Drafts:
    """Finishes an operation on parts, with what the route says is written down."""
    act.working()
    routes = _routes(act, parts, operation, pass_)
    for part, (route, one) in routes.items():
        if _state(act, part, route, one, pass_) == "stopped":
            refuse(f"{act.name(part)}: {one.id} was stopped.", "Start it again, then finish it.")
        check_work(act, part, one, materials)
        _check_values(act, part, route, one, pass_, values or {})
    return _drafts(act, "operation.done", routes, pass_, values=dict(values or {}) or None, note=note or None)


def stop(act: Act, parts: Sequence[str], *, operation: str = NEXT, pass_: int = 1, note: str = "") -> Drafts:
    """Breaks an operation off that is started; it can be started again."""
    act.working()
    routes = _routes(act, parts, operation, pass_)
    for part, (route, one) in routes.items():
        if _state(act, part, route, one, pass_) != "started":
            refuse(f"{act.name(part)}: {one.id} is not started.", "Nothing needs to be stopped.")
    return _drafts(act, "operation.stopped", routes, pass_, note=note or None)


def skip(act: Act, parts: Sequence[str], *, operation: str = NEXT, why: str) -> Drafts:
    """Leaves an operation out. Needs the right to release and a reason."""
    act.working("release")
    if not why.strip():
        refuse("Skipping an operation needs its reason.", "Say why the part is good without it.")
    routes = _routes(act, parts, operation, 1)
    return _drafts(act, "operation.skipped", routes, 1, why=why.strip())


def _routes(act: Act, parts: Sequence[str], operation: str, pass_: int) -> dict[str, At]:
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
            f"Next is {left[0].id}. To do {operation} once more, give the pass: --pass 2.",
        )
    return refuse(
        f"{act.name(part)}: {operation} is not next.", f"Next is {left[0].id}: do or skip it first."
    )


def _again(act: Act, part: str, route: Route, operation: str, pass_: int) -> Operation:
    """An operation that is done once more has to be over in the pass before."""
    one = next((one for one in route.operations if one.id == operation), None)
    if one is None or pass_ < 1:
        known = ", ".join(each.id for each in route.operations)
        refuse(f"Pass {pass_} of {operation} cannot be done.", f"Name the operation: {known}.")
    if _state(act, part, route, one, pass_) in OVER:
        refuse(f"{act.name(part)}: pass {pass_} of {one.id} is over already.", f"Give --pass {pass_ + 1}.")
    if _state(act, part, route, one, pass_ - 1) not in OVER:
        refuse(f"{act.name(part)}: pass {pass_ - 1} of {one.id} is not over.", "Finish it first.")
    return one


def _state(act: Act, part: str, route: Route, operation: Operation, pass_: int) -> str:
    return str(act.job.value(part, operation_facet(route.name, operation.id, pass_), "") or "")


def _check_values(
    act: Act, part: str, route: Route, operation: Operation, pass_: int, values: Mapping[str, str]
) -> None:
    """What the route says is written down, at the start or at the end."""
    heads = act.job.heads(part, operation_facet(route.name, operation.id, pass_))
    given = {name for head in heads for name in head.record.body.get("values", {})}
    given |= {name for name, text in values.items() if text.strip()}
    missing = [name for name in operation.record if name not in given]
    if missing:
        refuse(
            f"{act.name(part)}: {operation.id} is done with these written down: {', '.join(missing)}.",
            "Give each: " + " ".join(f"--value '{name}=…'" for name in missing) + ".",
        )


def _drafts(act: Act, typ: str, routes: dict[str, At], pass_: int, **body: object) -> Drafts:
    """One record for each route that has the operation."""
    names = dict.fromkeys((route.name, one.id) for route, one in routes.values())
    return [
        act.draft(
            typ,
            tuple(part for part, (route, _) in routes.items() if route.name == name),
            **{"route": name, "operation": operation, "pass": pass_, **body},
        )
        for name, operation in names
    ]
