"""The random worlds hold what they are there for: entries that differ, of every facet that can; others each time."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.facets import FACETS
from teardown_app.domain.ledger.facts import Facts
from tests.open_points.at_odds import CASES
from tests.open_points.tablets import JOB
from tests.open_points.worlds import FIXED, fixed, fresh_seed

NEVER: dict[str, str] = {}
"""Facets that cannot be seen with two different heads, each with its reason."""


def differing(facts: Facts) -> Iterator[str]:
    """Facets of which some thing has two heads that differ."""
    for thing in {
        each for facet in FACETS for name in (facet, *facts.written_facets(facet)) for each in facts.things(name)
    }:
        yield from (facet.partition("/")[0] for facet in facts.contested(thing) if facts.differs(thing, facet))


def test_every_facet_with_heads_is_met_with_two_that_differ() -> None:
    """Over the fixed worlds; what nobody ever said differently shows nothing of what holds then."""
    met: set[str] = set()
    for number in FIXED:
        world = fixed(number)
        job = replay(world.shop, JOB, world.job, world.bills)
        met |= {*differing(job), *differing(job.shop)}
    heads = {facet for facet, merge in FACETS.items() if merge.rule in ("heads", "worst")}
    assert heads - met == set(NEVER)


def test_two_tablets_can_be_at_odds_over_every_facet_with_heads() -> None:
    """The acts of the worlds know each of them."""
    heads = {facet for facet, merge in FACETS.items() if merge.rule in ("heads", "worst")}
    assert {facet.partition("/")[0] for facet in CASES} == heads - set(NEVER)


def test_the_same_seed_makes_the_same_world() -> None:
    """So a failing one can be looked at again."""
    assert [each.h for each in fixed(3).job] == [each.h for each in fixed(3).job] != [each.h for each in fixed(4).job]


def test_the_long_loops_draw_other_worlds_each_time_unless_a_seed_is_given(monkeypatch: pytest.MonkeyPatch) -> None:
    """`make faults` hands one in and prints it."""
    monkeypatch.delenv("WORLDS_SEED", raising=False)
    assert len({fresh_seed() for _ in range(5)}) > 1
    monkeypatch.setenv("WORLDS_SEED", "1772000000")
    assert fresh_seed() == fresh_seed() == 1772000000
