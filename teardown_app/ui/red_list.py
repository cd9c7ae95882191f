"""The red list: what is in the tool for a time and must not be forgotten. It stands on every screen of the job."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.temporary import state_of


def red_list(job: Job) -> str:
    """What is temporary and in, and what the bill knows of that nobody has looked at yet; empty when nothing is."""
    return _told(job, "")


def red_place(job: Job) -> str:
    """The first place of what is in for a time or was not looked at; empty when there is none."""
    return next((one.key for one in _temporary(job) if state_of(job, position_thing(one.key)) != "out"), "")


_PLACES: WeakKeyDictionary[Job, tuple[int, list[Position]]] = WeakKeyDictionary()
"""Places for what is in for a time, worked out again when the job's places change."""


def _temporary(job: Job) -> list[Position]:
    known = _PLACES.get(job)
    if known is None or known[0] != job.generation:
        found = [one for one in job.positions.values() if one.line.kind == "temporary"]
        known = _PLACES[job] = (job.generation, found)
    return known[1]


@remembered
def _told(job: Job, _: str) -> str:
    places = [one for one in _temporary(job) if job.scope(one.key).counts == "in"]
    states = {one.key: state_of(job, position_thing(one.key)) for one in places}
    inside = [_said(job, key) for key, state in states.items() if state == "in"]
    inside += [
        str(job.value(thing, "what"))
        for thing in job.things("what")
        if job.entries(thing, "what") and state_of(job, job.group(thing)[0]) == "in"
    ]
    unseen = [_said(job, key) for key, state in states.items() if not state]
    said = [("in for a time", list(dict.fromkeys(inside))), ("to look whether it is in", unseen)]
    return "    ".join(f"{len(names)} {word}: {' · '.join(names)}" for word, names in said if names)


def _said(job: Job, key: str) -> str:
    """The place first: what is cut off at the edge of the glass is the name."""
    return f"{key} {job.positions[key].line.description}"
