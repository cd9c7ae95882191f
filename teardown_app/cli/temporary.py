"""Commands for what is in the tool only for a time."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import places_argument
from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.domain.nouns.naming import named
from teardown_app.workflows.act import Act
from teardown_app.workflows.called import places_meant
from teardown_app.workflows.temporary import put_in, take_out


def _things(parser: ArgumentParser) -> None:
    places_argument(parser, "*")
    parser.add_argument(
        "--what",
        action="append",
        default=[],
        metavar="NAME",
        help="what was added on this job, such as 'drain bypass hose'; may be repeated",
    )
    parser.add_argument("--note", default="")


def in_(call: Call) -> Answer:
    """Puts temporary things in."""
    args, act = call.args, call.act(call.job())
    records = call.record(put_in(act, args.positions, what=args.what, note=args.note))
    return recorded(records, *(f"{name} is in; it has to be out before power." for name in _named(call, act)))


def out(call: Call) -> Answer:
    """Takes temporary things out."""
    args, act = call.args, call.act(call.job())
    records = call.record(take_out(act, args.positions, what=args.what, note=args.note))
    return recorded(records, *(f"{name} is out." for name in _named(call, act)))


def _named(call: Call, act: Act) -> list[str]:
    places = places_meant(act, call.args.positions)
    return [*(named(act.job, one.key) for one in places), *dict.fromkeys(call.args.what)]


COMMANDS = (
    Command(
        ("temporary", "in"),
        "Say that something is in only for a time: a place of the bill, or added on this job.",
        "teardown-app temporary in PO-7781 --what 'drain bypass hose' --by AS",
        in_,
        _things,
    ),
    Command(
        ("temporary", "out"),
        "Say that what was in only for a time is out.",
        "teardown-app temporary out PO-7781 10.95 --what 'drain bypass hose' --by AS",
        out,
        _things,
    ),
)
