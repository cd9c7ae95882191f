"""Commands about checks: read, not possible, and what is asked for."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from teardown_app.cli.called import elsewhere
from teardown_app.cli.command import Answer, Call, Command, job_argument, looks, recorded
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.measure.demanded import given_fields, kind_of, whole_fields
from teardown_app.domain.measure.typed import without_unit
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import own_place, parts
from teardown_app.domain.places.checking import PART_TIMES, Needed, part_status, place_status, times_of
from teardown_app.intake.measured import measured_file, read_measured
from teardown_app.metrology.kind import Kind
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.asked import Asked, asked_for, checks_of, position_of, times_on
from teardown_app.workflows.called import part_meant, place_meant
from teardown_app.workflows.check import IMPOSSIBLE, READ, not_possible, read_check, warnings
from teardown_app.workflows.reading import ANSWERS, Taken


def _reading(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("thing", metavar="PART", help="a part, or a place (also @10.20) for fitted and gate readings")
    parser.add_argument("check", metavar="CHECK", help="name of the check, as the bill gives it")
    parser.add_argument("--when", default="", help="arrival, as found, finished, new, fitted, or a gate")
    parser.add_argument("--spot", default="", help="where on the part, when the check has spots")


def _read(parser: ArgumentParser) -> None:
    _reading(parser)
    parser.add_argument(
        "--value", action="append", default=[], help="a reading with its unit: '0.38 um'; may be repeated"
    )
    parser.add_argument("--input", default="", metavar="FILE", help="JSON or CSV of the check's kind of measurement")
    parser.add_argument("--answer", default="", choices=("", *ANSWERS), help="where a person judges")
    parser.add_argument("--note", default="")
    parser.add_argument("--instrument", default="", help="number on the measuring instrument")
    parser.add_argument("--uncertainty", default="", help="expanded, k = 2, where it is not the register's: '0.02 um'")
    parser.add_argument("--against", default="", help="what a comparison is held against, where no record tells it")


def _thing(call: Call, act: Act) -> str:
    """The place for readings about places, else the part. `@10.20` is the place and never its part."""
    name, when = call.args.thing, call.args.when
    if name.startswith("@"):
        return position_thing(place_meant(act, name).key)
    if name in act.job.positions and _is_of_place(act, name, call.args.check, when):
        return position_thing(name)
    return part_meant(act, name, lambda number: elsewhere(call, act, number))


def _is_of_place(act: Act, key: str, name: str, when: str) -> bool:
    """True where the reading is about the place; asked where the check is read on part and place."""
    checks = checks_of(act, act.job.positions[key])
    listed = [one for check in checks if check.name.casefold() == name.casefold() for one in times_of(check)]
    about_part = {one in PART_TIMES for one in listed}
    if not when and len(about_part) > 1:
        refuse(f"{named(act.job, key)}: {name} is read {' and '.join(listed)}.", "Say which this is: --when.")
    return when not in PART_TIMES if when else True not in about_part


def read(call: Call) -> Answer:
    """Records a reading."""
    args, act = call.args, call.act(call.job())
    thing = _thing(call, act)
    asked = asked_for(act, thing, args.check, when=args.when, spot=args.spot)
    words = (args.answer, args.note, args.instrument, args.uncertainty, args.against)
    kind, given = _given(call, asked)
    measured = whole_fields(kind, asked.check, given) if kind else None
    raw = call.workshop.name_if_long(measured) if measured else ""
    drafts = read_check(act, thing, asked, Taken(tuple(args.value), *words, measured, raw))
    if measured:
        call.workshop.keep_if_long(measured)
    body = drafts[0].body
    word = str(body["verdict"])
    limit = f", limit {asked.check.limit.text}" if asked.check.limit else ""
    told = {"check": _which(asked), "reading": _typed(body), "verdict": word, "limit": limit}
    said = READ.done.format(name=act.name(thing), **told)
    units = [without_unit(kind, given)] if kind else []
    found = [*body.get("said", ()), *filter(None, units), *warnings(act, thing, asked, body)]
    more = {name: body[name] for name in ("came_out", "decided", "unfit") if name in body}
    return recorded(call.record(drafts), said, *found, verdict=word, **more)


def _given(call: Call, asked: Asked) -> tuple[Kind | None, dict[str, Any]]:
    """The check's kind of measurement and its fields from a file; no kind where there is no file."""
    if not call.args.input:
        return None, {}
    kind = kind_of(asked.check)
    if kind is None:
        refuse(f"{asked.check.name} is of no kind that is computed.", "Give the reading itself: --value.")
    known = given_fields(kind, asked.check.given)
    return kind, read_measured(kind, measured_file(Path(call.args.input)), known)


def _which(asked: Asked) -> str:
    at = f" at {asked.spot}" if asked.spot else ""
    return f"{asked.check.name}{at} ({asked.when})"


def _typed(body: Mapping[str, Any]) -> str:
    """The reading as it was understood."""
    value = body.get("value")
    if "readings" in body:
        return ", ".join(body["readings"]) + ": "
    return f"{value['text']} {value['unit']}".strip() + ": " if value else ""


def _impossible(parser: ArgumentParser) -> None:
    _reading(parser)
    parser.add_argument("--why", required=True, help="why it could not be read, or where its result comes from")
    parser.add_argument("--expected", default="", metavar="DAY", help="when the result is expected, as 2027-03-14")


def impossible(call: Call) -> Answer:
    """Records that a check could not be read."""
    args, act = call.args, call.act(call.job())
    thing = _thing(call, act)
    asked = asked_for(act, thing, args.check, when=args.when, spot=args.spot)
    records = call.record(not_possible(act, thing, asked, why=args.why, expected=args.expected))
    return recorded(records, IMPOSSIBLE.done.format(name=act.name(thing), check=_which(asked)))


def _list(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("thing", metavar="PART", help="a part's number, or a place")


def list_(call: Call) -> Answer:
    """What is read on a part and its place, and where it stands."""
    job = call.job().job
    act = call.look(job)
    name = call.args.thing.removeprefix("@")
    has_part = name not in job.positions or any(own_place(job, part) == name for part in parts(job))
    part = part_meant(act, name) if has_part else ""
    position = job.positions[name] if name in job.positions else position_of(act, part)
    rows = [_row(job, part, position, needed) for needed in _needed(act, part, position)]
    lines = [_told(row) for row in rows]
    return Answer(rows, lines or ["Nothing is read here."])


def _needed(act: Act, part: str, position: Position) -> list[Needed]:
    """Every reading on the part and its place; while no part is known, those of any part."""
    place = position_thing(position.key)
    return [
        Needed(check, spot, when)
        for check in checks_of(act, position)
        for when in times_of(check)
        if not part or when in (*times_on(act, part, check), *times_on(act, place, check))
        for spot in check.spots or ("",)
    ]


def _row(job: Job, part: str, position: Position, needed: Needed) -> dict[str, str]:
    check = needed.check
    limit = check.limit.text if check.limit else ""
    row = {"check": check.name, "when": needed.when, "spot": needed.spot, "limit": limit}
    return {**row, "stands": _stands(job, part, position, needed), "says": check.says}


def _told(row: dict[str, str]) -> str:
    at = f" at {row['spot']}" if row["spot"] else ""
    limit = f", limit {row['limit']}" if row["limit"] else ""
    return f"{row['check']}{at} ({row['when']}){limit}: {row['stands']}"


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
    looks(
        ("check", "list"),
        "What is read on a part and its place, and where it stands.",
        "teardown-app check list PO-7781 10.20",
        list_,
        _list,
    ),
)
