"""Commands about a job as a whole: opened, amended, signed, conceded, closed, reopened, taken back."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.cli.deed import Doing, Told, made, said_of, told
from teardown_app.domain.points.live import all_points
from teardown_app.intake.bill import read_bill
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.add_line import ADD_LINE
from teardown_app.workflows.amend import AMEND
from teardown_app.workflows.close_job import CLOSE, REOPEN
from teardown_app.workflows.concede import CONCEDE
from teardown_app.workflows.configuration import RECEIVED
from teardown_app.workflows.correct import TAKE_BACK
from teardown_app.workflows.open_job import OPEN_JOB
from teardown_app.workflows.sign import SIGN


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
    said = OPEN_JOB.done.format(number=number, model=reading.bill.model, places=reading.positions)
    return recorded(records, said, *call.workshop.twins(number, args.order, args.serial), job=number)


def _conceded(doing: Doing) -> Told:
    key = doing.fields["key"]
    return [f"Conceded: {one.wrong}" for one in doing.fields["points"] if one.key == key], told(doing)[1]


def _open_before(act: Act, **_: object) -> set[str]:
    return {point.key for point in all_points(act.job)}


def _taken_back(doing: Doing) -> Told:
    new = [point for point in doing.call.job().live.points() if point.key not in doing.before]
    lines, data = told(doing)
    return [*lines, *(f"Now open: {point.wrong}" for point in new)], data


def _added(doing: Doing) -> Told:
    """The place alone, where its first part is named beside it."""
    return [said_of(doing, doing.things[0])], {"position": doing.things[0][1:]}


def _received(doing: Doing) -> Told:
    """Of several places in one sentence."""
    keys, word = [thing[1:] for thing in doing.things], doing.fields["as_"]
    return [f"{', '.join(keys)}: {word}, with all beneath."], {"positions": keys, "as": word}


ADDED = made(ADD_LINE, _added)
SAID_RECEIVED = made(RECEIVED, _received)
COMMANDS = (
    Command(
        ("job", "open"),
        "Open a job from a bill; the bill is frozen with it.",
        "teardown-app job open sample_bills/rinser_dryer --order PO-7781 --serial 0417 --due 2026-05-29 --by OF",
        open_,
        _open,
    ),
    made(AMEND),
    made(CONCEDE, _conceded),
    *map(made, (SIGN, CLOSE, REOPEN)),
    made(TAKE_BACK, _taken_back, _open_before),
)
