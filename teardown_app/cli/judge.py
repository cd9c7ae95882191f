"""The command that says what is to become of parts."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import parts_argument, parts_of
from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.domain.ledger.kinds.part import DISPOSITIONS
from teardown_app.domain.nouns.parts import disposition_of
from teardown_app.workflows.act import Act
from teardown_app.workflows.disposition import is_milder, judge


def _judge(parser: ArgumentParser) -> None:
    parts_argument(parser)
    parser.add_argument("--as", dest="as_", required=True, choices=DISPOSITIONS)
    parser.add_argument("--why", default="", help="the reason")


def judge_(call: Call) -> Answer:
    """Gives parts a disposition."""
    args, act = call.args, call.act(call.job())
    parts = parts_of(call, act)
    drafts = judge(act, parts, as_=args.as_, why=args.why)
    lines = [_said(act, part, args.as_) for part in parts]
    return recorded(call.record(drafts), *lines)


def _said(act: Act, part: str, as_: str) -> str:
    """Asked before it is recorded: what the part was until now."""
    milder = f", milder than {disposition_of(act.job, part)} before" if is_milder(act, part, as_) else ""
    return f"{act.name(part)}: {as_}{milder}."


COMMANDS = (
    Command(
        ("part", "judge"),
        "Give parts a disposition.",
        "teardown-app part judge PO-7781 10.20 10.30 --as 'use as is' --by MK",
        judge_,
        _judge,
    ),
)
