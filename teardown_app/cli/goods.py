"""Commands for parts that come from elsewhere: brought in, handed over, given back."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import elsewhere
from teardown_app.cli.command import Answer, Call, Command, job_argument, recorded
from teardown_app.cli.take_off import given_number, number_argument, written
from teardown_app.workflows.bring_in import BROUGHT, bring_in
from teardown_app.workflows.called import part_meant
from teardown_app.workflows.hand_over import give_back, hand_over
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
    said = f"{act.name(part)}: {args.origin}."
    return recorded(records, said, *asked, part=part, number=drafts[0].body.get("number", ""))


def _hand_over(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("part", metavar="PART", help="the part that goes to another job")
    parser.add_argument("--to", required=True, metavar="JOB", help="the job that takes it")
    parser.add_argument("--for", dest="meant_for", required=True, metavar="POSITION", help="place in that job")
    parser.add_argument("--consent", required=True, help="where the owner agreed, such as 'mail 2026-03-14'")


def hand_over_(call: Call) -> Answer:
    """Hands over to another job."""
    args, giver = call.args, call.act(call.job())
    taker = call.act(call.workshop.find_job(args.to))
    part = part_meant(giver, args.part, lambda number: elsewhere(call, giver, number))
    drafts = hand_over(giver, taker, part, args.meant_for, consent=args.consent)
    records = call.record(drafts)
    said = f"{args.part} went from {giver.job.number} to {taker.job.number}; it is owed until given back."
    return recorded(records, said)


def _give_back(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("part", metavar="PART", help="the part that was handed over")
    parser.add_argument("--from", dest="to", required=True, metavar="JOB", help="the job that took it")
    parser.add_argument("--consent", required=True, help="where it is written")


def give_back_(call: Call) -> Answer:
    """Records that what was handed over came back."""
    args, giver = call.args, call.act(call.job())
    taker = call.act(call.workshop.find_job(args.to))
    part = part_meant(giver, args.part, lambda number: elsewhere(call, giver, number))
    records = call.record(give_back(giver, taker, part, consent=args.consent))
    return recorded(records, f"{giver.name(part)}: nothing is owed any more.")


COMMANDS = (
    Command(
        ("part", "bring-in"),
        "Bring in a part that did not come off this tool: new, stock, exchanged, customer's, borrowed.",
        "teardown-app part bring-in PO-7781 P-1020 --origin new --for 10.20 --new-number --by OF",
        bring_in_,
        _bring_in,
    ),
    Command(
        ("part", "hand-over"),
        "Hand a part over to another job, with consent.",
        "teardown-app part hand-over PO-7781 10.20 --to PO-9 --for 10.20 --consent 'mail 2026-03-14' --by OF",
        hand_over_,
        _hand_over,
    ),
    Command(
        ("part", "give-back"),
        "Record that a part handed over came back itself.",
        "teardown-app part give-back PO-7781 10.20 --from PO-9 --consent 'mail 2026-03-20' --by OF",
        give_back_,
        _give_back,
    ),
)
