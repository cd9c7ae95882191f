"""The command that ends a wait between two operations."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import parts_argument, parts_of
from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.workflows.wait import wait_over


def _wait(parser: ArgumentParser) -> None:
    parts_argument(parser)
    parser.add_argument("--why", required=True, help="how you know that it is over")


def wait_over_(call: Call) -> Answer:
    """Says that a wait is over."""
    act = call.act(call.job())
    parts = parts_of(call, act)
    records = call.record(wait_over(act, parts, why=call.args.why))
    return recorded(records, *(f"{act.name(part)} rests no longer: {call.args.why}" for part in parts))


COMMANDS = (
    Command(
        ("part", "wait-over"),
        "Say that the wait after an operation is over. Needs the right to release.",
        "teardown-app part wait-over PO-7781 10.20 --why 'dried since Friday, other tablet' --by OF",
        wait_over_,
        _wait,
    ),
)
