"""Two fittings where there can be one: two parts in a place, or one part in two places."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import TWICE, Lack, Where, at_place, lack, standing, taking_out
from teardown_app.domain.parts.claiming import claimants, claims_of, fitted_in_two, fitted_twice, places_of
from teardown_app.domain.parts.naming import named, part_named


def place_twice(job: Job, position: Position) -> Iterator[Lack]:
    """One lack while two parts or more are in a place, as each of them and the place say."""
    key = position.key
    found = fitted_twice(job, key)
    if found:
        parts = ", ".join(part_named(job, part) for part in found)
        wrong = f"{len(found)} parts are recorded in {named(job, key)}: {parts}."
        yield lack(TWICE, at_place(key), wrong, to_do=taking_out(found[-1], key), ground=claims_of(job, key))


def part_twice(job: Job, part: str) -> Iterator[Lack]:
    """One lack while a part is in two places or more, and none of these has such a point of its own that is open."""
    keys = fitted_in_two(job, part)
    if not keys or any(_is_open(job, key) for key in keys):
        return
    wrong = f"{part_named(job, part)} is recorded in {' and '.join(named(job, key) for key in keys)}."
    ground = [one for key in keys for one in claims_of(job, key)]
    yield lack(TWICE, Where(part, "", part), wrong, to_do=taking_out(part, keys[-1]), ground=ground)


def _is_open(job: Job, key: str) -> bool:
    return any(True for _ in standing(job, place_twice(job, job.positions[key])))


def is_twice_at(job: Job, key: str) -> bool:
    """Is an open double fitting about a place, or about a part that claims it?"""
    return _is_open(job, key) or any(_is_in_two(job, part) for part in claimants(job, key))


def is_twice_of(job: Job, part: str) -> bool:
    """Is an open double fitting about a part, or about a place that it claims?"""
    return _is_in_two(job, part) or any(_is_open(job, key) for key in places_of(job, part))


def _is_in_two(job: Job, part: str) -> bool:
    return any(True for _ in standing(job, part_twice(job, part)))
