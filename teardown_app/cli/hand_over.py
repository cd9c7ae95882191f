"""Commands that hand counted hardware over to another job and give it, or the like of a part, back."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import elsewhere
from teardown_app.cli.command import Answer, Call, Command, job_argument, recorded
from teardown_app.domain.nouns.naming import named
from teardown_app.workflows.act import Act
from teardown_app.workflows.called import part_meant, place_meant, thing_of
from teardown_app.workflows.hand_over import give_back, hand_over
from teardown_app.workflows.hardware import balance
from teardown_app.workflows.owed import owed


def _both(call: Call, other: str) -> tuple[Act, Act]:
    return call.act(call.job()), call.act(call.workshop.find_job(other))


def _over(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("position", metavar="POSITION", help="hardware place of the job that gives")
    parser.add_argument("--to", required=True, metavar="JOB", help="the job that takes it")
    parser.add_argument("--for", dest="meant_for", required=True, metavar="POSITION", help="place in that job")
    parser.add_argument("--quantity", type=int, required=True, help="how many")
    parser.add_argument("--consent", required=True, help="where the owner agreed, such as 'mail 2026-03-14'")


def over(call: Call) -> Answer:
    """Hands hardware over."""
    args = call.args
    giver, taker = _both(call, args.to)
    place, into = place_meant(giver, args.position, "hardware"), place_meant(taker, args.meant_for, "hardware")
    drafts = hand_over(giver, taker, thing_of(place), into.key, consent=args.consent, quantity=args.quantity)
    records = call.record(drafts)
    due = owed(giver.job, thing_of(place), taker.job.number)
    said = f"Job {taker.job.number} owes job {giver.job.number} {due} of {named(giver.job, place.key)}."
    return recorded(records, said, balance(giver, place), balance(taker, into), owed=due)


def _back(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("position", metavar="POSITION", help="hardware place of the job that gave")
    parser.add_argument("--from", dest="other", required=True, metavar="JOB", help="the job that took it")
    parser.add_argument("--quantity", type=int, help="how many; all that are owed without it")
    parser.add_argument("--consent", required=True, help="where it is written")


def back(call: Call) -> Answer:
    """Gives hardware back."""
    args = call.args
    giver, taker = _both(call, args.other)
    place = place_meant(giver, args.position, "hardware")
    records = call.record(give_back(giver, taker, thing_of(place), consent=args.consent, quantity=args.quantity))
    due = owed(giver.job, thing_of(place), taker.job.number)
    said = f"Job {taker.job.number} owes job {giver.job.number} {due} of {named(giver.job, place.key)}."
    return recorded(records, said, balance(giver, place), owed=due)


def _like(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("part", metavar="PART", help="the part that was handed over")
    parser.add_argument("--from", dest="other", required=True, metavar="JOB", help="the job that took it")
    parser.add_argument("--consent", required=True, help="where it is written")


def like(call: Call) -> Answer:
    """Records that another part came back in place of the one handed over."""
    args = call.args
    giver, taker = _both(call, args.other)
    part = part_meant(giver, args.part, lambda number: elsewhere(call, giver, number))
    records = call.record(give_back(giver, taker, part, consent=args.consent, like=True))
    return recorded(
        records,
        f"{giver.name(part)} stays with job {taker.job.number}; nothing is owed for it any more.",
        "Say that it does not come back: part judge, spare. Then bring in what came: part bring-in.",
    )


COMMANDS = (
    Command(
        ("hardware", "hand-over"),
        "Hand counted hardware over to another job, with consent.",
        "teardown-app hardware hand-over PO-7781 10.91 --to PO-9 --for 10.91 --quantity 1 --consent 'mail 3' --by OF",
        over,
        _over,
    ),
    Command(
        ("hardware", "give-back"),
        "Record that hardware handed over, or its like, came back.",
        "teardown-app hardware give-back PO-7781 10.91 --from PO-9 --consent 'mail 9' --by OF",
        back,
        _back,
    ),
    Command(
        ("part", "give-like"),
        "Record that another part came back in place of one handed over, which stays in the other job.",
        "teardown-app part give-like PO-7781 10.20 --from PO-9 --consent 'mail 9' --by OF",
        like,
        _like,
    ),
)
