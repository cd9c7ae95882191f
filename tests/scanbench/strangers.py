"""Photographs in which no known tag is: unknown numbers, neighbours of known ones, foreign codes, no code at all."""

from __future__ import annotations

import random
from itertools import islice

from teardown_app.domain.tags.tag import issue
from tests.scanbench.held_against import NO_DEADLINE_S, Asked
from tests.scanbench.plan import plan
from tests.scanbench.scenes import MODERATE_FROM, greased, moderate, stained
from tests.scanbench.spec import Spec

STRANGERS_FROM = 700_000
SIBLINGS_FROM = 800_000
NEIGHBOURS = 100

FOREIGN = [spec for spec in plan() if spec.group in ("field", "multi", "cylinder", "tilt", "rotation", "inverted")]
NO_CODE = [spec for spec in plan() if spec.group == "negative"]


def known_tags(count: int, incarnation: str = "7K3M") -> tuple[str, ...]:
    """Numbers of one tablet, one after the other: as a shop has them."""
    return issue("P", incarnation, 0, count)[0]


def strangers(count: int, seed: int, known: tuple[str, ...], sizes: str = "sml") -> list[Asked]:
    """Half unknown tags of ours (clean, stained, greased), a third foreign codes, the rest without a code."""
    lot = random.Random(seed)
    specs = list(islice((spec for spec in iter(lambda: _stranger(lot), None) if spec.size in sizes), count))
    numbers = iter(issue("P", "7K4M", lot.randrange(10_000), count)[0])
    return [
        Asked(
            spec,
            STRANGERS_FROM + i,
            seed,
            next(numbers) if spec.group in ("moderate", "stained", "greased") else "",
            known,
        )
        for i, spec in enumerate(specs)
    ]


def _stranger(lot: random.Random) -> Spec:
    draw = lot.random()
    if draw < 0.25:
        return moderate(1, lot.randrange(1 << 30))[0]
    if draw < 0.5:
        kind = stained if lot.random() < 0.5 else greased
        return kind(lot.uniform(0, 0.6), 1, lot.randrange(1 << 30))[0]
    return lot.choice(FOREIGN if draw < 0.83 else NO_CODE)


def siblings(count: int, seed: int) -> list[Asked]:
    """The tag on the label is not known, its 99 neighbours in number are; stains of 0 to 60 %."""
    lot = random.Random(seed)
    asked = []
    for i in range(count):
        around = issue("P", "7K3M", lot.randrange(1_000_000), NEIGHBOURS)[0]
        on_label = around[lot.randrange(NEIGHBOURS)]
        known = tuple(number for number in around if number != on_label)
        spec = stained(lot.uniform(0, 0.6), 1, lot.randrange(1 << 30))[0]
        asked.append(Asked(spec, SIBLINGS_FROM + i, seed, on_label, known))
    return asked


def seen(
    specs: list[Spec], seed: int, known: tuple[str, ...], first: int = MODERATE_FROM, deadline_s: float = NO_DEADLINE_S
) -> list[Asked]:
    """Photographs of known tags, each of another one."""
    lot = random.Random(seed)
    return [Asked(spec, first + i, seed, lot.choice(known), known, deadline_s) for i, spec in enumerate(specs)]
