"""Commands for the operations of a part's route: they say what comes next, and with what care."""

from __future__ import annotations

from teardown_app.cli.command import cautions
from teardown_app.cli.deed import Doing, Told, made, said_of
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.parts.caution import of_operation
from teardown_app.domain.parts.routing import remaining, waits_open
from teardown_app.workflows.act import Act, Drafts
from teardown_app.workflows.operation import DONE, SKIP, START, STOP


def _worked(doing: Doing) -> Told:
    act, drafts = doing.act, doing.drafts
    rows = [_row(act, draft, part) for draft in drafts for part in draft.ent]
    lines = [f"{said_of(doing, row['part'])} {_next_words(row)}" for row in rows]
    return [*lines, *cautions(_care(act, drafts, doing.deed == START))], {"parts": rows}


def _care(act: Act, drafts: Drafts, begun: bool) -> list[str]:
    """The care that the operation now begun wants, and after one that is over, the next one."""
    if begun:
        routes = [(act.job.bill.routes[draft.body["route"]], draft.body["operation"]) for draft in drafts]
        started = [one for route, name in routes for one in route.operations if one.id == name]
        return [said for one in started for said in of_operation(one)]
    ahead = [left[0] for draft in drafts for part in draft.ent if (left := remaining(act.job, part))]
    return [said for one in ahead for said in of_operation(one)]


def _row(act: Act, draft: Draft, part: str) -> dict[str, str]:
    left = remaining(act.job, part)
    waits = waits_open(act.job, part, act.now)
    return {
        "part": part,
        "operation": draft.body["operation"],
        "next": left[0].id if left else "",
        "rests_h": f"{max(hours for _, hours in waits):.1f}" if waits else "",
    }


def _next_words(row: dict[str, str]) -> str:
    rest = f"It rests for {row['rests_h']} h first. " if row["rests_h"] else ""
    return rest + (f"Next: {row['next']}." if row["next"] else "The route is through.")


COMMANDS = tuple(made(deed, _worked) for deed in (START, DONE, STOP, SKIP))
