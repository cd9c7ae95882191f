"""Drawn photographs held against known tags, on both cores: how many are taken, and never a wrong one."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import lru_cache
from multiprocessing import get_context
from time import perf_counter

import numpy as np
from attrs import field, frozen

from teardown_app.intake.comparison.compare import compare
from teardown_app.intake.comparison.known_tags import KnownTags
from tests.scanbench.photo import frame
from tests.scanbench.spec import Spec

CORES = 2
NO_DEADLINE_S = 600.0


@frozen
class Asked:
    """One photograph: what is drawn, what the label holds, which tags the tablet knows."""

    spec: Spec
    place: int
    seed: int
    number: str
    """A number of ours; empty where the label holds a foreign text, or where no label is."""
    known: tuple[str, ...]


@frozen
class Counts:
    """What became of many photographs."""

    pictures: int
    right: int
    wrong: tuple[str, ...] = field(repr=False)
    offered: int
    offered_wrong: int
    seconds: float

    @property
    def share(self) -> float:
        """Taken and right."""
        return self.right / self.pictures


def count(asked: Sequence[Asked], first: Callable[[np.ndarray], str] | None = None) -> Counts:
    """Compares each photograph; `first` may read it before, as the reader does."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # two processes on two cores
    with ProcessPoolExecutor(CORES, mp_context=get_context("spawn")) as pool:
        rows = list(pool.map(_one, asked, [first] * len(asked), chunksize=25))
    taken = [(one, number) for one, (number, sure, _) in zip(asked, rows, strict=True) if sure]
    asks = [(one, number) for one, (number, sure, _) in zip(asked, rows, strict=True) if number and not sure]
    return Counts(
        len(asked), sum(one.number == number for one, number in taken),
        tuple(f"{one.number} taken for {number} ({one.spec.group} {one.place})" for one, number in taken
              if one.number != number),
        len(asks), sum(one.number != number for one, number in asks), sum(spent for *_, spent in rows))


def _one(asked: Asked, first: Callable[[np.ndarray], str] | None) -> tuple[str, bool, float]:
    photo, _ = frame(asked.place, asked.spec, seed=asked.seed, numbers=[asked.number] if asked.number else ())
    tags = _tags(asked.known)
    began = perf_counter()
    read = first(photo) if first else ""
    found = None if read else compare(photo, tags, deadline_s=NO_DEADLINE_S)
    spent = perf_counter() - began
    if read:
        return read, True, spent
    return (found.number, found.chance.sure, spent) if found else ("", False, spent)


@lru_cache(maxsize=4)
def _tags(known: tuple[str, ...]) -> KnownTags:
    return KnownTags(known)
