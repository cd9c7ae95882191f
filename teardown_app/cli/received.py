"""Commands that say what was received, and that add a place the bill lacks."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import places_argument
from teardown_app.cli.command import Answer, Call, Command, job_argument, recorded
from teardown_app.workflows.add_line import add_line
from teardown_app.workflows.called import places_meant
from teardown_app.workflows.configuration import WORDS, received


def _received(parser: ArgumentParser) -> None:
    places_argument(parser)
    parser.add_argument("--as", required=True, dest="word", metavar="WORD", help=f"one of: {', '.join(WORDS)}")
    parser.add_argument("--why", default="", help="the reason; needed for all but received complete")


def received_(call: Call) -> Answer:
    """Says how assemblies or places were received."""
    args, act = call.args, call.act(call.job())
    drafts = received(act, args.positions, args.word, why=args.why)
    keys = [position.key for position in places_meant(act, args.positions)]
    said = f"{', '.join(keys)}: {args.word}, with all beneath."
    return recorded(call.record(drafts), said, positions=keys, **{"as": args.word})


def _add_line(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("--parent", default="", metavar="POSITION", help="assembly it hangs beneath; else the tool")
    parser.add_argument("--part-number", required=True, metavar="NUMBER")
    parser.add_argument("--description", required=True, metavar="TEXT", help="noun first, such as 'bracket, hose'")
    parser.add_argument("--number", required=True, metavar="LABEL", help="number on the label of its first part")
    parser.add_argument("--why", default="", help="the reason")


def add_line_(call: Call) -> Answer:
    """Adds a place for a part that the bill lacks."""
    args, act = call.args, call.act(call.job())
    drafts = add_line(
        act,
        args.parent,
        part_number=args.part_number,
        description=args.description,
        number=args.number,
        why=args.why,
    )
    key = drafts[0].ent[0].removeprefix("@")
    return recorded(call.record(drafts), f"{args.description} has the place {key} now.", position=key)


COMMANDS = (
    Command(
        ("job", "received"),
        "Say of assemblies or places what was received; an assembly counts for all beneath it.",
        "teardown-app job received PO-7781 30 --as 'not received' --why 'packing list of 2026-03-09' --by MK",
        received_,
        _received,
    ),
    Command(
        ("job", "add-line"),
        "Add a place for a part that the bill lacks.",
        "teardown-app job add-line PO-7781 --parent 10 --part-number BR-7 --description 'bracket, hose' "
        "--number P7K3M0001B --why 'found on the tool' --by MK",
        add_line_,
        _add_line,
    ),
)
