"""Nobody honest is stuck, and no late record leaves a job closed that it touches."""

from __future__ import annotations

from collections import Counter
from functools import cache
from random import Random

import pytest
from hypothesis import assume, given

from tests.open_points.acts import ACTS, Bench
from tests.open_points.narrowing_acts import ACTS as NARROWING
from tests.open_points.narrowing_acts import Hand
from tests.open_points.tablets import JOB, SHOP, Clock, Tablet
from tests.open_points.worlds import World
from tests.proof.clearing import CLEARS, clear, concede_rest, work_off
from tests.proof.honest import Honest
from tests.proof.implementations import App, Twin
from tests.proof.random_hands import MANY, NUMBERS, QUICK, Going, short_worlds
from tests.proof.small_tool import TOOL, bench, bills

NOT_SIGNED = ("photo.taken", "thing.put", "part.tagged", "part.renumbered", "work.signed", "job.closed")
"""What a signature need not have seen."""
AS_OFTEN = 3
"""So many points of one kind are looked at in one world: our own figure."""


# -- doing what a point says ---------------------------------------------------------------------------


def what_it_says_clears_it(points: Twin | App, world: World, number: int) -> None:
    """Each of some points: what it says is done by somebody with all rights, and it is gone or conceded."""
    going, met = Going(points, world), Counter[str]()
    keys = sorted(going.open_now())
    Random(number).shuffle(keys)
    files, told = {file: len(records) for file, records in going.tablet.files.items()}, dict(going.tablet.told)
    for key in keys:
        kind = key.partition("|")[0]
        met[kind] += 1
        if kind in CLEARS and met[kind] <= AS_OFTEN:
            clear(going.hand, key)
            assert key not in going.open_now(), key
            _as_before(going.tablet, files, told)


def _as_before(tablet: Tablet, files: dict[tuple[str, str], int], told: dict[str, dict[str, tuple[int, str]]]) -> None:
    """What was written since is as if it had not been."""
    for file, records in tablet.files.items():
        del records[files.get(file, 0) :]
    tablet.told = {name: dict(seen) for name, seen in told.items()}


@QUICK
@given(short_worlds(), NUMBERS)
def test_doing_what_a_point_says_clears_it(points: Twin | App, world: World, number: int) -> None:
    """Points of every kind, as random worlds leave them."""
    what_it_says_clears_it(points, world, number)


@pytest.mark.faults
@MANY
@given(short_worlds(45), NUMBERS)
def test_doing_what_a_point_says_clears_it_many(points: Twin | App, world: World, number: int) -> None:
    """The same over many and longer worlds."""
    what_it_says_clears_it(points, world, number)


# -- every job can be closed ---------------------------------------------------------------------------


def somebody_closes_it(points: Twin | App, world: World) -> None:
    """What is never conceded is done, the rest conceded as it stands, then it is signed and closed."""
    going = Going(points, world)
    concede_rest(going.hand)
    assert (going.open_now(), going.is_closed()) == (set(), True)


@QUICK
@given(short_worlds())
def test_somebody_with_all_rights_closes_any_job(points: Twin | App, world: World) -> None:
    """Whatever was recorded before."""
    somebody_closes_it(points, world)


@pytest.mark.faults
@MANY
@given(short_worlds(45))
def test_somebody_with_all_rights_closes_any_job_many(points: Twin | App, world: World) -> None:
    """The same over many and longer worlds."""
    somebody_closes_it(points, world)


@cache
def small_job() -> Honest:
    """The small tool, taken apart, worked off by what its points say, and closed; read only."""
    hand = Honest(bench(), TOOL)
    hand.say("temporary.in", "@40")
    hand.say("joint.opened", "@10.40")
    for key in ("10.30", "10.10", "20", "30"):
        hand.say("part.taken_off", hand.tablet.thing(), out_of=key)
    work_off(hand)
    return hand


def closed(points: Twin | App, tablet: Tablet) -> bool:
    """Whether the job is closed, as one tablet knows it."""
    return points.is_closed(tablet.view(SHOP), JOB, tablet.view(JOB), bills)


def test_a_small_tool_is_taken_apart_and_put_together_by_what_its_points_say(points: Twin | App) -> None:
    """By true records alone: nothing is conceded, and no second person is needed."""
    hand = small_job()
    assert points(hand.tablet.view(SHOP), JOB, hand.tablet.view(JOB), bills) == []
    assert closed(points, hand.tablet)
    assert {each.typ for each in hand.tablet.view(JOB)} & {"point.conceded", "record.voided"} == set()


# -- a late record -------------------------------------------------------------------------------------


def late(points: Twin | App, number: int) -> None:
    """A tablet that had not heard of the closing does something; unless it is a photograph, a label, or where a thing
    lies, the job is open."""
    rng, done = Random(number), small_job().tablet
    other, here = Tablet("t2~0", Clock(hours=9.0)), Tablet("t3~0", Clock(hours=9.0))
    other.sync(done)
    here.sync(done)
    other.files["t1~0", JOB] = other.files["t1~0", JOB][:-2]
    acts = [*((act, Bench) for act in ACTS), *((act, Hand) for act in NARROWING)]
    act, sort = rng.choice(acts)
    late_hand = sort(other, TOOL, rng)
    late_hand.by = rng.choice(("AA", "RR", "EE"))
    act(late_hand)
    assume(other.own(JOB))
    for record in other.own(JOB):
        only_where = record.typ == "part.noted" and set(record.body) <= {"number", "place", "note"}
        here.files["t2~0", JOB] = [record._replace(seq=1, prev="")]
        assert record.typ in NOT_SIGNED or only_where or not closed(points, here), record


@QUICK
@given(NUMBERS)
def test_no_late_record_leaves_a_job_closed_that_it_touches(points: Twin | App, number: int) -> None:
    """Whatever it is, with the right or without."""
    late(points, number)


@pytest.mark.faults
@MANY
@given(NUMBERS)
def test_no_late_record_leaves_a_job_closed_that_it_touches_many(points: Twin | App, number: int) -> None:
    """The same, many times."""
    late(points, number)
