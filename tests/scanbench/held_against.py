"""Drawn photographs held against known tags, on both cores: how many are taken, and never a wrong one."""

from __future__ import annotations

import math
import os
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import lru_cache
from multiprocessing import get_context
from time import perf_counter

from attrs import field, frozen

from teardown_app.intake.comparison.chance import SURE, WORTH_ASKING
from teardown_app.intake.comparison.compare import compare
from teardown_app.intake.comparison.known_tags import KnownTags
from tests.scanbench.photo import frame
from tests.scanbench.spec import Spec

CORES = 2
NO_DEADLINE_S = math.inf
ALWAYS = 2.0


@frozen
class Asked:
    """One photograph: what is drawn, what the label holds, which tags the tablet knows."""

    spec: Spec
    place: int
    seed: int
    number: str
    """A number of ours; empty where the label holds a foreign text, or where no label is."""
    known: tuple[str, ...]
    deadline_s: float = NO_DEADLINE_S


@frozen
class Counts:
    """What became of many photographs."""

    pictures: int
    right: int
    wrong: tuple[str, ...] = field(repr=False)
    offered: int
    offered_wrong: int
    seconds: float
    chances: tuple[float, ...] = field(repr=False)
    """Of each photograph that was compared: the least chance, as computed."""

    @property
    def share(self) -> float:
        """Taken and right."""
        return self.right / self.pictures


def count(asked: Sequence[Asked]) -> Counts:
    """Compares each photograph."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # two processes on two cores
    with ProcessPoolExecutor(CORES, mp_context=get_context("spawn")) as pool:
        rows = list(pool.map(_one, asked, chunksize=25))
    taken = [(one, number) for one, (number, chance, _) in zip(asked, rows, strict=True) if chance < SURE]
    asks = [
        (one, number) for one, (number, chance, _) in zip(asked, rows, strict=True) if SURE <= chance < WORTH_ASKING
    ]
    return Counts(
        len(asked),
        sum(one.number == number for one, number in taken),
        tuple(
            f"{one.number} taken for {number} ({one.spec.group} {one.place})"
            for one, number in taken
            if one.number != number
        ),
        len(asks),
        sum(one.number != number for one, number in asks),
        sum(spent for *_, spent in rows),
        tuple(chance for _, chance, _ in rows),
    )


def _one(asked: Asked) -> tuple[str, float, float]:
    photo, _ = frame(asked.place, asked.spec, seed=asked.seed, numbers=[asked.number] if asked.number else ())
    tags = _tags(asked.known)
    began = perf_counter()
    found = compare(photo, tags, deadline_s=asked.deadline_s, ask_below=ALWAYS)
    spent = perf_counter() - began
    return (found.number, found.chance.larger, spent) if found else ("", 1.0, spent)


@lru_cache(maxsize=4)
def _tags(known: tuple[str, ...]) -> KnownTags:
    return KnownTags(known)
