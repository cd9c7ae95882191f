"""Commands that only look: lists, a job, its places, parts, open points, what happened, searches."""

from __future__ import annotations

from argparse import ArgumentParser
from collections.abc import Mapping

from teardown_app.cli.command import Answer, Call, job_argument, looks
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.release import is_released
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.next.progress import job_row
from teardown_app.domain.parts.filling import holder, place_of
from teardown_app.domain.parts.life import all_parts, in_order, life_of, sentence
from teardown_app.domain.parts.parts import (
    disposition_of,
    number_of,
    open_holds,
    origin_of,
    out_of,
    own_place,
    part_number_of,
)
from teardown_app.domain.places.scope import scope_of
from teardown_app.domain.points.point import Point
from teardown_app.workflows.act import refuse
from teardown_app.workflows.called import part_meant


def job_list(call: Call) -> Answer:
    """All jobs with their progress."""
    rows = call.workshop.lists.jobs()
    return Answer(rows, [_job_line(row) for row in rows] or ["No job yet: job open BILL --order … --serial …"])


def _job_line(row: Mapping[str, object]) -> str:
    state = f"{row['open_points']} open points"
    if row["closed"]:
        state = f"closed, since then {state}" if row["open_points"] else "closed"
    due = f", due {row['due']}" if row["due"] else ""
    name = f" {row['name']}" if row["name"] else ""
    filled = f"{row['filled']} of {row['places']} places filled"
    return f"{row['job']}{name}  {row['model']} {row['serial']}  order {row['order']}{due}: {filled}, {state}"


def job_show(call: Call) -> Answer:
    """One job."""
    opened = call.job()
    row = job_row(opened.job, opened.live.points())
    lines = [_job_line(row), f"{row['holds']} parts on hold"]
    return Answer({**row, "options": sorted(opened.job.options)}, lines)


def places(call: Call) -> Answer:
    """Every place of the tool and what is in it."""
    job = call.job().job
    rows = [_place_row(job, key) for key in job.positions]
    lines = [f"{row['position']:<16} {row['state']:<10} {row['tag']:<10}  {row['description']}" for row in rows]
    return Answer(rows, lines)


def _place_row(job: Job, key: str) -> dict[str, str]:
    position = job.positions[key]
    scope = scope_of(job, key)
    part = holder(job, key)
    state = scope.word if scope.counts != "in" else "filled" if part else ""
    return {
        "position": key,
        "kind": position.line.kind,
        "part_number": position.line.part_number,
        "description": position.line.description,
        "state": state,
        "part": part,
        "tag": number_of(job, part) if part else "",
    }


def part_list(call: Call) -> Answer:
    """All parts of a job."""
    job = call.job().job
    rows = [part_row(job, part) for part in all_parts(job)]
    lines = [_part_line(row) for row in rows]
    return Answer(rows, lines or ["No part was taken off yet."])


def part_row(job: Job, part: str) -> dict[str, object]:
    """What is known of a part, for other programs."""
    key = own_place(job, part)
    return {
        "part": part,
        "tag": number_of(job, part),
        "part_number": part_number_of(job, part),
        "description": job.positions[key].line.description if key in job.positions else "",
        "out_of": out_of(job, part),
        "fitted_in": place_of(job, part),
        "place": job.value(part, "place", "") or "",
        "condition": job.value(part, "condition", "") or "",
        "origin": origin_of(job, part),
        "disposition": disposition_of(job, part),
        "holds": len(open_holds(job, part)),
        "released": is_released(job, part),
    }


def _part_line(row: Mapping[str, object]) -> str:
    where = f"fitted in {row['fitted_in']}" if row["fitted_in"] else row["place"] or "place unknown"
    state = "released" if row["released"] else row["disposition"] or "no disposition"
    tag = row["tag"] or "no label"
    return f"{tag:<10} {row['out_of'] or '-':<14} {row['description']}: {where}, {state}"


def _part(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("part", metavar="PART", help="number on the part's label")


def part_show(call: Call) -> Answer:
    """One part and its life."""
    act_job = call.job().job
    part = part_meant(call.look(act_job), call.args.part)
    row = part_row(act_job, part)
    life = [sentence(act_job, record) for record in life_of(act_job, part)]
    return Answer({**row, "life": life}, [_part_line(row), *life])


def _log(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("--position", default="", help="only what is about this place")
    parser.add_argument("--last", type=int, metavar="N", help="only the last N")


def log(call: Call) -> Answer:
    """What happened, in order."""
    job = call.job().job
    key = call.args.position
    if key and key not in job.positions:
        refuse(f"{key} is no place of this tool.", "See its places: job places.")
    records = list(life_of(job, position_thing(key))) if key else in_order(job)
    if call.args.last is not None:
        if call.args.last < 1:
            refuse(f"The last {call.args.last} cannot be shown.", "Take 1 or more.")
        records = records[-call.args.last :]
    rows = [_record_row(job, record) for record in records]
    return Answer(rows, [f"{row['says']}  {row['record']}" for row in rows])


def _record_row(job: Job, record: Record) -> dict[str, object]:
    return {
        "record": record.ref,
        "by": record.act,
        "wall": record.wall,
        "kind": record.typ,
        "about": list(record.ent),
        "body": record.body,
        "effect": job.effect(record) or "holds",
        "trial": record.trial,
        "says": sentence(job, record),
    }


def open_points(call: Call) -> Answer:
    """All open points of a job."""
    opened = call.job()
    points, complete = opened.live.points(), opened.live.complete
    data = {"job": opened.job.number, "complete": complete, "points": [point_row(one) for one in points]}
    return Answer(data, [*(point_line(one) for one in points), summary(points)], 0 if complete else 1)


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


def _words(parser: ArgumentParser) -> None:
    parser.add_argument("words", metavar="WORD", nargs="+", help="part of a number, place, description, order …")


def search(call: Call) -> Answer:
    """Everything, across jobs, in which all words occur."""
    rows = call.workshop.lists.search(" ".join(call.args.words))
    lines = [", ".join(str(value) for value in row.values() if value not in ("", None)) for row in rows]
    return Answer(rows, lines or ["Nothing found. Try fewer words, or a part of one."])


COMMANDS = (
    looks(
        ("job", "list"),
        "All jobs with their progress.",
        "teardown-app job list",
        job_list,
    ),
    looks(("job", "show"), "One job.", "teardown-app job show J7K3M00018", job_show, job_argument),
    looks(
        ("job", "places"),
        "Every place of the tool and what is in it.",
        "teardown-app job places PO-7781",
        places,
        job_argument,
    ),
    looks(
        ("job", "open-points"),
        "Everything that still stands between the job and a tool with nothing missing. Exit 0 complete, 1 not.",
        "teardown-app job open-points J7K3M00018 --json",
        open_points,
        job_argument,
    ),
    looks(
        ("job", "log"),
        "What happened on a job, in order.",
        "teardown-app job log PO-7781 --last 20",
        log,
        _log,
    ),
    looks(("part", "list"), "All parts of a job.", "teardown-app part list PO-7781", part_list, job_argument),
    looks(
        ("part", "show"),
        "One part and its life in sentences.",
        "teardown-app part show PO-7781 P7K3M0001Q",
        part_show,
        _part,
    ),
    looks(
        ("search",),
        "Find parts, places, jobs and people by words, across jobs.",
        "teardown-app search seal 10.30",
        search,
        _words,
    ),
)
