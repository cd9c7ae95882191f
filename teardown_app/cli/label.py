"""Commands about labels and pictures of them: rolls printed ahead, labels of a job, reading pictures."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from pathlib import Path

from teardown_app.cli.command import Answer, Call, Command, job_argument, recorded
from teardown_app.domain.life import all_parts
from teardown_app.domain.parts import number_of
from teardown_app.domain.tag import LETTERS, parse
from teardown_app.intake.code_readers import missing_readers
from teardown_app.intake.read_codes import read_pictures
from teardown_app.labels.label import Label, label_of
from teardown_app.labels.picture import png
from teardown_app.labels.sheet import sheet_pdf
from teardown_app.labels.stock import find_stock
from teardown_app.workflows.act import refuse

MOST_AT_ONCE = 2000


def _roll(parser: ArgumentParser) -> None:
    parser.add_argument("count", metavar="COUNT", type=int, help="how many labels")
    parser.add_argument("--letter", default="P", choices=sorted(LETTERS), help="what the labels are for")
    _paper(parser)


def _paper(parser: ArgumentParser) -> None:
    parser.add_argument("--stock", default="a4-40", help="label stock, as assets/label_stock.toml names it")
    parser.add_argument(
        "--start-at", type=int, default=1, metavar="N", help="first free label of a sheet begun"
    )
    parser.add_argument("--out", type=Path, required=True, metavar="FILE.pdf")


def roll(call: Call) -> Answer:
    """Issues new numbers and writes their labels, to be printed ahead."""
    args = call.args
    if not 1 <= args.count <= MOST_AT_ONCE:
        refuse(f"{args.count} labels cannot be made at once.", f"Take 1 to {MOST_AT_ONCE}.")
    call.shop_act().needs("record")
    stock = find_stock(args.stock)
    numbers, draft = call.workshop.new_numbers(args.letter, args.count)
    pdf = sheet_pdf([Label(number) for number in numbers], stock, start_at=args.start_at)
    records = call.record([draft])
    args.out.write_bytes(pdf)
    return recorded(
        records, f"{len(numbers)} labels, {numbers[0]} to {numbers[-1]}: {args.out}", numbers=numbers
    )


def _job_labels(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("--part", action="append", default=[], metavar="NUMBER", help="only these parts")
    _paper(parser)


def job_labels(call: Call) -> Answer:
    """Labels of the parts of a job with position and name, also in place of lost or dirty ones."""
    args, job = call.args, call.job().job
    stock = find_stock(args.stock)
    wanted = {parse(number).number for number in args.part}
    labels = [
        label_of(job, part)
        for part in all_parts(job)
        if number_of(job, part) and (not wanted or number_of(job, part) in wanted)
    ]
    missing = wanted - {label.number for label in labels}
    if missing or not labels:
        said = ", ".join(sorted(missing)) or "a number"
        refuse(f"No part of this job has {said}.", "Tag parts first, or take a roll: label roll.")
    args.out.write_bytes(sheet_pdf(labels, stock, start_at=args.start_at))
    numbers = [label.number for label in labels]
    return Answer({"labels": numbers, "file": str(args.out)}, [f"{len(numbers)} labels: {args.out}"])


def _png(parser: ArgumentParser) -> None:
    parser.add_argument("number", metavar="NUMBER")
    parser.add_argument("--line", action="append", default=[], help="text beside the number; may be repeated")
    parser.add_argument("--dpi", type=int, default=203, help="dots per inch of the printer")
    parser.add_argument("--dots", type=int, default=4, help="dots per module of the symbol")
    parser.add_argument("--out", type=Path, required=True, metavar="FILE.png")


def picture(call: Call) -> Answer:
    """One label as a picture for a label printer."""
    args = call.args
    args.out.write_bytes(png(Label(args.number.upper(), tuple(args.line)), dpi=args.dpi, dots=args.dots))
    return Answer(
        {"number": args.number.upper(), "file": str(args.out)}, [f"{args.number.upper()}: {args.out}"]
    )


def _pictures(parser: ArgumentParser) -> None:
    parser.add_argument("pictures", metavar="PICTURE", nargs="+", type=Path)


def read(call: Call) -> Answer:
    """Codes in pictures, foreign ones included."""
    for missing in missing_readers():
        print(f"teardown-app: {missing}", file=sys.stderr)
    readings = read_pictures(call.args.pictures)
    rows = []
    for reading in readings:
        codes = [{"text": code.text, "ours": code.ours, "how": code.how} for code in reading.codes]
        row: dict[str, object] = {"file": reading.file, "codes": codes}
        rows.append({**row, "fault": reading.fault} if reading.fault else row)
    lines = [f"{one.file}: {one.fault or _said(one.codes)}" for one in readings]
    return Answer(rows, lines, 2 if any(reading.fault for reading in readings) else 0)


def _said(codes: object) -> str:
    found = [f"{code.text}{'' if code.ours else ' (foreign)'}" for code in codes]  # type: ignore[attr-defined]
    return ", ".join(found) or "no code"


COMMANDS = (
    Command(
        ("label", "roll"),
        "Issue new numbers and write their labels, to be printed ahead.",
        "teardown-app label roll 40 --out roll.pdf --by OF",
        roll,
        _roll,
    ),
    Command(
        ("label", "job"),
        "Labels of a job's parts with position and name.",
        "teardown-app label job PO-7781 --out labels.pdf",
        job_labels,
        _job_labels,
        writes=False,
        by=False,
    ),
    Command(
        ("label", "picture"),
        "One label as a black-and-white picture for a label printer.",
        "teardown-app label picture P7K3M0001Q --line 10.20 --out label.png",
        picture,
        _png,
        writes=False,
        by=False,
    ),
    Command(
        ("read",),
        "Read the codes in pictures; foreign codes are shown as foreign.",
        "teardown-app read label.png --json",
        read,
        _pictures,
        writes=False,
        by=False,
    ),
)
