"""The red list: what is in the tool for a time and must not be forgotten. It stands on every screen of the job."""

from __future__ import annotations

from teardown_app.domain.bill.gate import POWER_ON
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import RUNNING
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.places.temporary import state_of
from teardown_app.domain.points.live import Live
from teardown_app.domain.points.point import Point


def red_list(live: Live) -> str:
    """What is temporary and in, and what the bill knows of that nobody has looked at yet; empty when nothing is."""
    inside: list[str] = []
    unseen: list[str] = []
    for one in _before_power(live):
        (inside if _state(live.job, one) == "in" else unseen).append(_said(live.job, one))
    said = [("in for a time", list(dict.fromkeys(inside))), ("to look whether it is in", unseen)]
    return "    ".join(f"{len(names)} {word}: {' · '.join(names)}" for word, names in said if names)


def red_place(live: Live) -> str:
    """The first place of what is in for a time or was not looked at; empty when there is none."""
    return next((one.position for one in _before_power(live) if one.position), "")


def _before_power(live: Live) -> list[Point]:
    return [one for one in live.of_kind(RUNNING) if one.gate == POWER_ON]


def _thing(one: Point) -> str:
    return position_thing(one.position) if one.position else one.key.split("|")[1]


def _state(job: Job, one: Point) -> str:
    return state_of(job, _thing(one))


def _said(job: Job, one: Point) -> str:
    """The place first: what is cut off at the edge of the glass is the name."""
    if one.position:
        return f"{one.position} {job.positions[one.position].line.description}"
    return str(job.value(_thing(one), "what"))
