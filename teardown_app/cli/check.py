"""Commands about checks: read, not possible, and what is asked for."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import elsewhere
from teardown_app.cli.command import Answer, Call, Command, job_argument, recorded
from teardown_app.domain.bill import Position
from teardown_app.domain.checking import PART_TIMES, Needed, part_status, place_status
from teardown_app.domain.job import Job
from teardown_app.domain.record import is_position, position_thing
from teardown_app.workflows.act import Act
from teardown_app.workflows.called import part_meant
from teardown_app.workflows.check import (
    ANSWERS,
    asked_for,
    checks_of,
    not_possible,
    position_of,
    read_check,
    times,
    warnings,
)


def _what(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("thing", metavar="PART", help="a part, or the place for fitted and gate readings")
    parser.add_argument("check", metavar="CHECK", help="name of the check, as the bill gives it")
    parser.add_argument("--when", default="", help="arrival, as found, finished, new, fitted, or a gate")
    parser.add_argument("--spot", default="", help="where on the part, when the check has spots")


def _read(parser: ArgumentParser) -> None:
    _what(parser)
    parser.add_argument("--value", default="", help="the reading with its unit: '0.38 um'")
    parser.add_argument("--answer", default="", choices=("", *ANSWERS), help="where a person judges")
    parser.add_argument("--note", default="")
    parser.add_argument("--instrument", default="", help="number of the measuring instrument")


def _thing(call: Call, act: Act) -> str:
    """The place for readings about places, else the part."""
    name, when = call.args.thing, call.args.when
    if name in act.job.positions and (when and when not in PART_TIMES or not _of_part(act, name, call.args.check)):
        return position_thing(name)
    return part_meant(act, name, lambda number: elsewhere(call, act, number))


def _of_part(act: Act, key: str, name: str) -> bool:
    """True where the check is read on the part at some time."""
    checks = checks_of(act, act.job.positions[key])
    return any(when in PART_TIMES for one in checks if one.name.casefold() == name.casefold() for when in times(one))


def read(call: Call) -> Answer:
    """Records a reading."""
    args, act = call.args, call.act(call.job())
    thing = _thing(call, act)
    asked = asked_for(act, thing, args.check, when=args.when, spot=args.spot)
    warned = warnings(act, thing, asked)
    drafts = read_check(
        act, thing, asked, value=args.value, answer=args.answer, note=args.note, instrument=args.instrument
    )
    word = str(drafts[0].body["verdict"])
    said = f"{_name(act, thing)}: {asked.check.name} ({asked.when}): {word}"
    limit = f", limit {asked.check.limit.text}" if asked.check.limit else ""
    return recorded(call.record(drafts), f"{said}{limit}.", *warned, verdict=word)


def _name(act: Act, thing: str) -> str:
    return thing[1:] if is_position(thing) else act.name(thing)


def _impossible(parser: ArgumentParser) -> None:
    _what(parser)
    parser.add_argument("--why", required=True, help="why it could not be read")


def impossible(call: Call) -> Answer:
    """Records that a check could not be read."""
    args, act = call.args, call.act(call.job())
    thing = _thing(call, act)
    asked = asked_for(act, thing, args.check, when=args.when, spot=args.spot)
    records = call.record(not_possible(act, thing, asked, why=args.why))
    return recorded(records, f"{_name(act, thing)}: {asked.check.name} could not be read; it stays open.")


def _list(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("thing", metavar="PART", help="a part's number, or a place")


def list_(call: Call) -> Answer:
    """What is read on a part and its place, and where it stands."""
    job = call.job().job
    act = call.look(job)
    name = call.args.thing
    place = name in job.positions
    part = "" if place and not any(job.entries(position_thing(name), "came_out")) else part_meant(act, name)
    position = job.positions[name] if place else position_of(act, part)
    rows = []
    for check in checks_of(act, position):
        for when in times(check):
            for spot in check.spots or ("",):
                needed = Needed(check, spot, when)
                stands = _stands(job, part, position, needed)
                limit = check.limit.text if check.limit else ""
                row = {"check": check.name, "when": when, "spot": spot, "limit": limit}
                rows.append({**row, "stands": stands, "says": check.says})
    lines = [f"{row['check']} ({row['when']}) {row['spot']} {row['limit']}: {row['stands']}" for row in rows]
    return Answer(rows, lines or ["Nothing is read here."])


def _stands(job: Job, part: str, position: Position, needed: Needed) -> str:
    if needed.when not in PART_TIMES:
        return place_status(job, position, needed).word
    return part_status(job, part, needed).word if part else "due"


COMMANDS = (
    Command(
        ("check", "read"),
        "Record a reading; the verdict is computed where the limit is a number.",
        "teardown-app check read PO-7781 10.20 bowl-roughness --when finished --spot flange --value '0.31 um' --by MK",
        read,
        _read,
    ),
    Command(
        ("check", "impossible"),
        "Record that a check could not be read; it stays open.",
        "teardown-app check impossible PO-7781 10.20 bowl-roundness --when finished --why 'gauge is out' --by MK",
        impossible,
        _impossible,
    ),
    Command(
        ("check", "list"),
        "What is read on a part and its place, and where it stands.",
        "teardown-app check list PO-7781 10.20",
        list_,
        _list,
        writes=False,
        by=False,
    ),
)
