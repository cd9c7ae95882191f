"""Commands about jobs: open, list, show, open points."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.domain.points.point import Point
from teardown_app.intake import frozen_bill
from teardown_app.intake.bill import read_bill
from teardown_app.workflows.act import refuse
from teardown_app.workflows.open_job import open_job


def _open(parser: ArgumentParser) -> None:
    parser.add_argument("bill", metavar="BILL", type=Path, help="folder of a bill, or an .xlsx workbook")
    parser.add_argument("--order", required=True, metavar="REFERENCE", help="the customer's order reference")
    parser.add_argument("--serial", required=True, metavar="NUMBER", help="serial number of the tool")
    parser.add_argument("--name", default="", help="what the shop calls the job")
    parser.add_argument("--number", default="", help="a job number printed ahead; else a new one")
    parser.add_argument("--due", default="", metavar="DAY", help="day it is due, as 2026-03-14")
    parser.add_argument("--option", action="append", default=[], help="an option this tool has; may be repeated")


def open_(call: Call) -> Answer:
    """Opens a job from a bill."""
    args = call.args
    reading = read_bill(args.bill, call.materials())
    if reading.bill is None:
        refuse(f"{args.bill} has {len(reading.faults)} faults.", "See them: bill check PATH.")
    act = call.shop_act()
    act.needs("office")
    number, issued = call.workshop.job_number(args.number.upper())
    digest = call.workshop.home.attach(frozen_bill.dump(reading.bill), "json")
    drafts = open_job(
        act,
        reading.bill,
        digest=digest,
        number=number,
        order=args.order,
        serial=args.serial,
        name=args.name,
        due=args.due,
        options=args.option,
    )
    records = call.record([*issued, *drafts])
    return recorded(records, f"Job {number} is open: {reading.bill.model}, {reading.positions} places.", job=number)


def _job(parser: ArgumentParser) -> None:
    parser.add_argument("job", metavar="JOB", help="number, name or order reference of the job")


def open_points(call: Call) -> Answer:
    """All open points of a job."""
    opened = call.job()
    points = opened.live.points()
    complete = opened.live.complete
    data = {
        "job": opened.job.number,
        "complete": complete,
        "points": [point_row(point) for point in points],
    }
    return Answer(data, [*(point_line(point) for point in points), summary(points)], 0 if complete else 1)


def point_row(point: Point) -> dict[str, str]:
    """A point as other programs read it."""
    names = ("key", "kind", "gate", "position", "part", "tag", "wrong", "clears", "state")
    return {name: getattr(point, name) for name in names}


def point_line(point: Point) -> str:
    """A point in one line."""
    return f"[{point.gate}] {point.wrong} {point.clears}" + (" (conceded)" if point.state == "conceded" else "")


def summary(points: list[Point]) -> str:
    """How many points stand."""
    left = sum(point.state == "open" for point in points)
    conceded = len(points) - left
    said = f"{left} open points" if left else "No open point: the job is complete"
    return said + (f", {conceded} conceded." if conceded else ".")


COMMANDS = (
    Command(
        ("job", "open"),
        "Open a job from a bill; the bill is frozen with it.",
        "teardown-app job open sample_bills/rinser_dryer --order PO-7781 --serial 0417 --due 2026-05-29 --by OF",
        open_,
        _open,
    ),
    Command(
        ("job", "open-points"),
        "Everything that still stands between the job and a tool with nothing missing. Exit 0 complete, 1 not.",
        "teardown-app job open-points J7K3M00018 --json",
        open_points,
        _job,
        writes=False,
        by=False,
    ),
)
