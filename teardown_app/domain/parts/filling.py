"""What fills a place, which places a part claims, and whether every part is accounted for."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.parts import came_from, disposition_of, is_part

GONE = ("scrap", "spare", "return unrepaired")
"""Dispositions with which a part need not go back into the tool."""

SEATED = ("part.fitted", "part.taken_out")


def sides(job: Job, key: str) -> list[str]:
    """Parts that fittings not replaced on the place's side name."""
    heads = job.heads(position_thing(key), "filled")
    return sorted({job.group(head.value)[0] for head in heads if head.value})


@remembered
def places_of(job: Job, part: str) -> list[str]:
    """Keys of the places that a part claims: those of this job that fittings not replaced on its side name."""
    return sorted({head.value[1:] for head in job.heads(part, "fit") if head.value[1:] in job.positions})


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


def takes_parts(job: Job, key: str) -> bool:
    """True for a place of this tool that is for a part or an assembly."""
    position = job.positions.get(key)
    return position is not None and position.line.kind in ("part", "assembly")


def place_of(job: Job, part: str) -> str:
    """Key of the place the part fills, empty when it fills none."""
    places = places_of(job, part)
    return places[0] if len(places) == 1 and holder(job, places[0]) == part else ""


def claimants(job: Job, key: str) -> list[str]:
    """Parts of this job that claim a place, whatever is recorded on the place's side."""
    named = {entry.value for entry in job.entries(position_thing(key), "filled") if entry.value}
    return sorted(
        part for part in {job.group(one)[0] for one in named} if key in places_of(job, part) and is_part(job, part)
    )


def claims(job: Job, key: str) -> list[str]:
    """Parts that a place and the part itself say are in it: it takes no other one before these are out."""
    return [part for part in sides(job, key) if key in places_of(job, part)]


def fitted_twice(job: Job, key: str) -> list[str]:
    """Parts that all claim a place, when there is more than one."""
    found = claims(job, key)
    return found if len(found) > 1 else []


def fitted_in_two(job: Job, part: str) -> list[str]:
    """Places that a part of this job is in, as both sides say, when there is more than one."""
    found = [key for key in places_of(job, part) if part in sides(job, key)]
    return found if len(found) > 1 and is_part(job, part) else []


def claims_of(job: Job, key: str) -> list[Record]:
    """Fittings and takings out at a place, and of the parts that fittings not replaced there name."""
    things = [position_thing(key), *sides(job, key)]
    return [one for thing in things for one in job.about(thing) if one.typ in SEATED]


def goes_in_as_one(job: Job, position: Position) -> bool:
    """True where one part has to sit: not for an assembly that has no route and was never taken off as a unit. What was
    added beneath on the job makes no assembly another."""
    if position.line.kind != "assembly":
        return position.line.kind == "part"
    if position.line.routes or not job.bill.children(position.key):
        return True
    return bool(came_from(job, position.key) or sides(job, position.key))


def handed_over(job: Job, part: str) -> int:
    """How many of it went to another job and were not given back."""
    given = sum(entry.value.quantity for entry in job.entries(part, "handed_over"))
    back = sum(entry.value.quantity for entry in job.entries(part, "given_back"))
    return int(given - back) if given else 0


def is_accounted_for(job: Job, part: str) -> bool:
    """True for a part that fills a place, or claims none and went with a reason or is with another job."""
    if place_of(job, part):
        return True
    return not places_of(job, part) and (disposition_of(job, part) in GONE or handed_over(job, part) > 0)


def is_to_go_in(job: Job, part: str) -> bool:
    """True for a part that claims no place, and that neither went with a reason nor to another job."""
    return not (places_of(job, part) or disposition_of(job, part) in GONE or handed_over(job, part))


def goes_back(job: Job, part: str) -> bool:
    """True for a part of which work, readings and answers are asked: one that claims a place, or has no disposition
    with which it need not go back."""
    return disposition_of(job, part) not in GONE or bool(places_of(job, part))
