"""The command for parts that come from elsewhere."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import elsewhere
from teardown_app.cli.command import Answer, Call, Command, job_argument, recorded
from teardown_app.cli.take_off import given_number, number_argument, written
from teardown_app.workflows.bring_in import BRING_IN, BROUGHT, bring_in
from teardown_app.workflows.take_off import not_written


def _bring_in(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("part_number", metavar="PART_NUMBER", help="number written on the part or its paper")
    parser.add_argument("--origin", required=True, choices=BROUGHT)
    parser.add_argument("--for", dest="meant_for", required=True, metavar="POSITION", help="place it is meant for")
    number_argument(parser)
    parser.add_argument("--set-mark", default="", help="mark of the complete new set it belongs to")
    parser.add_argument("--place", default="", help="where it is put")
    parser.add_argument("--serial", default="")
    parser.add_argument("--lot", default="")
    parser.add_argument("--note", default="")


def bring_in_(call: Call) -> Answer:
    """Brings in a part."""
    args, act = call.args, call.act(call.job())
    number, issued = given_number(call)
    drafts = bring_in(
        act,
        args.meant_for,
        part_number=args.part_number,
        origin=args.origin,
        number=number,
        set_mark=args.set_mark,
        place=args.place,
        written=written(call),
        note=args.note,
        elsewhere=lambda one: elsewhere(call, act, one),
    )
    records = call.record([*issued, *drafts])
    part = records[-1].thing()
    asked = [f"Still to write down: {what}." for what in not_written(act, args.meant_for, written(call))]
    said = BRING_IN.done.format(name=act.name(part), origin=args.origin)
    return recorded(records, said, *asked, part=part, number=drafts[0].body.get("number", ""))


COMMANDS = (
    Command(
        ("part", "bring-in"),
        "Bring in a part that did not come off this tool: new, stock, exchanged, customer's, borrowed.",
        "teardown-app part bring-in PO-7781 P-1020 --origin new --for 10.20 --new-number --by OF",
        bring_in_,
        _bring_in,
    ),
)
