"""Operations of a part's route, one after the other: started, done, stopped, skipped.

One record for all parts that stand at the same operation. A later pass does an operation again that
is over already.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from teardown_app.domain.against.work import against_work
from teardown_app.domain.bill.bill import Operation, Route
from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.ledger.kinds.work import operation_facet
from teardown_app.domain.parts.operations import beginnings, written_down
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.at_operation import NEXT, At, is_begun, routes_at, state_at
from teardown_app.workflows.began import when_begun
from teardown_app.workflows.deed import HANDED_IN, PAIRS, PARTS, REFERENCE, WHOLE, Deed, Field


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
    routes = routes_at(act, parts, operation, pass_)
    for part, (route, one) in routes.items():
        if state_at(act, part, route, one, pass_) == "started":
            refuse(f"{act.name(part)}: {one.id} is started already.", "Finish it, or stop it.", "part done")
        refuse_for(against_work(act.job, part, one, act.now, materials))
    return _drafts(act, "operation.started", routes, pass_, values=_given(values), note=note or None)


def done(
    act: Act,
    parts: Sequence[str],
    materials: Materials,
    *,
    operation: str = NEXT,
    pass_: int = 1,
    values: Mapping[str, str] | None = None,
    began: str = "",
    note: str = "",
    reference: str = "",
) -> Drafts:
    """Finishes an operation on parts, with what the route says is written down."""
    act.working()
    routes = routes_at(act, parts, operation, pass_)
    for part, (route, one) in routes.items():
        if state_at(act, part, route, one, pass_) == "stopped":
            refuse(f"{act.name(part)}: {one.id} was stopped.", "Start it again, then finish it.")
        refuse_for(against_work(act.job, part, one, act.now, materials))
        _check_values(act, part, route, one, pass_, values or {})
        _check_begun(act, part, route, one, pass_, began)
    begun = when_begun(began, act.now)
    said = {"note": note or None, "began": begun or None, "reference": reference.strip() or None}
    return _drafts(act, "operation.done", routes, pass_, values=_given(values), **said)


def stop(act: Act, parts: Sequence[str], *, operation: str = NEXT, pass_: int = 1, note: str = "") -> Drafts:
    """Breaks an operation off that is started; it can be started again."""
    act.working()
    routes = routes_at(act, parts, operation, pass_)
    for part, (route, one) in routes.items():
        if state_at(act, part, route, one, pass_) != "started":
            refuse(f"{act.name(part)}: {one.id} is not started.", "Nothing needs to be stopped.")
    return _drafts(act, "operation.stopped", routes, pass_, note=note or None)


def skip(act: Act, parts: Sequence[str], *, operation: str = NEXT, why: str) -> Drafts:
    """Leaves an operation out. Needs the right to release and a reason."""
    act.working("release")
    if not why.strip():
        refuse("Skipping an operation needs its reason.", "Say why the part is good without it.")
    routes = routes_at(act, parts, operation, 1)
    return _drafts(act, "operation.skipped", routes, 1, why=why.strip())


def still_to_write_down(
    act: Act, part: str, route: Route, operation: Operation, pass_: int = 1, values: Mapping[str, str] | None = None
) -> list[str]:
    """What the route says is written down and was given neither at a beginning nor in `values`."""
    begun = beginnings(act.job, part, operation_facet(route.name, operation.id, pass_))
    given = {name for one in begun for name in written_down(one)}
    given |= {name for name, text in (values or {}).items() if text.strip()}
    return [name for name in operation.record if name not in given]


def _given(values: Mapping[str, str] | None) -> dict[str, str] | None:
    """What was written down; what was left blank is left out."""
    return {name: text for name, text in (values or {}).items() if text.strip()} or None


def _check_values(
    act: Act, part: str, route: Route, operation: Operation, pass_: int, values: Mapping[str, str]
) -> None:
    """What the route says is written down, at the start or at the end."""
    missing = still_to_write_down(act, part, route, operation, pass_, values)
    if missing:
        refuse(
            f"{act.name(part)}: {operation.id} is done with these written down: {', '.join(missing)}.",
            "Give each.",
        )


def _check_begun(act: Act, part: str, route: Route, one: Operation, pass_: int, began: str) -> None:
    """An operation with a time has a beginning: recorded before, or said afterwards."""
    if one.time and not began.strip() and not is_begun(act, part, route, one, pass_):
        refuse(f"{act.name(part)}: {one.id} takes {one.time} and was not begun.", "Begin it, or say when it began.")


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


_OPERATION = Field("operation", says="operation of the route; else the next one")
_PASSES = (
    _OPERATION,
    Field("pass_", says="2 and more: the operation once more", sort=WHOLE),
    Field("note"),
)
_WORK = (
    Field("materials", sort=HANDED_IN),
    *_PASSES,
    Field("values", says="what the route says is written down", sort=PAIRS, many=True),
)
START = Deed(
    name="part start", about=PARTS, do=start, writes=("operation.started",),
    says="Begin the next operation of the route on parts.",
    example="PO-7781 10.20 10.30 --by CL",
    done="{name}: {operation} started.",
    fields=_WORK,
)  # fmt: skip
DONE = Deed(
    name="part done", about=PARTS, do=done, writes=("operation.done",),
    says="Finish the next operation of the route on parts, with what has to be written down.",
    example="PO-7781 10.20 10.30 --value bath=B2 --value 'time=15 min' --by CL",
    done="{name}: {operation} done.",
    fields=(*_WORK, Field("began", says="when it was begun, as 10:30, where nobody recorded that"), REFERENCE),
)  # fmt: skip
STOP = Deed(
    name="part stop", about=PARTS, do=stop, writes=("operation.stopped",),
    says="Break an operation off that is started.",
    example="PO-7781 10.20 --note 'bath too cold' --by CL",
    done="{name}: {operation} stopped.",
    fields=_PASSES,
)  # fmt: skip
SKIP = Deed(
    name="part skip", about=PARTS, do=skip, writes=("operation.skipped",),
    says="Leave an operation out. Needs the right to release.",
    example="PO-7781 10.20 --operation polish --why 'no heat tint' --by OF",
    done="{name}: {operation} skipped.",
    fields=(_OPERATION, Field("why", "Why is the part good without it?", "the reason", needed=True)),
)  # fmt: skip
