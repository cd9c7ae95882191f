"""What fills a place, where a part sits, and whether every part is accounted for."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.parts import came_from, disposition_of

GONE = ("scrap", "spare", "return unrepaired")
"""Dispositions with which a part need not go back into the tool."""


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


def fitted_twice(job: Job, key: str) -> list[str]:
    """Parts that all claim a place, when there is more than one."""
    claims = [part for part in sides(job, key) if key in places_of(job, part)]
    return claims if len(claims) > 1 else []


def goes_in_as_one(job: Job, position: Position) -> bool:
    """True where one part has to sit: not for an assembly that was never taken off as a unit."""
    if position.line.kind != "assembly":
        return position.line.kind == "part"
    if not job.children(position.key):
        return True
    return bool(came_from(job, position.key) or sides(job, position.key))


def is_asked(job: Job, key: str) -> bool:
    """True where something is asked of a place itself before the tool runs: a part, screws, a seal, or to look
    whether something is still in."""
    position = job.positions[key]
    if job.scope(key).counts != "in":
        return False
    if position.line.kind == "hardware":
        return bool(position.count)
    return position.line.kind in ("consumable", "temporary") or goes_in_as_one(job, position)


def left_in(job: Job, key: str) -> bool:
    """True where what was found stayed in its place."""
    return job.scope(key).counts == "left"


def is_filled(job: Job, position: Position) -> bool:
    """True where nothing is missing at this place and, for an assembly in scope, anywhere beneath it."""
    if not _wants_a_part(job, position):
        return job.scope(position.key).counts != "in" or not _is_empty_beneath(job, position.key)
    return bool(holder(job, position.key)) and not _is_empty_beneath(job, position.key)


def _wants_a_part(job: Job, position: Position) -> bool:
    return job.scope(position.key).counts == "in" and goes_in_as_one(job, position)


def _is_empty_beneath(job: Job, key: str) -> bool:
    """A place in scope counts also beneath an assembly that was left fitted."""
    return any(_wants_a_part(job, one) and not holder(job, one.key) for one in job.beneath(key))


def handed_over(job: Job, part: str) -> int:
    """How many of it went to another job and were not given back."""
    given = sum(entry.value.get("quantity", 1) for entry in job.entries(part, "handed_over"))
    back = sum(entry.value.get("quantity", 1) for entry in job.entries(part, "given_back"))
    return int(given - back) if given else 0


def is_accounted_for(job: Job, part: str) -> bool:
    """True for a part that fills a place, went with a reason, or is with another job."""
    if place_of(job, part):
        return True
    if places_of(job, part):
        return False
    return disposition_of(job, part) in GONE or handed_over(job, part) > 0


def is_to_go_in(job: Job, part: str) -> bool:
    """True for a part that claims no place, and that neither went with a reason nor to another job."""
    return not (places_of(job, part) or disposition_of(job, part) in GONE or handed_over(job, part))
