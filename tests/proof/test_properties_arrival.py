"""Points are a function of the set of records; strangers only add to it; answers are kept."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given

from teardown_app.domain.ledger.record import Record
from tests.open_points.acts import ACTS, Bench
from tests.open_points.story import EVERYTHING
from tests.open_points.tablets import JOB, SHOP, Clock, Tablet
from tests.open_points.worlds import World
from tests.proof.clearing import CLEARS, clear
from tests.proof.honest import Honest
from tests.proof.implementations import App, Arrivals, Standing, Twin
from tests.proof.random_hands import MANY, NUMBERS, QUICK, Going, short_worlds
from tests.proof.small_tool import TOOL, bench, bills, told


def found(points: Twin | App, world: World, records: list[Record]) -> list[Standing]:
    """Points of these records, all at once."""
    shop = [each for each in records if each.job == SHOP]
    return sorted(points(shop, JOB, [each for each in records if each.job == JOB], world.bills))


# -- any order, split, repetition and half -------------------------------------------------------------


def order_says_nothing(points: Twin | App, world: World, number: int) -> None:
    """Handed over in another order and some of them twice; and taken in one by one, in two halves, of which the second
    brings some of the first again."""
    rng, records = Random(number), [*world.shop, *world.job]
    wanted = found(points, world, records)
    assert found(points, world, rng.sample(records, len(records)) + rng.sample(records, len(records) // 3)) == wanted
    arriving = rng.sample(records, len(records))
    half = rng.randrange(len(arriving) + 1)
    tablet = points.arriving(JOB, world.bills)
    _takes(tablet, arriving[:half])
    assert sorted(tablet.points()) == found(points, world, arriving[:half])
    _takes(tablet, rng.sample(arriving[:half], half // 2) + arriving[half:])
    assert sorted(tablet.points()) == wanted


def _takes(tablet: Arrivals, records: list[Record]) -> None:
    for record in records:
        tablet.take(record)


@QUICK
@given(short_worlds(45), NUMBERS)
def test_order_split_and_repetition_say_nothing(points: Twin | App, world: World, number: int) -> None:
    """Live equals all at once, also half way."""
    order_says_nothing(points, world, number)


@pytest.mark.faults
@MANY
@given(short_worlds(90), NUMBERS)
def test_order_split_and_repetition_say_nothing_many(points: Twin | App, world: World, number: int) -> None:
    """The same over many and longer worlds."""
    order_says_nothing(points, world, number)


# -- a shop that nobody joined -------------------------------------------------------------------------


def strangers_take_nothing_away(points: Twin | App, world: World, number: int) -> None:
    """Somebody who founded his own shop does this and that in the job, with all the rights he gave himself. He does not
    open it under its own number: that the records do not tell from the tablet that issued the number (decision 26)."""
    going, rng = Going(points, world), Random(number)
    before = going.open_now()
    stranger = Tablet("t8~0", Clock(hours=1500.0, ticks=2 * 10**6))
    stranger.write("GG", "person.given", ("person:GG",), {"code": "GG", "rights": EVERYTHING}, journal=SHOP)
    stranger.sync(going.tablet, (JOB,))
    for _ in range(6):
        act = rng.choice([each for each in ACTS if each not in (Bench.open_again, Bench.nonsense)])
        hand = Bench(stranger, world.bill, rng)
        hand.by = rng.choice(("GG", "AA"))
        act(hand)
        for each in [each for each in rng.sample(sorted(before), len(before)) if each.partition("|")[0] in CLEARS][:1]:
            _tries(stranger, world, each)
    going.tablet.sync(stranger)
    after = going.open_now()
    assert before <= after
    assert f"record by someone without the right|job|{stranger.dev}" in after or not stranger.own(JOB)


def _tries(stranger: Tablet, world: World, key: str) -> None:
    """He does what a point says, as he sees it."""
    hand = Honest(stranger, world.bill, by="GG")
    if key in {each.key for each in hand.points()}:
        clear(hand, key)


@QUICK
@given(short_worlds(25), NUMBERS)
def test_a_shop_that_nobody_joined_adds_points_and_removes_none(points: Twin | App, world: World, number: int) -> None:
    """Its records are kept, and have no effect."""
    strangers_take_nothing_away(points, world, number)


@pytest.mark.faults
@MANY
@given(short_worlds(45), NUMBERS)
def test_a_shop_that_nobody_joined_removes_no_point_many(points: Twin | App, world: World, number: int) -> None:
    """The same over many and longer worlds."""
    strangers_take_nothing_away(points, world, number)


# -- answers are kept ----------------------------------------------------------------------------------


def half_done(rules: int) -> Tablet:
    """The small tool half way, with a lie of each sort in it; always the same records but for the number of rules."""
    tablet = bench(rules)
    hand = Honest(tablet, TOOL, by="RR")
    rotor = hand.say("part.taken_off", tablet.thing(), out_of="10.10").ent[0]
    lid = hand.say("part.taken_off", tablet.thing(), out_of="10.30").ent[0]
    hand.say("configuration.received", "@20", as_="not on this tool")
    hand.say("consumable.renewed", "@10.20", as_="renewed", lot="7", expiry="2027-01-01")
    opened = hand.say("joint.opened", "@10.40")
    hand.say("record.voided", "@10.40", record=opened.ref, why="slip")
    hand.say("hardware.counted", "@10.50", found=1)
    hand.say("hardware.moved", "@10.50", found_short=1, search="drip tray")
    hand.say("hardware.moved", "@10.50", added=1)
    hand.say("hardware.moved", "@10.50", put_in=2)
    hand.say("part.noted", rotor, origin="repaired")
    hand.say("finding.noted", lid, word="scored", cause="wear", covered=True)
    hand.say("part.fitted", lid, "@10.30")
    return tablet


KEPT = """
check due|10|check/leak//fitted
check due|J7K3M00012:t1~0:2:1|check/runout//finished
fitted over an empty position|10.30|10.10
hardware does not balance|10.40|
joint not torqued or due again|10.40|
missing|30|
not released|J7K3M00012:t1~0:3:1|
tagged but unaccounted for|J7K3M00012:t1~0:2:1|
temporary in or out wrongly|40|running
temporary in or out wrongly|40|shipping
to be accepted|10.40|7
to be accepted|10.50|9
to be accepted|20|4
to be accepted|J7K3M00012:t1~0:2:1|12
to be accepted|J7K3M00012:t1~0:3:1|13
""".strip().split("\n")
"""What rules number 2 answer to these records, record names shortened to their numbers: the same for ever."""


def answers(points: Twin | App, tablet: Tablet) -> list[str]:
    """Keys of all points, names of records shortened to their numbers."""
    standing = points(tablet.view(SHOP), JOB, tablet.view(JOB), bills)
    names = {each.ref: str(each.seq) for each in told(tablet)}
    return sorted("|".join(names.get(one, one) for one in each.key.split("|")) for each in standing)


@pytest.mark.parametrize("rules", [1, 2])
def test_a_job_keeps_its_answers(points: Twin | App, rules: int) -> None:
    """Under number 2, and jobs that say 1, of which nothing was released."""
    assert answers(points, half_done(rules)) == sorted(KEPT)


@pytest.mark.parametrize(("number", "more"), [(1, []), (2, []), (3, ["record from a newer app|job|15"])])
def test_a_number_of_rules_in_an_amendment_changes_no_answer_here(
    points: Twin | App, number: int, more: list[str]
) -> None:
    """A lower one or the same changes nothing; one that is not known here is said, and changes nothing else."""
    tablet = half_done(2)
    Honest(tablet, TOOL, by="OO").say("job.amended", "job", rules=number, why="asked")
    assert answers(points, tablet) == sorted([*KEPT, *more])


def test_a_job_opened_under_rules_that_are_not_known_here_is_never_done(points: Twin | App) -> None:
    """It asks nothing that is known here, and says so."""
    tablet = half_done(3)
    assert "record from a newer app|job|1" in answers(points, tablet)
    Honest(tablet, TOOL).close()
    assert not points.is_closed(tablet.view(SHOP), JOB, tablet.view(JOB), bills)
