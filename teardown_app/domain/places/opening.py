"""What was opened: parts that came off, joints that were opened, and what these reach.

All are records that have effect or were taken back; which of these still lie on a ground, `ground.py` says.
"""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.job.ground import stands_on
from teardown_app.domain.job.happened import (
    CHANGED,
    FITTED,
    HELD,
    OFF,
    OPENED,
    happened_at,
    happened_beneath,
    stand_on,
)
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.parts.filling import counts_for_unit
from teardown_app.domain.places.closing_over import closes_over, held_places, joints_around, reached_from


def records_at(job: Job, keys: Iterable[str], *kinds: str) -> list[Record]:
    """Records of these kinds about any of these places."""
    return [one for key in keys for one in job.about(position_thing(key)) if one.typ in kinds]


def _put_in_at(job: Job, keys: Iterable[str]) -> list[Record]:
    """Screws put in or taken out at any of these places."""
    return [one for one in records_at(job, keys, "hardware.moved") if "put_in" in one.body]


def coming_off(job: Job, keys: Iterable[str]) -> list[Record]:
    """Parts that came out of any of these places; of a fitting that was taken back nobody knows better."""
    return happened_at(job, keys, OFF)


def openings(job: Job, key: str) -> list[Record]:
    """Openings that reach the consumable at a place."""
    joints = joints_around(job, key)
    loosened = [one for one in _put_in_at(job, joints) if one.body["put_in"] < 0 or _was_in(job, one)]
    return coming_off(job, reached_from(job, key)) + records_at(job, joints, "joint.opened") + loosened


def _was_in(job: Job, moved: Record) -> bool:
    """Screws put in, which somebody took back: they count as taken out."""
    return bool(moved.body["put_in"] > 0 and job.takings_back(moved))


def joined_by(job: Job, key: str) -> list[str]:
    """What the joint at a place holds, and what its line closes over."""
    return list(dict.fromkeys([*held_places(job, key), *closes_over(job, key)]))


# grounds of verdicts: first whether a verdict stands, then all that lies there, one by one


def torque_stands(job: Job, torque: Record, key: str) -> bool:
    """Had the author of a torque seen all that happened at what the joint holds, and to its own screws, and is the unit
    there in which he tightened them?"""
    if not counts_for_unit(job, torque, key):
        return False
    own = stands_on(job, torque, _own_screws(job, key), position_thing(key))
    return own and stand_on(job, torque, joined_by(job, key), HELD)


def before_torque(job: Job, key: str) -> list[Record]:
    """What a torque of the joint at a place rests on."""
    return [*happened_beneath(job, joined_by(job, key), HELD), *_own_screws(job, key)]


def _own_screws(job: Job, key: str) -> list[Record]:
    return [*_put_in_at(job, [key]), *records_at(job, [key], "joint.opened")]


def put_in_stands(job: Job, moved: Record, key: str) -> bool:
    """Had the author of what was put in at a joint without a torque seen every opening of it, and all that came off at
    what it holds or closes over, and beneath?"""
    return stand_on(job, moved, [key], OPENED) and stand_on(job, moved, joined_by(job, key), OFF)


def renewal_stands(job: Job, renewal: Record, key: str) -> bool:
    """Had the author of a renewal seen every opening that reaches it, and every fitting of what it lies on?"""
    return stands_on(job, renewal, openings(job, key)) and stand_on(job, renewal, closes_over(job, key), FITTED)


def before_renewal(job: Job, key: str) -> list[Record]:
    """What a renewal rests on."""
    return [*openings(job, key), *happened_beneath(job, closes_over(job, key), FITTED)]


def place_reading_stands(job: Job, reading: Record, key: str) -> bool:
    """Had the author of a reading at a place seen all that came, went, was opened or renewed there and beneath?"""
    return stand_on(job, reading, [key], CHANGED) and counts_for_unit(job, reading, key)


def before_reading(job: Job, key: str) -> list[Record]:
    """What a reading at a place rests on."""
    return happened_beneath(job, [key], CHANGED)
