"""Commands about a job as a whole: opened, amended, signed, conceded, closed, reopened, taken back."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from teardown_app.cli.command import Answer, Call, Command, job_argument, recorded
from teardown_app.intake.bill import read_bill
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.amend import amend
from teardown_app.workflows.called import part_meant
from teardown_app.workflows.close_job import close_job, reopen_job
from teardown_app.workflows.concede import concede
from teardown_app.workflows.correct import take_back
from teardown_app.workflows.sign import MEANINGS, sign


def _open(parser: ArgumentParser) -> None:
    parser.add_argument("bill", metavar="BILL", type=Path, help="folder of a bill, or an .xlsx workbook")
    parser.add_argument("--order", required=True, metavar="REFERENCE", help="the customer's order reference")
    parser.add_argument("--serial", required=True, metavar="NUMBER", help="serial number of the tool")
    parser.add_argument("--name", default="", help="what the shop calls the job")
    parser.add_argument("--number", default="", help="a job number printed ahead; else a new one")
    parser.add_argument("--due", default="", metavar="DAY", help="day it is due, as 2026-03-14")
    parser.add_argument("--option", action="append", default=[], help="an option of this tool; may be repeated")


def open_(call: Call) -> Answer:
    """Opens a job from a bill."""
    args = call.args
    reading = read_bill(args.bill, call.materials())
    if reading.bill is None:
        refuse(f"{args.bill} has {len(reading.faults)} faults.", "See them: bill check PATH.")
    number, records = call.workshop.open_from_bill(
        reading.bill,
        args.bill if args.bill.is_dir() else args.bill.parent,
        call.by,
        printed=args.number.upper(),
        order=args.order,
        serial=args.serial,
        name=args.name,
        due=args.due,
        options=args.option,
    )
    said = f"Job {number} is open: {reading.bill.model}, {reading.positions} places."
    return recorded(records, said, *call.workshop.twins(number, args.order, args.serial), job=number)


def _amend(parser: ArgumentParser) -> None:
    job_argument(parser)
    for name in ("order", "name", "serial", "due"):
        parser.add_argument(f"--{name}", help=f"the {name} from now on")
    parser.add_argument("--option", action="append", help="an option of this tool; name all it has")
    parser.add_argument("--why", required=True, help="the reason")


def amend_(call: Call) -> Answer:
    """Changes what the opening said."""
    args, act = call.args, call.act(call.job())
    drafts = amend(
        act,
        why=args.why,
        order=args.order,
        name=args.name,
        serial=args.serial,
        due=args.due,
        options=args.option,
    )
    return recorded(call.record(drafts), f"Job {act.job.number} is amended.")


def _concede(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("key", metavar="KEY", help="key of the open point, as job open-points --json gives it")
    parser.add_argument("--why", required=True, help="the reason")
    parser.add_argument("--reference", required=True, help="the customer's reference for it")
    parser.add_argument("--limit", default="", help="for a reading: the widened limit, as '0.05 mm'")


def concede_(call: Call) -> Answer:
    """Concedes one open point."""
    args, opened = call.args, call.job()
    point = next((one for one in opened.live.points() if one.key == args.key), None)
    limit = {"text": args.limit} if args.limit else None
    drafts = concede(call.act(opened), point, args.key, why=args.why, reference=args.reference, limit=limit)
    return recorded(call.record(drafts), f"Conceded: {point.wrong if point else args.key}")


def _sign(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("--position", default="", help="sign this place with all beneath it; else the job")
    parser.add_argument("--part", default="", metavar="NUMBER", help="sign this part")
    parser.add_argument("--meaning", required=True, choices=MEANINGS)


def sign_(call: Call) -> Answer:
    """Signs the job, a place or a part."""
    act = call.act(call.job())
    thing = _signed_thing(act, call.args.part, call.args.position)
    records = call.record(sign(act, thing, meaning=call.args.meaning))
    return recorded(records, f"{act.by} signed {thing.removeprefix('@')}: {call.args.meaning}.")


def _signed_thing(act: Act, part: str, position: str) -> str:
    if part:
        return part_meant(act, part)
    if position and position not in act.job.positions:
        refuse(f"{position} is no place of this tool.", "See its places: job places.")
    return f"@{position}" if position else "job"


def _close(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("--note", default="")


def close(call: Call) -> Answer:
    """Closes a job on which nothing is open."""
    opened = call.job()
    records = call.record(close_job(call.act(opened), opened.live.points(), note=call.args.note))
    return recorded(records, f"Job {opened.job.number} is closed: nothing missing, nothing over.")


def _why(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("--why", required=True, help="the reason")


def reopen(call: Call) -> Answer:
    """Opens a closed job again."""
    act = call.act(call.job())
    return recorded(call.record(reopen_job(act, why=call.args.why)), f"Job {act.job.number} is open again.")


def _take_back(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("record", metavar="RECORD", help="name of the record, as commands and job log print it")
    parser.add_argument("--why", required=True, help="the reason")


def take_back_(call: Call) -> Answer:
    """Takes a record back."""
    opened = call.job()
    act, before = call.act(opened), opened.live.points()
    records = call.record(take_back(act, call.args.record, before, why=call.args.why))
    new = {point.key: point for point in opened.live.points()}.keys() - {point.key for point in before}
    said = [point.wrong for point in opened.live.points() if point.key in new]
    return recorded(records, f"Taken back: {call.args.record}", *(f"Now open: {wrong}" for wrong in said))


COMMANDS = (
    Command(
        ("job", "open"),
        "Open a job from a bill; the bill is frozen with it.",
        "teardown-app job open sample_bills/rinser_dryer --order PO-7781 --serial 0417 --due 2026-05-29 --by OF",
        open_,
        _open,
    ),
    Command(
        ("job", "amend"),
        "Change what the opening of a job said.",
        "teardown-app job amend J7K3M00018 --due 2026-06-12 --why 'customer moved the date' --by OF",
        amend_,
        _amend,
    ),
    Command(
        ("job", "concede"),
        "Concede one open point by signature, with the customer's reference.",
        "teardown-app job concede J7K3M00018 'missing|10.20|' --why 'spare follows' --reference PO-7781-3 --by OF",
        concede_,
        _concede,
    ),
    Command(
        ("job", "sign"),
        "Sign the job, a place with all beneath it, or a part.",
        "teardown-app job sign J7K3M00018 --position 10 --meaning inspected --by OF",
        sign_,
        _sign,
    ),
    Command(
        ("job", "close"),
        "Close a job on which nothing is open.",
        "teardown-app job close J7K3M00018 --by OF",
        close,
        _close,
    ),
    Command(
        ("job", "reopen"),
        "Open a closed job again.",
        "teardown-app job reopen J7K3M00018 --why 'returned with a drip' --by OF",
        reopen,
        _why,
    ),
    Command(
        ("job", "take-back"),
        "Take a record back; what it had replaced holds again. Nothing is removed.",
        "teardown-app job take-back J7K3M00018 J7K3M00018:t7k3m9~0:14:1a2b3c4d --why 'wrong bolt circle' --by MK",
        take_back_,
        _take_back,
    ),
)
