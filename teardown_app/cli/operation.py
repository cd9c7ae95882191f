"""Commands for the operations of a part's route."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Callable, Sequence

from teardown_app.cli.called import parts_argument, parts_of
from teardown_app.cli.command import Answer, Call, Command, cautions, recorded
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.nouns.caution import of_operation
from teardown_app.domain.nouns.routing import remaining, waits_open
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.at_operation import NEXT
from teardown_app.workflows.operation import done, skip, start, stop


def _which(parser: ArgumentParser) -> None:
    parts_argument(parser)
    parser.add_argument("--operation", default=NEXT, metavar="ID", help="operation of the route; else the next one")


def _passes(parser: ArgumentParser) -> None:
    _which(parser)
    parser.add_argument(
        "--pass", type=int, default=1, dest="pass_", metavar="N", help="2 and more: the operation once more"
    )
    parser.add_argument("--note", default="")


def _work(parser: ArgumentParser) -> None:
    _passes(parser)
    parser.add_argument(
        "--value",
        action="append",
        default=[],
        metavar="NAME=TEXT",
        help="what the route says is written down",
    )


def _why(parser: ArgumentParser) -> None:
    _which(parser)
    parser.add_argument("--why", required=True, help="the reason")


def start_(call: Call) -> Answer:
    """Begins an operation."""
    return _worked(call, start, "started")


def done_(call: Call) -> Answer:
    """Finishes an operation."""
    return _worked(call, done, "done")


def _worked(call: Call, workflow: Callable[..., Drafts], word: str) -> Answer:
    args, act = call.args, call.act(call.job())
    drafts = workflow(
        act,
        parts_of(call, act),
        call.workshop.materials,
        operation=args.operation,
        pass_=args.pass_,
        values=_values(args.value),
        note=args.note,
    )
    return _answer(call, act, drafts, word)


def stop_(call: Call) -> Answer:
    """Breaks an operation off."""
    args, act = call.args, call.act(call.job())
    drafts = stop(act, parts_of(call, act), operation=args.operation, pass_=args.pass_, note=args.note)
    return _answer(call, act, drafts, "stopped")


def skip_(call: Call) -> Answer:
    """Leaves an operation out."""
    args, act = call.args, call.act(call.job())
    drafts = skip(act, parts_of(call, act), operation=args.operation, why=args.why)
    return _answer(call, act, drafts, "skipped")


def _values(texts: Sequence[str]) -> dict[str, str]:
    values = {}
    for text in texts:
        name, sign, value = text.partition("=")
        if not sign or not name.strip() or not value.strip():
            refuse(f"{text!r} says no value.", "Write it as --value 'bath=B2'.")
        values[name.strip()] = value.strip()
    return values


def _answer(call: Call, act: Act, drafts: Drafts, word: str) -> Answer:
    records = call.record(drafts)
    rows = [_row(act, draft, part) for draft in drafts for part in draft.ent]
    lines = [f"{act.name(row['part'])}: {row['operation']} {word}. {_next_words(row)}" for row in rows]
    return recorded(records, *lines, *cautions(_care(act, drafts, word)), parts=rows)


def _care(act: Act, drafts: Drafts, word: str) -> list[str]:
    """The care that the operation now begun wants, and after one that is over, the next one."""
    if word == "started":
        routes = [(act.job.bill.routes[draft.body["route"]], draft.body["operation"]) for draft in drafts]
        begun = [one for route, name in routes for one in route.operations if one.id == name]
        return [said for one in begun for said in of_operation(one)]
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


COMMANDS = (
    Command(
        ("part", "start"),
        "Begin the next operation of the route on parts.",
        "teardown-app part start PO-7781 10.20 10.30 --by CL",
        start_,
        _work,
    ),
    Command(
        ("part", "done"),
        "Finish the next operation of the route on parts, with what has to be written down.",
        "teardown-app part done PO-7781 10.20 10.30 --value bath=B2 --value 'time=15 min' --by CL",
        done_,
        _work,
    ),
    Command(
        ("part", "stop"),
        "Break an operation off that is started.",
        "teardown-app part stop PO-7781 10.20 --note 'bath too cold' --by CL",
        stop_,
        _passes,
    ),
    Command(
        ("part", "skip"),
        "Leave an operation out. Needs the right to release.",
        "teardown-app part skip PO-7781 10.20 --operation polish --why 'no heat tint' --by OF",
        skip_,
        _why,
    ),
)
