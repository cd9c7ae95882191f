"""The red list: what is in the tool for a time and must not be forgotten. It stands on every screen of the job."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from teardown_app.domain.bill import Position
from teardown_app.domain.job import Job
from teardown_app.domain.points.point import named
from teardown_app.domain.points.temporary import state_of
from teardown_app.domain.record import position_thing
from teardown_app.domain.remembered import remembered


def red_list(job: Job) -> tuple[str, ...]:
    """What is temporary and in, by name; with a `?` what the bill knows of and nobody has looked at yet."""
    return _all_in(job, "")


_PLACES: WeakKeyDictionary[Job, tuple[int, list[Position]]] = WeakKeyDictionary()
"""Places for what is in for a time, worked out again when the job's places change."""


def _temporary(job: Job) -> list[Position]:
    known = _PLACES.get(job)
    if known is None or known[0] != job.generation:
        found = [one for one in job.positions.values() if one.line.kind == "temporary"]
        known = _PLACES[job] = (job.generation, found)
    return known[1]


@remembered
def _all_in(job: Job, _: str) -> tuple[str, ...]:
    places = _temporary(job)
    states = {one.key: state_of(job, position_thing(one.key)) for one in places if job.scope(one.key).counts == "in"}
    found = [named(job, key) + ("" if state else "?") for key, state in states.items() if state != "out"]
    added = [
        str(job.value(thing, "what"))
        for thing in job.things("what")
        if job.entries(thing, "what") and state_of(job, job.group(thing)[0]) == "in"
    ]
    return tuple(dict.fromkeys([*found, *added]))
