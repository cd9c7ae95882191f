"""Random worlds, and after them hands that go on in them, record by record."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import Any

from hypothesis import HealthCheck, assume, settings
from hypothesis import strategies as st

from teardown_app.domain.ledger.record import Record
from tests.open_points import narrowing_acts
from tests.open_points.acts import ACTS, Bench
from tests.open_points.tablets import JOB, SHOP
from tests.open_points.worlds import World, worlds
from tests.proof.honest import Honest, all_on_one
from tests.proof.implementations import App, Standing, Twin

QUICK = settings(max_examples=50, deadline=None, database=None, suppress_health_check=list(HealthCheck))
LONG = settings(QUICK, max_examples=15)
"""For worlds of which each is a whole job from the dock to the end."""
MANY = settings(QUICK, max_examples=2000, derandomize=False)

BENCHES: list[tuple[Any, type[Bench]]] = [
    *((act, Bench) for act, often in ACTS.items() for _ in range(often)),
    *((act, narrowing_acts.Hand) for act, often in narrowing_acts.ACTS.items() for _ in range(often)),
]
"""What people do, as often as in the worlds."""

NUMBERS = st.integers(0, 2**32 - 1)


def short_worlds(most: int = 30) -> st.SearchStrategy[World]:
    """Worlds of fewer steps; in about a third of them tablets go on from copies."""
    return worlds(most, copied=0.02)


class Going:
    """A world on one tablet, where its first person and one more, RR, go on; RR has the right *record* alone."""

    def __init__(self, points: Twin | App, world: World) -> None:
        self.program, self.world = points, world
        self.tablet = all_on_one(world)
        self.hand = Honest(self.tablet, world.bill)
        assume(self.hand.has_all_rights())
        self.hand.shop("person.given", "person:RR", code="RR", rights=["record"])

    def standing(self) -> dict[str, Standing]:
        """All points now."""
        shop, job = self.tablet.view(SHOP), self.tablet.view(JOB)
        return {each.key: each for each in self.program(shop, JOB, job, self.hand.bills, self.world.others)}

    def open_now(self) -> set[str]:
        """Keys of open points now."""
        return {key for key, each in self.standing().items() if each.state == "open"}

    def is_closed(self) -> bool:
        """Whether the job is closed."""
        return self.program.is_closed(self.tablet.view(SHOP), JOB, self.tablet.view(JOB), self.hand.bills)

    def acts(self, rng: Random, by: str, corrections: float = 0.3) -> Iterator[Record]:
        """One act of a person; its records are there one after the other, each as it is handed out."""
        act, bench = rng.choice(BENCHES) if rng.random() >= corrections else (Bench.correct, Bench)
        hand, own = bench(self.tablet, self.world.bill, rng), self.tablet.own(JOB)
        hand.by, before = by, len(own)
        act(hand)
        written = own[before:]
        del own[before:]
        for record in written:
            own.append(record)
            yield record
