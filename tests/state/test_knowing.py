"""Who had seen what on forks of several records, taken in one by one in any order, against the naive walk."""

from __future__ import annotations

from random import Random

import pytest

from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.ledger.runs import Runs, cut, joined
from tests.open_points.naive_knowing import known_to, not_here, shelf_of, two_versions, wanted
from tests.open_points.tablets import JOB, Clock, Tablet

SEEDS = range(60)
THINGS = (f"{JOB}:t1~0:1:1", f"{JOB}:t1~0:2:1", f"{JOB}:t1~0:3:1")


def put(tablet: Tablet, thing: str, place: str, **more: bool) -> Record:
    """Somebody says where a thing lies: the last word on it holds."""
    return tablet.write("AA", "thing.put", (thing,), {"place": place}, **more)


def told(seed: int, lost: int = 0) -> list[Record]:
    """What some tablets wrote, several of them started from copies of one, forks within forks; some records lost.
    Of every second seed a tablet hears of several others at once."""
    rng, clock = Random(seed), Clock()
    tablets = [Tablet(f"t{n}~0", clock) for n in range(1, 3 + seed % 2)]
    for _ in range(rng.randrange(10, 60)):
        tablet = rng.choice(tablets)
        act = rng.random()
        if act < 0.1 and len(tablets) < 5:
            tablets.append(tablet.copied())
        elif act < 0.35:
            for other in rng.choices(tablets, k=1 + 2 * (seed % 2)):
                tablet.sync(other)
        else:
            put(tablet, rng.choice(THINGS), f"RACK {rng.randrange(4)}", new_file=rng.random() < 0.05)
    records = list({one.h: one for tablet in tablets for one in tablet.view(JOB)}.values())
    return rng.sample(records, max(1, len(records) - lost))


def facts() -> Facts:
    """A ledger in which everybody may do everything."""
    return Facts(lambda record, right, knowing: True)


def same_as_walked(ledger: Facts, here: list[Record]) -> None:
    """The ledger tells of each pair, of gaps and of forks what a walk over all records finds."""
    shelf, knowing = shelf_of(here), ledger.knowing
    for later in here:
        known = known_to(shelf, later)
        found = {one.ref for one in here if one is not later and knowing.knew(later, one)}
        assert found == known, later.ref
        assert not knowing.knew(later, later), "nobody had seen what he only writes"
    want = wanted(shelf, JOB)
    gone = [(file[0], first) for file in want for first in not_here(shelf.get(file, {}), want[file], None, ())]
    assert [(gap.dev, gap.first) for gap in knowing.gaps()] == sorted(gone)
    assert knowing.forks() == sorted((dev, seq) for (dev, _), seq in two_versions(shelf, JOB))
    at_once = facts()
    at_once.take_all(here)
    for thing in THINGS:
        assert ledger.heads(thing, "place") == at_once.heads(thing, "place")


@pytest.mark.parametrize("seed", SEEDS)
def test_forks_taken_in_any_order(seed: int) -> None:
    """After each third record, and at the end, everything is as the walk finds it."""
    rng = Random(seed)
    arriving = told(seed, lost=rng.choice((0, 0, 2, 5)))
    if rng.random() < 0.6:
        arriving.sort(key=lambda one: (one.seq, rng.random()))
    ledger = facts()
    for n, record in enumerate(arriving, 1):
        ledger.take(record)
        if n % 3 == 0 or n == len(arriving):
            same_as_walked(ledger, arriving[:n])


@pytest.mark.parametrize("seed", SEEDS)
def test_forks_taken_in_at_once(seed: int) -> None:
    """The same of all records at once."""
    ledger, here = facts(), told(seed, lost=seed % 4)
    ledger.take_all(here)
    same_as_walked(ledger, here)


def test_the_seeds_hold_forks_of_several_records_and_forks_within_forks() -> None:
    """Else the tests above would show little."""
    branches = []
    for seed in SEEDS:
        here = two_versions(shelf_of(told(seed)), JOB)
        branches.append(len(here))
    assert sum(length >= 5 for length in branches) > len(SEEDS) / 3


def test_the_seeds_hold_tablets_that_had_seen_several_branches() -> None:
    """Of others, of their own file, and more of a branch than is here."""
    named = [(one.dev, key) for seed in SEEDS for one in told(seed) for key in one.seen if "#" in key]
    own = [key for dev, key in named if key.startswith(dev)]
    assert len(own) > len(SEEDS) / 2 and len(named) - len(own) > len(SEEDS) / 2
    lost = [seed for seed in SEEDS if _names_a_branch_that_is_not_here(told(seed, lost=5))]
    assert len(lost) > len(SEEDS) / 10


def _names_a_branch_that_is_not_here(here: list[Record]) -> bool:
    begun = {one.h[:8] for one in here}
    named = {key.partition("#")[2] for one in here for key in one.seen if "#" in key}
    return not named <= begun


def branch(tablet: Tablet, length: int) -> list[Record]:
    """A tablet goes on."""
    return [put(tablet, THINGS[0], f"RACK {n}") for n in range(length)]


def test_a_record_that_goes_on_a_branch_is_taken_in_alone() -> None:
    """Only the first record of a second branch makes everything be concluded anew."""
    first = Tablet("t1~0", Clock())
    branch(first, 3)
    twin = first.copied()
    here, there = branch(first, 5), branch(twin, 4)
    ledger = facts()
    ledger.take_all(first.own(JOB))
    before = ledger.generation
    ledger.take(there[0])
    assert ledger.generation == before + 1
    for record in there[1:]:
        ledger.take(record)
    assert ledger.generation == before + 1
    ledger.take(branch(first, 1)[0])
    assert ledger.generation == before + 1
    same_as_walked(ledger, [*first.own(JOB), *there])
    assert ledger.knowing.knew(there[2], first.own(JOB)[2]) and not ledger.knowing.knew(there[2], here[0])


def met() -> tuple[Tablet, list[Record], list[Record], list[Record]]:
    """A third tablet that has both branches of the first; the records before them, and of each."""
    first = Tablet("t1~0", Clock())
    before = branch(first, 2)
    twin = first.copied()
    here, there = branch(first, 3), branch(twin, 2)
    third = Tablet("t3~0", first.clock)
    third.sync(first)
    third.sync(twin)
    return third, before, here, there


def test_who_has_both_branches_had_seen_both() -> None:
    """`t1~0` names the one, `t1~0#` and its first record the other; each reaches back from its last record."""
    third, before, here, there = met()
    later = put(third, THINGS[0], "RACK 9")
    assert later.seen == {"t1~0": (5, here[-1].h[:8]), f"t1~0#{there[0].h[:8]}": (4, there[-1].h[:8])}
    ledger = facts()
    ledger.take_all([*before, *here, *there, later])
    assert ledger.knowing.knew_all(later, [*before, *here, *there])
    assert [one.record for one in ledger.heads(THINGS[0], "place")] == [later]


def test_who_wrote_on_one_branch_can_have_seen_the_other() -> None:
    """The own branch goes without saying, the other one is named."""
    third, before, here, there = met()
    first = Tablet("t1~0", third.clock, files={("t1~0", JOB): [*before, *here]})
    first.sync(third)
    blind, later = here[-1], put(first, THINGS[0], "RACK 9")
    assert later.seen == {f"t1~0#{there[0].h[:8]}": (4, there[-1].h[:8])}
    ledger = facts()
    ledger.take_all([*before, *here, *there, later])
    assert ledger.knowing.knew_all(later, [*before, *here, *there])
    assert not any(ledger.knowing.knew(blind, one) or ledger.knowing.knew(one, later) for one in there)


def test_a_branch_that_is_not_here_says_nothing_of_one_that_is() -> None:
    """Else somebody would seem to have seen what he wrote later himself."""
    third, before, here, there = met()
    first = Tablet("t1~0", third.clock, files={("t1~0", JOB): [*before, here[0]]})
    first.sync(third)
    early = put(first, THINGS[0], "RACK 9", seen={f"t1~0#{there[0].h[:8]}": (9, "0" * 8)})
    later = put(first, THINGS[0], "RACK 8")
    ledger = facts()
    ledger.take_all([*before, here[0], early, later])
    assert ledger.knowing.knew(later, early) and not ledger.knowing.knew(early, later)


def test_a_number_that_nobody_reached_costs_nothing() -> None:
    """A record can name any number as seen; 10^9 is far more than a tablet ever writes."""
    ledger, first, second = facts(), Tablet("t1~0", Clock()), Tablet("t2~0", Clock())
    for n in range(3):
        put(first, THINGS[0], f"RACK {n}")
    seen = {"t1~0": (10**9, "0badc0de"), "_shop/t1~0": (10**9, "0badc0de")}
    record = second.write("RR", "thing.put", (THINGS[0],), {"place": "RACK 9"}, seen=seen)
    ledger.take_all([record, *first.own(JOB)[:1], *first.own(JOB)[2:]])
    assert ledger.knowing.gaps() == [("t1~0", 2, 2), ("t1~0", 4, 10**9)]
    assert ledger.knowing.shop_gaps(facts().knowing) == [("t1~0", 1, 10**9)]
    ledger.take(first.own(JOB)[1])
    assert ledger.knowing.gaps() == [("t1~0", 4, 10**9)]


@pytest.mark.parametrize("seed", SEEDS)
def test_runs_hold_what_a_set_of_the_same_numbers_holds(seed: int) -> None:
    """Grown, taken out of, and cut at random, against a plain set."""
    rng, runs, plain = Random(seed), Runs(), set[int]()
    for _ in range(40):
        first = max(plain, default=0) + rng.randrange(1, 4)
        last = first + rng.randrange(6)
        runs.grow(first, last)
        plain |= {*range(first, last + 1)}
        gone = {rng.randrange(last + 2) for _ in range(rng.choice((1, 3, 30)))}
        runs.discard_all(gone)
        plain -= gone
    assert [n for one, end in runs for n in range(one, end + 1)] == sorted(plain)
    assert joined(runs) == [*runs]
    cuts = [rest for run in runs for rest in cut(run, last // 2, gone)]
    left = [n for n in sorted(plain - gone) if n <= last // 2]
    assert [n for one, end in cuts for n in range(one, end + 1)] == left
