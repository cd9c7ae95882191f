"""How far a job is: places filled of those in scope, holds, and the parts it knows."""

from __future__ import annotations

from typing import Any, NamedTuple

from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import HOLD, MISSING
from teardown_app.domain.parts.filling import goes_in_as_one
from teardown_app.domain.parts.parts import number_of, own_place, part_number_of, parts
from teardown_app.domain.parts.recall import instruments_used
from teardown_app.domain.places.scope import scope_of
from teardown_app.domain.points.point import OPEN, Point
from teardown_app.domain.shop.shop import Shop
from teardown_app.domain.signed.signing import is_closed


class Progress(NamedTuple):
    """Places for parts in scope, those filled, parts on hold, open points."""

    places: int
    filled: int
    holds: int
    open_points: int


def progress(job: Job, points: list[Point]) -> Progress:
    """Counts for the list of jobs."""
    wanted = {
        key
        for key, position in job.positions.items()
        if scope_of(job, key).counts == "in" and goes_in_as_one(job, position)
    }
    empty = {point.position for point in points if point.kind == MISSING}
    held = {point.part for point in points if point.kind == HOLD and point.part and point.state == OPEN}
    return Progress(len(wanted), len(wanted - empty), len(held), sum(point.state == OPEN for point in points))


Row = dict[str, Any]


def job_rows(job: Job, points: list[Point]) -> dict[str, dict[str, Row]]:
    """Rows of one job for lists and searches: table -> key -> row."""
    return {
        "jobs": {job.number: job_row(job, points)},
        "tags": tag_rows(job),
        "positions": {f"{job.number} {key}": _place_row(job, key) for key in job.positions},
    }


def job_row(job: Job, points: list[Point]) -> Row:
    """The row of a job in lists across jobs."""
    return {
        "job": job.number,
        "name": job.said("name"),
        "order": job.said("order"),
        "serial": job.said("serial"),
        "due": job.said("due"),
        "model": job.bill.model,
        "closed": is_closed(job, complete=all(point.state != OPEN for point in points)),
        "instruments": instruments_used(job),
        **progress(job, points)._asdict(),
    }


def _place_row(job: Job, key: str) -> Row:
    line = job.positions[key].line
    return {
        "job": job.number,
        "position": key,
        "part_number": line.part_number,
        "description": line.description,
    }


def tag_rows(job: Job) -> dict[str, Row]:
    """Number -> job and part, for every number the job has bound."""
    rows: dict[str, Row] = {}
    for part in parts(job):
        key = own_place(job, part)
        place = _place_row(job, key) if key in job.positions else {"job": job.number, "position": key}
        row = {
            **place,
            "part": part,
            "part_number": part_number_of(job, part),
            "number": number_of(job, part),
        }
        rows |= {entry.value: row for entry in job.entries(part, "number")}
    return rows


def shop_rows(shop: Shop) -> dict[str, dict[str, Row]]:
    """Rows of the shop's registers."""
    rows: dict[str, Row] = {f"person {code}": {"code": code} for code in shop.people()}
    rows |= {f"place {place.name}": dict(place.body) for place in shop.places()}
    rows |= {f"carrier {one.number}": dict(one.body) for one in shop.carriers()}
    return {"registers": rows}
