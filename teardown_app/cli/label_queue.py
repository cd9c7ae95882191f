"""Commands about labels that wait: the queue, printing it, again, void, replaced, and what was perhaps printed."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Sequence

from teardown_app.cli.command import Answer, Call, Command, job_argument, looks, recorded
from teardown_app.cli.label_paper import paper, print_plain, printers, send_plain
from teardown_app.domain.parts.parts import number_of
from teardown_app.domain.shop.labels import OnItsWay, perhaps_printed, tablet_of, waiting
from teardown_app.labels.order import Order
from teardown_app.labels.print_queue import PrintFault
from teardown_app.labels.stock import read_from
from teardown_app.workflows.act import Refused, refuse
from teardown_app.workflows.called import part_meant
from teardown_app.workflows.label import number_of_ours
from teardown_app.workflows.label_queue import (
    DROP,
    PRINT,
    REPLACE,
    REPRINT,
    SEEN,
    VOID,
    back_in_the_queue,
    drop,
    printed,
    replace,
    reprint,
    sent,
    void,
)

ALL = "all"


def _row(one: OnItsWay) -> dict[str, str]:
    return {"number": one.number, "stands": one.stands, "job": one.job, "why": one.why, "where": one.where,
            "tablet": one.tablet, "since": one.since}  # fmt: skip


def show_queue(call: Call) -> Answer:
    """What waits, and what was perhaps printed."""
    shop = call.workshop.shop
    unsure, wait = perhaps_printed(shop), waiting(shop)
    lines = [f"{one.number} PERHAPS PRINTED ({one.where}): look at the printer, then: label seen" for one in unsure]
    lines += [_waits(one) for one in wait]
    rows = [_row(one) for one in (*unsure, *wait)]
    return Answer(rows, lines or ["No label waits to be printed."], 1 if unsure else 0)


def _waits(one: OnItsWay) -> str:
    job, why = f", job {one.job}" if one.job else "", f": {one.why}" if one.why else ""
    return f"{one.number} waits since {one.since} at tablet {one.tablet}{job}{why}"


def print_queue(call: Call) -> Answer:
    """Prints what waits. What cannot be drawn any more stays in the queue."""
    tablet = "" if call.args.all_tablets else tablet_of(call.workshop.home.dev)
    queued = waiting(call.workshop.shop, tablet)
    labels = [call.workshop.label_in_queue(one) for one in queued]
    there = [label for label in labels if label is not None]
    if not there:
        refuse("No label waits to be printed.", "Queue one: label reprint, label replace.")
    numbers = [label.number for label in there]
    ordered, pdf = print_plain(call, there, f"labels-{numbers[0]}")
    done = _through(call, ordered, pdf, numbers)
    printers(call).used(ordered.stock, ordered.start_at, len(numbers))
    left = len(labels) - len(there)
    rest = [f"{left} more stand for nothing any more: label drop."] * bool(left)
    lines = [PRINT.done.format(count=len(numbers), done=done), f"  {read_from(ordered.stock)}", *rest]
    return Answer({"numbers": numbers, "file": str(ordered.file)}, lines)


def _through(call: Call, ordered: Order, pdf: bytes, numbers: Sequence[str]) -> str:
    """Recorded before and after; what the printer certainly did not take waits again."""
    call.record(sent(call.shop_act(), numbers, where=ordered.where))
    try:
        done = send_plain(call, ordered, pdf)
    except Refused as fault:
        if not (isinstance(fault, PrintFault) and fault.perhaps):
            call.record(back_in_the_queue(call.shop_act(), numbers, "the printer did not take it"))
        raise
    call.record(printed(call.shop_act(), numbers, where=ordered.where))
    return done


def _queue_paper(parser: ArgumentParser) -> None:
    parser.add_argument("--all-tablets", action="store_true", help="also what was queued at other tablets")
    paper(parser)


def _numbers(parser: ArgumentParser) -> None:
    parser.add_argument("numbers", metavar="NUMBER", nargs="+", help="numbers of labels, or: all")


def _named(call: Call, everything: Sequence[str]) -> list[str]:
    """The numbers that a call names, each once."""
    if call.args.numbers == [ALL]:
        return list(everything)
    return list(dict.fromkeys(number_of_ours(one).number for one in call.args.numbers))


def _seen(parser: ArgumentParser) -> None:
    _numbers(parser)
    parser.add_argument("--not", dest="missing", action="store_true", help="they did not come out: they wait again")


def seen(call: Call) -> Answer:
    """Somebody looked at the printer: the labels came out, or they did not."""
    act, shop = call.shop_act(), call.workshop.shop
    unsure = [one.number for one in perhaps_printed(shop)]
    numbers = _named(call, unsure)
    strange = [one for one in numbers if one not in unsure]
    if strange or not numbers:
        refuse(f"{', '.join(strange) or 'No label'} was not perhaps printed.", "See what was: label queue.")
    if call.args.missing:
        drafts = back_in_the_queue(act, numbers, "it did not come out")
        return recorded(call.record(drafts), f"{len(numbers)} labels wait again.")
    return recorded(call.record(printed(act, numbers, where="seen on paper")), SEEN.done.format(count=len(numbers)))


def _why(parser: ArgumentParser) -> None:
    parser.add_argument("--why", required=True, help="the reason")


def _number_why(parser: ArgumentParser) -> None:
    parser.add_argument("number", metavar="NUMBER", help="number on the label")
    _why(parser)


def _reprint(parser: ArgumentParser) -> None:
    _number_why(parser)
    parser.add_argument("--job", default="", help="the job, for a bag that several jobs know")


def again(call: Call) -> Answer:
    """The same number is printed again with what is queued."""
    args, workshop = call.args, call.workshop
    number = number_of_ours(args.number).number
    job = workshop.find_job(args.job).job.number if args.job else workshop.job_behind(number)
    drafts = reprint(call.shop_act(), number, workshop.stands_for, job=job, why=args.why)
    return recorded(call.record(drafts), REPRINT.done.format(number=number, stands=workshop.stands_for(number)))


def _drop(parser: ArgumentParser) -> None:
    _numbers(parser)
    _why(parser)


def leave_out(call: Call) -> Answer:
    """Labels are taken out of the queue."""
    shop = call.workshop.shop
    queued = [one.number for one in (*perhaps_printed(shop), *waiting(shop))]
    numbers = _named(call, queued)
    records = call.record(drop(call.shop_act(), numbers, why=call.args.why))
    return recorded(records, DROP.done.format(count=len(numbers)))


def make_void(call: Call) -> Answer:
    """A spoiled or lost label that is on nothing."""
    shop, number = call.workshop, number_of_ours(call.args.number).number
    drafts = void(call.shop_act(), number, shop.stands_for, why=call.args.why, letters=shop.home.letters)
    return recorded(call.record(drafts), VOID.done.format(number=number))


def _replace(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("part", metavar="PART", help="its old number, or its place")
    _why(parser)


def put_another(call: Call) -> Answer:
    """A part gets a new number, and its label waits to be printed."""
    opened = call.job()
    act = call.act(opened)
    part = part_meant(act, call.args.part)
    numbers, issued = call.workshop.new_numbers("P", 1)
    old = number_of(opened.job, part)
    drafts = [issued, *replace(act, part, number=numbers[0], why=call.args.why)]
    return recorded(call.record(drafts), REPLACE.done.format(number=numbers[0], old=old), number=numbers[0], old=old)


COMMANDS = (
    looks(
        ("label", "queue"),
        "Labels that wait to be printed, and those perhaps printed. Exit 1 when somebody has to look at the printer.",
        "teardown-app label queue",
        show_queue,
    ),
    Command(
        ("label", "print"),
        "Print the labels that wait.",
        "teardown-app label print --stock roll-50x25 --printer bench-2 --by OF",
        print_queue,
        _queue_paper,
    ),
    Command(
        ("label", "seen"),
        "Say of labels perhaps printed that they came out, or did not.",
        "teardown-app label seen all --by OF",
        seen,
        _seen,
    ),
    Command(
        ("label", "reprint"),
        "Queue the same number again: its label came off or cannot be read.",
        "teardown-app label reprint P7K3M0001B --why 'came off' --by TB",
        again,
        _reprint,
    ),
    Command(
        ("label", "replace"),
        "Give a part a new number in place of a lost or dirty label, and queue its label.",
        "teardown-app label replace PO-7781 P7K3M0001B --why 'cannot be read' --by TB",
        put_another,
        _replace,
    ),
    Command(
        ("label", "void"),
        "A label that was spoiled or lost before it was put on anything is never used.",
        "teardown-app label void P7K3M0001B --why 'spoiled in the printer' --by TB",
        make_void,
        _number_why,
    ),
    Command(
        ("label", "drop"),
        "Take labels out of the queue.",
        "teardown-app label drop P7K3M0001B --why 'part went back' --by TB",
        leave_out,
        _drop,
    ),
)
