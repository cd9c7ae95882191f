"""The photographs that readers are measured on, by group: all drawn by program (`tests/scanbench`)."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from attrs import frozen

from tests.scanbench import MODERATE_FROM, Drawn, Spec, frame, greased, moderate, plan, stained
from tests.scanbench.strangers import known_tags

MODERATE_SEEDS = range(9_101, 9_111)
"""Ten seeds for `moderate`; none of them was used to choose a step."""

PLAN_SEED = 9_200
KNOWN = known_tags(500)
STAINED_FROM, GREASED_FROM = 200_000, 300_000


@frozen
class Task:
    """One photograph to be drawn and read."""

    group: str
    i: int
    spec: Spec
    seed: int
    all_readers: bool = True
    """False: the slow readers are left out, to keep the run short."""
    number: str = ""
    """One of those known, for a label of ours; empty: a text by lot."""

    def draw(self) -> tuple[np.ndarray, list[Drawn]]:
        """The photograph and its labels."""
        return frame(self.i, self.spec, seed=self.seed, numbers=[self.number] if self.number else ())


def tasks(moderate_each: int, plan_every: int) -> list[Task]:
    """So many of `moderate` for each of the ten seeds, every so-manieth of the plan, stains and grease."""
    return [*_moderate(moderate_each), *_planned(plan_every), *_dirty()]


def _moderate(each: int) -> Iterator[Task]:
    for seed in MODERATE_SEEDS:
        for i, spec in enumerate(moderate(each, seed)):
            yield Task("moderate", MODERATE_FROM + i, spec, seed, all_readers=i % 4 == 0, number=KNOWN[i])


def _planned(every: int) -> Iterator[Task]:
    for i, spec in list(enumerate(plan(PLAN_SEED)))[::every]:
        group = f"tray of {spec.labels}" if spec.labels > 1 else spec.group
        yield Task("no code" if not spec.labels else group, i, spec, PLAN_SEED)


def _dirty() -> Iterator[Task]:
    for percent in (5, 10, 15, 20):
        for i, spec in enumerate(stained(percent / 100, 30, PLAN_SEED)):
            yield Task(f"stained {percent} %", STAINED_FROM + 100 * percent + i, spec, PLAN_SEED, number=KNOWN[i])
    for percent in (5, 10, 20):
        for i, spec in enumerate(greased(percent / 100, 30, PLAN_SEED)):
            yield Task(f"greased {percent} %", GREASED_FROM + 100 * percent + i, spec, PLAN_SEED, number=KNOWN[i])
