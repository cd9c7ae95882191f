"""What was opened: parts that came off, joints that were opened, and what these reach.

All are records that have effect or were taken back; which of these still lie on a ground, `ground.py` says.
"""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.nouns.closing_over import closes_over, held_places, joints_around, reached_from
from teardown_app.domain.nouns.job import Job
from teardown_app.domain.nouns.spoken import spoken_of

SEATED = ("part.fitted", "part.taken_out")


def records_at(job: Job, keys: Iterable[str], *kinds: str) -> list[Record]:
    """Records of these kinds about any of these places."""
    return [one for key in keys for one in job.about(position_thing(key)) if one.typ in kinds]


def put_in_at(job: Job, keys: Iterable[str]) -> list[Record]:
    """Screws put in or taken out at any of these places."""
    return [one for one in records_at(job, keys, "hardware.moved") if "put_in" in one.body]


def coming_off(job: Job, keys: Iterable[str]) -> list[Record]:
    """Parts that came out of any of these places; of a fitting that was taken back nobody knows better."""
    found: list[Record] = []
    for key in keys:
        found += [entry.record for entry in job.ever(position_thing(key), "came_out")]
        found += records_at(job, [key], "part.taken_out")
        found += [one for one in records_at(job, [key], "part.fitted") if job.takings_back(one)]
    return found


def openings(job: Job, key: str) -> list[Record]:
    """Openings that reach the consumable at a place."""
    joints = joints_around(job, key)
    loosened = [one for one in put_in_at(job, joints) if one.body["put_in"] < 0 or _was_in(job, one)]
    return coming_off(job, reached_from(job, key)) + records_at(job, joints, "joint.opened") + loosened


def _was_in(job: Job, moved: Record) -> bool:
    """Screws put in, which somebody took back: they count as taken out."""
    return bool(moved.body["put_in"] > 0 and job.takings_back(moved))


def joined_at(job: Job, key: str) -> list[str]:
    """Places spoken of at and beneath what a joint holds or its line closes over."""
    return spoken_of(job, [*held_places(job, key), *closes_over(job, key)])


def before_torque(job: Job, key: str) -> list[Record]:
    """What a torque of the joint at a place rests on: all that happened at what it holds, its own screws."""
    keys = joined_at(job, key)
    there = records_at(job, keys, *SEATED, "consumable.renewed") + coming_off(job, keys)
    return there + put_in_at(job, [key]) + records_at(job, [key], "joint.opened")


def before_renewal(job: Job, key: str) -> list[Record]:
    """What a renewal rests on: openings that reach it, and fittings of what it lies on."""
    return openings(job, key) + records_at(job, spoken_of(job, closes_over(job, key)), "part.fitted")


def before_reading(job: Job, key: str) -> list[Record]:
    """What a reading at a place rests on: all that came and went there and beneath."""
    keys = spoken_of(job, [key])
    found = records_at(job, keys, *SEATED, "consumable.renewed", "joint.opened") + coming_off(job, keys)
    return found + put_in_at(job, keys)
