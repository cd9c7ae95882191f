"""Points about what went from one job to another and did not come back: open in both jobs."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.bill.gate import SHIP
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.conceding import refs
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.points.point import Point, Where, at_place, point


def debt_points(job: Job, thing: str, where: Where, name: str) -> Iterator[Point]:
    """One point while more of a thing was handed or taken over than was given back."""
    gave, took = job.entries(thing, "handed_over"), job.entries(thing, "taken_over")
    back = job.entries(thing, "given_back")
    owed = sum(one.value.get("quantity", 1) for one in (*gave, *took)) - sum(
        one.value.get("quantity", 1) for one in back
    )
    if owed <= 0:
        return
    other = ", ".join(sorted({str(one.value["to"]) for one in gave} | {str(one.value["of"]) for one in took}))
    yield point(
        job,
        "debt",
        where,
        wrong=f"{name}: {owed} {'went to' if gave else 'came from'} job {other}, and nothing was given back for it.",
        clears="Give it or its like back, or have it conceded by whom it belongs to.",
        behind=refs([*gave, *took, *back]),
        gate=SHIP,
    )


def hardware_debt_points(job: Job, position: Position) -> Iterator[Point]:
    """The same for counted hardware of a place."""
    where = at_place(position.key)
    yield from debt_points(job, position_thing(position.key), where, named(job, position.key))
