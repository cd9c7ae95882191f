"""Commands that put parts on hold and lift it."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import parts_argument, parts_of
from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.workflows.hold import lift_hold, place_hold


def _parts_and_why(parser: ArgumentParser) -> None:
    parts_argument(parser)
    parser.add_argument("--why", required=True, help="the reason")


def hold(call: Call) -> Answer:
    """Puts parts on hold."""
    act = call.act(call.job())
    parts = parts_of(call, act)
    records = call.record(place_hold(act, parts, why=call.args.why))
    return recorded(records, *(f"{act.name(part)} is on hold: {call.args.why}" for part in parts))


def lift(call: Call) -> Answer:
    """Lifts all holds on parts."""
    act = call.act(call.job())
    parts = parts_of(call, act)
    drafts = [draft for part in parts for draft in lift_hold(act, part, why=call.args.why)]
    return recorded(call.record(drafts), *(f"{act.name(part)} is no longer on hold." for part in parts))


COMMANDS = (
    Command(
        ("part", "hold"),
        "Put parts on hold; they are not released until it is lifted.",
        "teardown-app part hold J7K3M00018 P7K3M0001Q --why 'wait for bearing lot report' --by MK",
        hold,
        _parts_and_why,
    ),
    Command(
        ("part", "lift"),
        "Lift all holds on parts. Needs the right to release.",
        "teardown-app part lift J7K3M00018 P7K3M0001Q --why 'report is in' --by OF",
        lift,
        _parts_and_why,
    ),
)
