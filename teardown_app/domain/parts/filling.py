"""What fills a place, whether every part is accounted for, and what goes along with a unit that is lost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.ground import lying
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.claiming import places_of, recorded_in, sides
from teardown_app.domain.parts.going_back import GONE, goes_back, handed_over
from teardown_app.domain.parts.parts import came_from, disposition_of


@remembered
def holder(job: Job, key: str) -> str:
    """The part that fills a place for a part or assembly: the fitting is the last on both sides, and counts for the
    unit that the place lies in. Empty where none does."""
    part = recorded_in(job, key)
    if not part or not job.ancestors(key):
        return part
    fitted = (*job.heads(position_thing(key), "filled"), *job.heads(part, "fit"))
    return part if any(counts_for_unit(job, head.record, key) for head in fitted) else ""


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


# what is recorded beneath a place is recorded of the unit there, and goes when that one goes


class Lost(NamedTuple):
    """A part that a place has lost. `ends` says of each of its fittings there, or of the part where there is none, what
    ended it: who had seen one of these spoke of the next unit."""

    part: str
    ends: tuple[tuple[Record, ...], ...]


def counts_for_unit(job: Job, record: Record, key: str) -> bool:
    """Does a record about a place count for the units that the place lies in: had its author seen how each one that is
    lost went?"""
    return not lost_with(job, record, key)


def lost_with(job: Job, record: Record, key: str) -> str:
    """The part that was lost around a place together with what a record says of that; empty where the record counts."""
    gone = (each for above in job.ancestors(key) for each in lost(job, above))
    return next((one.part for one in gone if not _saw_it_go(job, record, one)), "")


def _saw_it_go(job: Job, record: Record, unit: Lost) -> bool:
    return all(any(job.knowing.knew(record, end) for end in ends) for ends in unit.ends)


def would_go_along(job: Job, key: str, above: str, part: str) -> Lost | None:
    """The unit together with which the part in a place would be lost once `part` is fitted above it; None where it
    stays."""
    fittings = [head.record for head in job.heads(position_thing(key), "filled")]
    gone = lost_once(job, above, part) if holder(job, key) else []
    return next((one for one in gone if not any(_saw_it_go(job, each, one) for each in fittings)), None)


def gone_along(job: Job, key: str) -> str:
    """The part that is recorded in a place and does not fill it, as it went along with a unit that is lost; empty where
    there is none. Fitting it once more says that it is in the unit there now."""
    part = recorded_in(job, key)
    return part if part != holder(job, key) else ""


@remembered
def lost(job: Job, key: str) -> list[Lost]:
    """Parts that a place has lost: that came out of it or were fitted there, and do not fill it, once another one was
    fitted there or they are gone for good."""
    fitted = _fitted_at(job, key)
    others = lost_once(job, key, holder(job, key))
    return [one for one in others if fitted.keys() - {one.part} or _is_gone(job, one.part)]


def lost_once(job: Job, key: str, part: str) -> list[Lost]:
    """Parts that a place has lost once a part fills it."""
    fitted = _fitted_at(job, key)
    known = (one for one in dict.fromkeys([*fitted, *came_from(job, key)]) if one != part)
    return [Lost(one, _ends_of(job, key, one, fitted.get(one, []))) for one in known]


def may_be_lost(job: Job, key: str) -> bool:
    """May a place have lost a part, now or before what was recorded last: several came out of it or were fitted there,
    or one that is gone for good?"""
    thing = position_thing(key)
    named = [entry.value for facet in ("filled", "came_out") for entry in job.ever(thing, facet) if entry.value]
    found = {job.group(one)[0] for one in (*named, *came_from(job, key))}
    return len(found) > 1 or any(_may_be_gone(job, part) for part in found)


def _may_be_gone(job: Job, part: str) -> bool:
    gone = any(entry.value in GONE for entry in job.ever(part, "disposition"))
    return gone or bool(job.ever(part, "handed_over"))


def _is_gone(job: Job, part: str) -> bool:
    return not goes_back(job, part) or handed_over(job, part) > 0


def _fitted_at(job: Job, key: str) -> dict[str, list[Record]]:
    """Parts that were ever fitted at a place, with their fittings there: taken back ones until that is accepted."""
    found: dict[str, list[Record]] = {}
    thing = position_thing(key)
    for entry in job.ever(thing, "filled"):
        if entry.value and lying(job, [entry.record], thing):
            found.setdefault(job.group(entry.value)[0], []).append(entry.record)
    return found


def _ends_of(job: Job, key: str, part: str, fitted: list[Record]) -> tuple[tuple[Record, ...], ...]:
    ends = tuple(_ends(job, key, part))
    if not fitted:
        return ((*ends, *_meant_instead(job, key, part)),)
    knew = job.knowing.knew
    return tuple((*(end for end in ends if knew(end, one)), *job.takings_back(one)) for one in fitted)


def _ends(job: Job, key: str, part: str) -> Iterator[Record]:
    """What says that a part is not, or not any more, what sits at a place."""
    thing = position_thing(key)
    yield from (entry.record for entry in job.entries(part, "meant_for") if entry.value != key)
    for entry in job.entries(part, "fit"):
        taken_out = entry.record.typ == "part.taken_out"
        if (entry.record.ent[1] == thing) == taken_out:
            yield entry.record
    others = (fitted for other, fitted in _fitted_at(job, key).items() if other != part)
    yield from (record for each in others for record in each)
    yield from (entry.record for entry in job.entries(part, "disposition") if entry.value in GONE)
    yield from (entry.record for entry in job.entries(part, "handed_over"))


def _meant_instead(job: Job, key: str, part: str) -> Iterator[Record]:
    """What says that other parts are meant for a place."""
    for thing in job.things("meant_for"):
        for entry in job.entries(thing, "meant_for"):
            if entry.value == key and part not in job.group(thing):
                yield entry.record
