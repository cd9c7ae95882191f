"""What closes over what, by the bill's order: through consumables and hardware to what they lie on."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.remembered import known_of_tool

PARTS = ("part", "assembly")
"""Kinds of places that a part fills."""

BETWEEN = ("consumable", "hardware")
"""Kinds through which what is over them closes over what is beneath them."""


@known_of_tool
def closes_over(job: Job, key: str) -> list[str]:
    """Places that this one closes over: those that its line is fitted after and, where one of these is a consumable
    or hardware, all that that closes over. Nothing for a place added on the job."""
    return _through(job, key, job.bill.closes_over)


@known_of_tool
def closed_by(job: Job, key: str) -> list[str]:
    """Places that close over this one, the same way up."""
    return _through(job, key, job.bill.closed_by)


def _through(job: Job, key: str, step: Callable[[str], Iterable[str]]) -> list[str]:
    places = job.bill.positions
    found = dict.fromkeys(step(key) if key in places else ())
    waiting = [*found]
    while waiting:
        one = waiting.pop(0)
        if places[one].line.kind in BETWEEN:
            more = [each for each in step(one) if each not in found]
            found.update(dict.fromkeys(more))
            waiting += more
    return [*found]


@known_of_tool
def held_places(job: Job, key: str) -> list[str]:
    """Places that the joint at this place holds; none for one added on the job."""
    return list(job.bill.holds(key)) if key in job.bill.positions else []


@known_of_tool
def over(job: Job, key: str) -> list[str]:
    """Places one step over a place: the assembly it hangs beneath, and the parts and assemblies that close over it."""
    parts = [one for one in closed_by(job, key) if job.positions[one].line.kind in PARTS]
    above = job.positions[key].parent
    return [*([above] if above else []), *parts]


@known_of_tool
def under(job: Job, key: str) -> list[str]:
    """Places one step under a place: what hangs right beneath it, and what a part or assembly closes over."""
    closes = closes_over(job, key) if job.positions[key].line.kind in PARTS else []
    return list(dict.fromkeys([*(one.key for one in job.children(key)), *closes]))


@known_of_tool
def reached_from(job: Job, key: str) -> list[str]:
    """Places whose opening reaches the consumable at this place, whatever comes off there: what it closes over, what
    closes over it, what the joints among these hold; where none of them takes a part, those that do right beside it."""
    if key not in job.bill.positions:
        return []
    near = [*job.bill.closes_over(key), *job.bill.closed_by(key)]
    near += [held for one in near for held in job.bill.holds(one)]
    if not any(job.positions[one].line.kind in PARTS for one in near):
        near += [one.key for one in job.children(job.positions[key].parent) if one.line.kind in PARTS]
    return list(dict.fromkeys(near))


@known_of_tool
def joints_around(job: Job, key: str) -> list[str]:
    """Hardware that is opened to reach the consumable at this place."""
    if key not in job.bill.positions:
        return []
    near = [*reached_from(job, key), *job.bill.held_by(key), *closed_by(job, key)]
    return [one for one in dict.fromkeys(near) if job.positions[one].line.kind == "hardware"]
