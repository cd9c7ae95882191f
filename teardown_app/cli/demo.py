"""The demo: the bench rinser-dryer worked through by three people, every act a command.

Freight damage, a hold, a finding the customer declines, a replaced pair of bearings, an extra bracket
and a missing screw that is found. It ends with a closed job, its labels and no open point.
"""

from __future__ import annotations

import shutil
from argparse import ArgumentParser
from pathlib import Path

from teardown_app.cli.command import Answer, Call, looks
from teardown_app.cli.demo_bench import DemoBench
from teardown_app.cli.demo_rounds import (
    fill_places,
    read_due_checks,
    read_finished_checks,
    take_apart,
    through_the_routes,
    tighten_after_heat,
    tighten_again,
)
from teardown_app.domain.lacks.lack import TO_ACCEPT
from teardown_app.labels.supplies import sample_bill
from teardown_app.workflows.act import refuse

OFFICE, TECHNICIAN, CLEANING, ASSEMBLER = "OF", "TE", "CR", "AS"
PLACES = ("DOCK", "RACK 1", "RACK 2", "TRAY 1", "TRAY 2", "QUARANTINE")
BOWL, WINDOW, BEARINGS, MOTOR, SCREWS = "10.10", "20.32", "40.20.20", "40.30", "10.90"
BRACKET, CAPS, FAN = "40.80", ("50.10.80/1", "50.10.80/2"), "70.24"


def _arguments(parser: ArgumentParser) -> None:
    parser.add_argument("--out", type=Path, required=True, metavar="FOLDER", help="where data and labels are written")
    parser.add_argument("--bill", type=Path, default=sample_bill("brd-25"), metavar="BILL")


def demo(call: Call) -> Answer:
    """Works the sample job through."""
    from teardown_app.cli.main import parser

    args = call.args
    if not (args.bill / "bill.toml").is_file():
        refuse(f"There is no bill in {args.bill}.", "Name another: --bill BILL.")
    home = args.out / "data"
    if home.exists():
        shutil.rmtree(home)
    args.out.mkdir(parents=True, exist_ok=True)
    bench = DemoBench(home, call.assets, parser(), print)
    try:
        work(bench, args.bill, args.out)
        return _told(bench, args.out)
    finally:
        bench.workshop.close()


def work(bench: DemoBench, bill: Path, out: Path) -> None:
    """The job from the dock to its closing."""
    open_shop(bench, bill, out)
    receive(bench)
    take_apart(bench, TECHNICIAN)
    inspect(bench)
    finish(bench)
    reassemble(bench)
    prove(bench, out)


def open_shop(bench: DemoBench, bill: Path, out: Path) -> None:
    """People, places, a roll of labels, the job."""
    bench.chapter("The office opens the shop and the job")
    bench.do(OFFICE, "shop", "person", OFFICE)
    for code, rights in ((TECHNICIAN, ["record"]), (CLEANING, ["record"]), (ASSEMBLER, ["record", "release", "sign"])):
        bench.do(OFFICE, "shop", "person", code, *(word for right in rights for word in ("--right", right)))
    for place in PLACES:
        bench.do(OFFICE, "shop", "place", place, quiet=True)
    roll = bench.do(OFFICE, "label", "roll", "80", "--out", str(out / "roll.pdf"))
    bench.numbers = list(roll.data["numbers"])
    opened = bench.do(
        OFFICE, "job", "open", str(bill), "--order", "PO-7781", "--serial", "0417", "--name", "rinser-dryer",
        "--due", "2026-05-29", "--option", "ionizer",
    )  # fmt: skip
    bench.job_number = opened.data["job"]


def receive(bench: DemoBench) -> None:
    """What came, and how."""
    bench.chapter("At the dock")
    for key in ("10", "20", "30", "40", "50", "60"):
        bench.do(TECHNICIAN, "job", "received", "JOB", key, "--as", "received complete", quiet=key != "10")
    bench.do(TECHNICIAN, "job", "received", "JOB", "70", "--as", "received short", "--why", "rear panel dented")
    absent = ("--as", "not on this tool", "--why", "four empty clips, no cable")
    bench.do(TECHNICIAN, "job", "received", "JOB", FAN, *absent)
    bench.do(TECHNICIAN, "temporary", "in", "JOB", BRACKET, *CAPS)
    bench.do(TECHNICIAN, "temporary", "out", "JOB", BRACKET, *CAPS)


def inspect(bench: DemoBench) -> None:
    """Findings, answers, dispositions, a hold."""
    bench.chapter("Inspection, and what the customer says")
    find = ("part", "find", "JOB")
    bench.do(TECHNICIAN, *find, BOWL, "--word", "bent", "--cause", "freight", "--note", "dent at the flange", "--ask")
    bench.do(TECHNICIAN, *find, WINDOW, "--word", "scratch", "--cause", "wear", "--note", "off the seal", "--ask")
    pair = (f"{BEARINGS}/1", f"{BEARINGS}/2")
    bench.do(TECHNICIAN, *find, *pair, "--word", "worn bearing", "--cause", "wear", "--covered")
    bench.do(TECHNICIAN, "part", "hold", "JOB", MOTOR, "--why", "winding report not in yet")
    answer = ("finding", "answer", "JOB")
    bench.do(OFFICE, *answer, BOWL, WINDOW, "--as", "asked", "--reference", "mail 2026-03-10 09:12")
    bench.is_refused(OFFICE, "part", "judge", "JOB", BOWL, "--as", "scrap")
    bench.do(OFFICE, *answer, BOWL, "--as", "approved", "--reference", "mail 2026-03-10 14:40")
    bench.do(OFFICE, *answer, WINDOW, "--as", "declined", "--reference", "mail 2026-03-10 14:40")
    bench.do(OFFICE, "part", "judge", "JOB", *pair, "--as", "scrap", "--why", "worn")
    bench.do(TECHNICIAN, "part", "judge", "JOB", BOWL, "--as", "repair")
    for n in (1, 2):
        bench.do(
            TECHNICIAN, "part", "bring-in", "JOB", "R25-4220-00", "--origin", "new", "--for", f"{BEARINGS}/{n}",
            "--number", bench.numbers.pop(0), "--set-mark", "PAIR 88", "--lot", "L-2231", "--place", "TRAY 1",
        )  # fmt: skip
    judged = [bench.called(part) for part in bench.parts() if not bench.disposition(part)]
    bench.do(TECHNICIAN, "part", "judge", "JOB", *judged, "--as", "use as is", quiet=True)
    extra = bench.extra
    bench.do(TECHNICIAN, "part", "judge", "JOB", extra, "--as", "return unrepaired", "--why", "belongs to the crate")


def finish(bench: DemoBench) -> None:
    """Repair, cleaning and finishing; the release."""
    bench.chapter("Repair, cleaning room, finishing")
    through_the_routes(bench, CLEANING)
    bench.do(OFFICE, "part", "lift", "JOB", MOTOR, "--why", "winding report is in: good")
    through_the_routes(bench, CLEANING)
    bench.chapter("Readings of finished parts")
    read_finished_checks(bench, TECHNICIAN)
    bench.chapter("Release")
    concede(bench, "declined by the customer", WINDOW)
    bench.do(ASSEMBLER, "part", "release", "JOB", "--ready")


def concede(bench: DemoBench, kind: str, key: str) -> None:
    """Concedes the points of a kind at a place."""
    for point in bench.opened.live.points():
        if point.kind == kind and point.position == key:
            bench.do(
                OFFICE, "job", "concede", "JOB", point.key,
                "--why", "accepted with the scratch", "--reference", "mail 2026-03-10 14:40",
            )  # fmt: skip


def reassemble(bench: DemoBench) -> None:
    """Every place filled in an order that works, torqued, consumables renewed."""
    bench.chapter("Assembly")
    bench.is_refused(ASSEMBLER, "part", "fit", "JOB", "20.22", "--position", "10.10")
    fill_places(bench, ASSEMBLER)
    bench.chapter("A screw was missing: it is found under the base frame")
    bench.do(ASSEMBLER, "hardware", "count", "JOB", SCREWS, "--found", "8")
    fill_places(bench, ASSEMBLER)
    tighten_again(bench, ASSEMBLER)
    bench.do(ASSEMBLER, "temporary", "in", "JOB", BRACKET, *CAPS)


def prove(bench: DemoBench, out: Path) -> None:
    """Readings at the finished tool, signature, closing, labels."""
    bench.chapter("Checks of the assembled tool: dry, then wet, then runs")
    read_due_checks(bench, ASSEMBLER)
    tighten_after_heat(bench, ASSEMBLER)
    bench.chapter("Proof: what was said to be absent is accepted, then signed and closed")
    bench.is_refused(ASSEMBLER, "job", "close", "JOB", "--meaning", "responsible")
    said = ("--why", "agreed with the order", "--reference", "PO-7781, line 3")
    for waits in [one for one in bench.opened.live.open_points() if one.kind == TO_ACCEPT]:
        bench.do(OFFICE, "job", "concede", "JOB", waits.key, *said)
    bench.do(ASSEMBLER, "job", "close", "JOB", "--meaning", "responsible")
    bench.do("", "label", "job", "JOB", "--out", str(out / "labels.pdf"))


def _told(bench: DemoBench, out: Path) -> Answer:
    job, live = bench.job, bench.opened.live
    points = live.points()
    data = {
        "job": job.number,
        "records": len(job.records),
        "closed": live.closed,
        "complete": live.complete,
        "open": sum(point.state == "open" for point in points),
        "conceded": sum(point.state == "conceded" for point in points),
        "refused": bench.refused,
    }
    lines = [
        "",
        f"{data['records']} records on the job, {data['open']} open points, {data['conceded']} conceded; "
        f"the job is {'closed' if live.closed else 'NOT closed'}.",
        f"Labels: {out / 'roll.pdf'}, {out / 'labels.pdf'}. Data: {out / 'data'} (trial clock, invented shop).",
        f"Look around: teardown-app job show {job.number} --home {out / 'data'}",
    ]
    return Answer(data, lines, 0 if live.closed else 1)


COMMANDS = (
    looks(
        ("demo",),
        "Work the sample rinser-dryer through with three people, from the dock to the closed job.",
        "teardown-app demo --out demo-out",
        demo,
        _arguments,
    ),
)
