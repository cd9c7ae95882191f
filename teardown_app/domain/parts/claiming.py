"""What is recorded to sit where: which parts fittings name at a place, which places a part claims."""

from __future__ import annotations

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.parts import is_part

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
def recorded_in(job: Job, key: str) -> str:
    """The part that both sides of a place for a part or assembly say is in it; empty where they name no or several."""
    heads = job.heads(position_thing(key), "filled")
    if not heads or not takes_parts(job, key):
        return ""
    values = {job.group(head.value)[0] if head.value else "" for head in heads}
    part = values.pop() if len(values) == 1 else ""
    fits = {head.value for head in job.heads(part, "fit")} if part else set()
    return part if fits == {position_thing(key)} else ""


def takes_parts(job: Job, key: str) -> bool:
    """True for a place of this tool that is for a part or an assembly."""
    position = job.positions.get(key)
    return position is not None and position.line.kind in ("part", "assembly")


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
