"""Commands that make labels: rolls printed ahead, labels of a job or a register, wall sheet, pictures; and read."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Sequence
from pathlib import Path

from teardown_app.cli.command import Answer, Call, Command, job_argument, looks, recorded
from teardown_app.cli.label_paper import paper, print_plain, send_plain, shelf
from teardown_app.cli.said import complain
from teardown_app.domain.parts.life import all_parts
from teardown_app.domain.parts.parts import number_of
from teardown_app.domain.tags.tag_form import LETTERS
from teardown_app.intake.code_readers import missing_readers
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.read_codes import Code
from teardown_app.intake.still_codes import read_pictures
from teardown_app.labels.label import (
    OF_THE_SHOP,
    Label,
    bags_of,
    blank_label,
    label_of,
    label_of_job,
    labels_of,
    lacking_said,
)
from teardown_app.labels.order import write
from teardown_app.labels.picture import png, stock_png
from teardown_app.labels.print_queue import PrintFault
from teardown_app.labels.stock import read_from
from teardown_app.labels.wall_sheet import PAGES, wall_sheet_pdf
from teardown_app.workflows.act import Refused, refuse
from teardown_app.workflows.label import number_of_ours
from teardown_app.workflows.label_queue import ROLL, check_count, roll_waits, waits_said
from teardown_app.workflows.numbering import SHEET, badge_people, number_places

ON_ROLLS = sorted(letter for letter in LETTERS if letter != "A")
"""Action codes are the same everywhere and come as a wall sheet."""

GIVEN = {"places": ("S", number_places), "people": ("W", badge_people)}


def _roll(parser: ArgumentParser) -> None:
    parser.add_argument("count", metavar="COUNT", type=int, help="how many labels")
    parser.add_argument("--letter", default="P", choices=ON_ROLLS, help="what the labels are for")
    paper(parser)


def roll(call: Call) -> Answer:
    """Issues new numbers and prints their labels ahead."""
    args = call.args
    check_count(args.count)
    call.shop_act().needs("record")
    shelf(call).find(args.stock)
    numbers, draft = call.workshop.new_numbers(args.letter, args.count)
    ordered, pdf = print_plain(call, [blank_label(number) for number in numbers], f"roll-{numbers[0]}")
    records = call.record([draft])  # before any label can be put on something
    try:
        done = send_plain(call, ordered, pdf)
    except Refused as fault:
        where = ordered.where if isinstance(fault, PrintFault) and fault.perhaps else ""
        call.record(roll_waits(call.shop_act(), numbers, perhaps_at=where))
        then = "" if where else " Then: label print."
        complain(f"{fault.wrong} {waits_said(numbers)} {fault.instead}{then}")
        said = f"{len(numbers)} numbers issued, from {numbers[0]} to {numbers[-1]}; their labels are not printed."
        return recorded(call.recorded, said, numbers=numbers, file="")
    said = ROLL.done.format(count=len(numbers), first=numbers[0], last=numbers[-1], done=done)
    return recorded(records, said, f"  {read_from(ordered.stock)}", numbers=numbers, file=str(ordered.file))


def _job_labels(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("--part", action="append", default=[], metavar="NUMBER", help="only these parts")
    parser.add_argument("--bags", action="store_true", help="hardware bags with their counts, instead of parts")
    parser.add_argument("--folder", action="store_true", help="the label of the job itself, for its folder or crate")
    paper(parser)


def job_labels(call: Call) -> Answer:
    """Labels of the parts, bags or folder of a job, as they are now."""
    args, job = call.args, call.job().job
    if args.folder:
        return _printed(call, [label_of_job(job)], f"job-{job.number}")
    if args.bags:
        return _printed(call, list(bags_of(job).values()), f"bags-{job.number}", "No bag of this job has a number.")
    wanted = {number_of_ours(number).number for number in args.part}
    labels = [
        label_of(job, part)
        for part in all_parts(job)
        if number_of(job, part) and (not wanted or number_of(job, part) in wanted)
    ]
    missing = wanted - {label.number for label in labels}
    if missing or not labels:
        said = ", ".join(sorted(missing)) or "a number"
        refuse(f"No part of this job has {said}.", "Tag parts first, or take a roll: label roll.")
    return _printed(call, labels, f"labels-{job.number}")


def _sheet(parser: ArgumentParser) -> None:
    parser.add_argument("what", choices=OF_THE_SHOP, help="which register")
    parser.add_argument(
        "--give-numbers", action="store_true", help="give places without a number, people without a badge one"
    )
    paper(parser)


def sheet(call: Call) -> Answer:
    """Labels of everything of one register that has a number."""
    what, records = call.args.what, []
    if call.args.give_numbers and what in GIVEN:
        letter, give = GIVEN[what]
        drafts = give(call.shop_act(), lambda count: call.workshop.new_numbers(letter, count))
        records = call.record(drafts) if drafts else []
    labels = labels_of(call.workshop.shop, what)
    answer = _printed(call, labels, what, f"None of the {what} has a number.")
    return Answer({**answer.data, "recorded": [one.ref for one in records]}, answer.lines)


def _printed(call: Call, labels: list[Label], name: str, none: str = "") -> Answer:
    """Labels of numbers that stand for something already: nothing is recorded."""
    if not labels:
        refuse(none, "Register them, or count into bags with a label, first.")
    ordered, pdf = print_plain(call, labels, name)
    done = send_plain(call, ordered, pdf)
    numbers = [label.number for label in labels]
    lines = [SHEET.done.format(count=len(numbers), done=done), f"  {read_from(ordered.stock)}"]
    return Answer({"labels": numbers, "file": str(ordered.file)}, lines)


def _png(parser: ArgumentParser) -> None:
    parser.add_argument("number", metavar="NUMBER")
    parser.add_argument("--line", action="append", default=[], help="text beside the number; may be repeated")
    parser.add_argument("--dpi", type=int, default=203, help="dots per inch of the printer")
    parser.add_argument("--dots", type=int, default=4, help="dots per module of the symbol")
    parser.add_argument("--stock", default="", help="as it comes out on this stock, instead of --dpi and --dots")
    parser.add_argument("--out", type=Path, required=True, metavar="FILE.png")


def picture(call: Call) -> Answer:
    """One label as a picture for a label printer."""
    args, label = call.args, Label(call.args.number.upper(), tuple(call.args.line))
    if said := lacking_said([label]):
        complain(f"CAUTION: {said}")
    drawn = stock_png(label, shelf(call).find(args.stock)) if args.stock else png(label, dpi=args.dpi, dots=args.dots)
    write(args.out, drawn)
    return Answer({"number": label.number, "file": str(args.out)}, [f"{label.number}: {args.out}"])


def _wall(parser: ArgumentParser) -> None:
    parser.add_argument("--page", default="a4", choices=PAGES, help="paper")
    parser.add_argument("--out", type=Path, required=True, metavar="FILE.pdf")


def wall_sheet(call: Call) -> Answer:
    """The action codes of the cleaning room."""
    write(call.args.out, wall_sheet_pdf(call.args.page))
    return Answer({"file": str(call.args.out)}, [f"Six action codes: {call.args.out}. Print it at 100 %."])


def _pictures(parser: ArgumentParser) -> None:
    parser.add_argument("pictures", metavar="PICTURE", nargs="+", type=Path)


def read(call: Call) -> Answer:
    """Codes in pictures, foreign ones included; a label that no reader can read is compared with known numbers."""
    for missing in missing_readers():
        complain(missing)
    known = KnownTags(call.workshop.known_numbers())
    readings = read_pictures(call.args.pictures, known)
    rows = []
    for reading in readings:
        codes = [_code_row(code) for code in reading.codes]
        row: dict[str, object] = {"file": reading.file, "codes": codes}
        rows.append({**row, "fault": reading.fault} if reading.fault else row)
    lines = [f"{one.file}: {one.fault or _said(one.codes)}" for one in readings]
    return Answer(rows, lines, 2 if any(reading.fault for reading in readings) else 0)


def _code_row(code: Code) -> dict[str, object]:
    row: dict[str, object] = {"text": code.text, "ours": code.ours, "how": code.how}
    return {**row, "chance": code.chance, "sure": not code.offered} if code.chance else row


def _said(codes: Sequence[Code]) -> str:
    return ", ".join(f"{code.text}{_remark(code)}" for code in codes) or "no code"


def _remark(code: Code) -> str:
    if code.offered:
        return f"? (compare the printed number: another one with a chance of {code.chance:.0e})"
    if code.chance:
        return f" (recognised: another one with a chance of {code.chance:.0e})"
    return "" if code.ours else " (foreign)"


COMMANDS = (
    Command(
        ("label", "roll"),
        "Issue new numbers and print their labels ahead.",
        "teardown-app label roll 40 --out roll.pdf --by OF",
        roll,
        _roll,
    ),
    looks(
        ("label", "job"),
        "Labels of a job's parts with position and name, of its bags with their counts, or of its folder.",
        "teardown-app label job PO-7781 --out labels.pdf",
        job_labels,
        _job_labels,
    ),
    Command(
        ("label", "sheet"),
        "Labels of all places, carriers, instruments, or badges of people.",
        "teardown-app label sheet places --give-numbers --out places.pdf --by OF",
        sheet,
        _sheet,
    ),
    looks(
        ("label", "picture"),
        "One label as a black-and-white picture for a label printer.",
        "teardown-app label picture P7K3M0001B --line 10.20 --out label.png",
        picture,
        _png,
    ),
    looks(
        ("label", "wall-sheet"),
        "The cleaning room's action codes as a sheet for the wall: start, out, next, pause, yes, no.",
        "teardown-app label wall-sheet --out wall.pdf",
        wall_sheet,
        _wall,
    ),
    looks(
        ("read",),
        "Read the codes in pictures; foreign ones are shown as foreign, dirty ones recognised among known numbers.",
        "teardown-app read label.png --json",
        read,
        _pictures,
    ),
)
