"""Commands about measuring instruments, and the recall of what a bad one touched."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Callable
from pathlib import Path

from teardown_app.cli.command import Answer, Call, Command, looks, recorded
from teardown_app.cli.deed import made
from teardown_app.domain.job.job import Job
from teardown_app.domain.parts.instrument import instruments
from teardown_app.domain.parts.recall import DOUBTFUL, Touched, touched_by_instrument, touched_by_person
from teardown_app.report.notice import notice
from teardown_app.workflows.instrument import CLEARED, FOUND_OUT, INSTRUMENT, found_out, give_instrument

SAID = {
    "reads": "what it reads, as bills call it: 'roughness tester'",
    "name": "what people call it",
    "unit": "unit it shows",
    "low": "lower end of its range: '0.01 um'",
    "high": "upper end of its range",
    "resolution": "smallest step it shows",
    "uncertainty": "expanded, k = 2: '0.02 um', '1.5 %%' or '0.02 um + 1 %%'",
    "calibrated": "day of its calibration, as 2026-03-14",
    "due": "last day on which it may be used to release",
}


def _instrument(parser: ArgumentParser) -> None:
    parser.add_argument("number", metavar="NUMBER", help="number on its label (M…)")
    for name, says in SAID.items():
        parser.add_argument(f"--{name}", default="", help=says)
    parser.add_argument("--out", action="store_true", help="it is not used any more")


def give(call: Call) -> Answer:
    """Registers an instrument or changes what is said of it."""
    args = call.args
    drafts = give_instrument(call.shop_act(), args.number, out=args.out, **{name: getattr(args, name) for name in SAID})
    body = drafts[0].body
    state = "is out of use" if args.out else f"reads {body['reads']}, due {body.get('due', 'on no day')}"
    return recorded(call.record(drafts), INSTRUMENT.done.format(number=body["number"], state=state))


def listed(call: Call) -> Answer:
    """Instruments in use."""
    known = instruments(call.workshop.shop)
    lines = [f"{one.number}  {one.reads:<22} due {one.due or '-':<10}  {one.name}" for one in known]
    return Answer(
        [one.body for one in known], lines or ["No instrument is registered: shop instrument NUMBER --reads … --due …"]
    )


def _found_out(parser: ArgumentParser) -> None:
    parser.add_argument("number", metavar="NUMBER")
    parser.add_argument(
        "--error", required=True, metavar="SIZE", help="'+0.05 um' (showed too much), '0.05 um', '2 %%'"
    )
    parser.add_argument("--last-good", required=True, metavar="DAY", help="last day on which it was known to be right")
    parser.add_argument("--why", required=True, help="how it came to light")


def bad(call: Call) -> Answer:
    """Records that an instrument read wrongly, and says what it touches."""
    args = call.args
    drafts = found_out(call.shop_act(), args.number, by=args.error, last_good=args.last_good, why=args.why)
    records = call.record(drafts)
    number = str(drafts[0].body["number"])
    touched = _all(call, call.workshop.jobs_with(number), lambda job: touched_by_instrument(job, number))
    again = sum(one.becomes == DOUBTFUL for one in touched)
    return recorded(
        records,
        FOUND_OUT.done.format(number=number, touched=len(touched), again=again),
        *(_line(one) for one in touched),
        touched=[one._asdict() for one in touched],
    )


def _recall(parser: ArgumentParser) -> None:
    parser.add_argument("name", metavar="NAME", help="number of an instrument, or code of a person")
    parser.add_argument("--qualification", default="", help="for a person: the qualification that had lapsed")
    parser.add_argument(
        "--notice", type=Path, default=None, metavar="FOLDER", help="writes a notice for each closed job"
    )


def recall(call: Call) -> Answer:
    """Exactly the readings, parts and jobs that an instrument or a lapsed qualification touches."""
    args, workshop = call.args, call.workshop
    name = args.name.upper()
    if args.qualification:
        jobs = [str(row["job"]) for row in workshop.lists.jobs()]
        touched = _all(call, jobs, lambda job: touched_by_person(job, name, args.qualification))
    else:
        touched = _all(call, workshop.jobs_with(name), lambda job: touched_by_instrument(job, name))
    files = _notices(call, touched, args.notice) if args.notice else []
    data = {
        "jobs": sorted({one.job for one in touched}),
        "closed": sorted({one.job for one in touched if workshop.job(one.job).job.said_closed}),
        "readings": [one._asdict() for one in touched],
        "notices": files,
    }
    return Answer(data, [*(_line(one) for one in touched), *files] or ["Nothing is touched."])


def _all(call: Call, jobs: list[str], ask: Callable[[Job], list[Touched]]) -> list[Touched]:
    return [one for number in jobs for one in ask(call.workshop.job(number).job)]


def _line(one: Touched) -> str:
    at = f" at {one.spot}" if one.spot else ""
    what = f"{one.part} {one.position}".strip()
    said = f"{one.verdict}, " if one.verdict else ""
    return f"{one.job}  {what}  {one.check}{at} ({one.when}) {one.value} of {one.day}: {said}{one.becomes}"


def _notices(call: Call, touched: list[Touched], folder: Path) -> list[str]:
    """A file for each closed job, named by its number; what is in it goes by the order's reference."""
    folder.mkdir(parents=True, exist_ok=True)
    files = []
    for number in sorted({one.job for one in touched}):
        job = call.workshop.job(number).job
        if job.said_closed:
            own = [one for one in touched if one.job == number]
            path = folder / f"notice-{number}.pdf"
            path.write_bytes(notice(job.said("order"), job.said("serial"), own, call.assets))
            files.append(str(path))
    return files


COMMANDS = (
    Command(
        ("shop", "instrument"),
        "Register a measuring instrument, or change what is said of it: range, uncertainty, calibration.",
        "teardown-app shop instrument M7K3M0001S --reads 'roughness tester' --unit um --low '0.01 um' --high '10 um' "
        "--uncertainty '0.01 um + 3 %' --calibrated 2026-01-12 --due 2027-01-12 --by OF",
        give,
        _instrument,
    ),
    looks(
        ("shop", "instruments"),
        "List the instruments in use.",
        "teardown-app shop instruments",
        listed,
    ),
    Command(
        ("shop", "found-out"),
        "Record that an instrument read wrongly since a day, and see what it touches.",
        "teardown-app shop found-out M7K3M0001S --error '+0.05 um' --last-good 2026-02-20 "
        "--why 'reference specimen' --by CR",
        bad,
        _found_out,
    ),
    made(CLEARED),
    looks(
        ("shop", "recall"),
        "Exactly the readings, parts, open and closed jobs that an instrument or a lapsed qualification touches.",
        "teardown-app shop recall M7K3M0001S --notice notices",
        recall,
        _recall,
    ),
)
