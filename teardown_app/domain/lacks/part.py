"""Lacks of a part as a whole: it is in no place of the tool and nobody said where it went."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.hole import hole_lacks
from teardown_app.domain.lacks.lack import FOREIGN_PIECE, UNACCOUNTED, Lack, ToDo, lack, of_part, standing
from teardown_app.domain.lacks.twice import is_twice_of
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.claiming import claims_of, places_of
from teardown_app.domain.parts.filling import gone_along, holder, is_accounted_for
from teardown_app.domain.parts.naming import part_named
from teardown_app.domain.parts.parts import is_new
from teardown_app.domain.parts.seat import seat_of
from teardown_app.domain.places.hardware import GOODS


def unaccounted(job: Job, part: str) -> Iterator[Lack]:
    """One lack while a part neither fills a place nor went with a reason; a double fitting speaks for itself."""
    if is_accounted_for(job, part):
        return
    seat, where = seat_of(job, part), of_part(job, part)
    name = part_named(job, part, where.position)
    if not seat and not is_new(job, part):
        wrong = f"{name} belongs to no place of the tool."
        yield lack(FOREIGN_PIECE, where, wrong, ground=lambda: _ground(job, part, seat, "part.noted"))
    elif not is_twice_of(job, part) and not _went_along(job, part):
        to_do = ToDo("part fit", part) if seat and not _is_looked_for(job, part, seat) else None
        wrong = f"{name} is in no place of the tool."
        yield lack(UNACCOUNTED, where, wrong, to_do=to_do, ground=lambda: _ground(job, part, seat))


def _went_along(job: Job, part: str) -> bool:
    """Does the hole speak of it that a part left, as it went along with its unit?"""
    left = (job.positions[key] for key in places_of(job, part) if gone_along(job, key) == part)
    return any(True for one in left for _ in standing(job, hole_lacks(job, one)))


def _is_looked_for(job: Job, part: str, seat: list[str]) -> bool:
    """It was fitted where another one is now, or another fills its place: a person looks which is where."""
    return bool(places_of(job, part)) or all(holder(job, key) for key in seat)


def _ground(job: Job, part: str, seat: list[str], *more: str) -> list[Record]:
    kinds = ("disposition.given", *GOODS, *more)
    claimed = [one for key in seat for one in claims_of(job, key)]
    return [*claimed, *(one for one in job.about(part) if one.typ in kinds)]
