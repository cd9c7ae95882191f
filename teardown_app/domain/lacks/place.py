"""A place for a part: what is wrong with the part in it, or with there being two."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.hole import hole_lacks
from teardown_app.domain.lacks.lack import (
    FOREIGN_OWNER,
    SWAPPED,
    TWICE,
    WRONG_COMPONENT,
    Lack,
    at_place,
    lack,
    taking_out,
)
from teardown_app.domain.lacks.twice import place_twice
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.claiming import claims_of
from teardown_app.domain.parts.filling import holder
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import is_part, origin_of, part_number_of
from teardown_app.domain.places.place import fits_place, keeps_set, set_of

WRONG_PARTS = (TWICE, FOREIGN_OWNER, WRONG_COMPONENT, SWAPPED)
"""What can be wrong with the part in a place."""

SAYS_WHAT_IT_IS = ("part.noted", "part.taken_off", "part.brought_in", "goods.taken_over")


def place_lacks(job: Job, position: Position) -> Iterator[Lack]:
    """All that is wrong with who fills a place that holds one part."""
    yield from place_twice(job, position)
    part = holder(job, position.key)
    if part:
        yield from _wrong(job, position, part)
    else:
        yield from hole_lacks(job, position)


def _wrong(job: Job, position: Position, part: str) -> Iterator[Lack]:
    """Of another job or owner, else of the wrong number, else from outside its matched set."""
    key, name = position.key, named(job, position.key)
    where, out = at_place(key, part), taking_out(part, key)
    number = part_number_of(job, part)

    def ground() -> list[Record]:
        return [*claims_of(job, key), *_noted(job, [part])]

    if not is_part(job, part) or origin_of(job, part) == "borrowed" or job.value(part, "owner") == "other job":
        yield lack(
            FOREIGN_OWNER, where, f"The part in {name} belongs to another job or owner.", to_do=out, ground=ground
        )
    elif not fits_place(job, position, number):
        wrong = f"{name} holds part number {number or 'unknown'}; it takes {position.line.part_number}."
        yield lack(WRONG_COMPONENT, where, wrong, to_do=out, ground=ground)
    elif position.line.matched_set and not keeps_set(job, position, part):
        wrong = f"{name} belongs to a matched set and holds a part from elsewhere."
        yield lack(SWAPPED, where, wrong, to_do=out, ground=lambda: _ground_of_set(job, key))


def _noted(job: Job, parts: Iterable[str]) -> list[Record]:
    """What was said of parts when they were brought in and since."""
    return [one for part in parts for one in job.about(part) if one.typ in SAYS_WHAT_IT_IS]


def _ground_of_set(job: Job, key: str) -> list[Record]:
    members = set_of(job, key)
    inside = [part for part in (holder(job, one) for one in members) if part]
    return [*(one for each in members for one in claims_of(job, each)), *_noted(job, inside)]
