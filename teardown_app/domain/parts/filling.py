"""What fills a place, and whether every part is accounted for."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.claiming import places_of, sides, takes_parts
from teardown_app.domain.parts.going_back import GONE, handed_over
from teardown_app.domain.parts.parts import came_from, disposition_of


@remembered
def holder(job: Job, key: str) -> str:
    """The part that fills a place for a part or assembly: the fitting must be the last on both sides."""
    heads = job.heads(position_thing(key), "filled")
    if not heads or not takes_parts(job, key):
        return ""
    values = {job.group(head.value)[0] if head.value else "" for head in heads}
    if len(values) != 1:
        return ""
    part = values.pop()
    if not part:
        return ""
    fits = {head.value for head in job.heads(part, "fit")}
    return part if fits == {position_thing(key)} else ""


def place_of(job: Job, part: str) -> str:
    """Key of the place the part fills, empty when it fills none."""
    places = places_of(job, part)
    return places[0] if len(places) == 1 and holder(job, places[0]) == part else ""


def is_accounted_for(job: Job, part: str) -> bool:
    """True for a part that fills a place, or claims none and went with a reason or is with another job."""
    if place_of(job, part):
        return True
    return not places_of(job, part) and (disposition_of(job, part) in GONE or handed_over(job, part) > 0)


def goes_in_as_one(job: Job, position: Position) -> bool:
    """True where one part has to sit: not for an assembly that has no route and was never taken off as a unit. What was
    added beneath on the job makes no assembly another."""
    if position.line.kind != "assembly":
        return position.line.kind == "part"
    if position.line.routes or not job.bill.children(position.key):
        return True
    return bool(came_from(job, position.key) or sides(job, position.key))
