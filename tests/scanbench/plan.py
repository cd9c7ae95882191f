"""The plan: one distortion at a time in steps, then everything at once, then pictures without a code."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from typing import Any

from tests.scanbench.spec import Spec

SEED = 20240611

STRENGTHS = {
    1: [("M", 16), ("Q", 14), ("Q", 16)],
    2: [("M", 25), ("Q", 20), ("H", 16), ("H", 20)],
    3: [("Q", 30), ("H", 25), ("H", 30)],
}
"""Error corrections and characters that are drawn for a version."""

STEPS: list[tuple[str, tuple[float, ...], int]] = [
    ("tilt", (0, 10, 20, 30, 40, 50, 60), 12),
    ("blur", (0, 0.5, 1, 1.5, 2, 2.5, 3, 4), 10),
    ("motion", (3, 5, 7, 9, 12, 16), 10),
    ("noise", (0, 10, 20, 30, 45, 60), 10),
]
"""Group and field of one name, its levels, photographs a level."""


def plan(seed: int = SEED) -> list[Spec]:
    """All photographs of the bench; number i is drawn by `frame(i, plan()[i])`."""
    lot = random.Random(seed)
    return [*_sizes(lot), *_turned(), *_one_at_a_time(), *_trays(), *_field(lot), *_negatives(lot)]


def _levels(group: str, levels: dict[Any, dict[str, Any]], count: int) -> Iterator[Spec]:
    for level, fields in levels.items():
        yield from [Spec(group=group, level=level, **fields)] * count


def _sizes(lot: random.Random) -> Iterator[Spec]:
    for side in (40, 50, 60, 75, 100, 140, 200, 300):
        for version in (1, 2, 3):
            for size in "ssmmll":
                correction, characters = lot.choice(STRENGTHS[version])
                yield Spec(
                    group="size",
                    level=side,
                    side=side,
                    version=version,
                    correction=correction,
                    characters=characters,
                    size=size,
                )


def _turned() -> Iterator[Spec]:
    for turn in range(0, 360, 15):
        yield from [Spec(group="rotation", level=turn % 90, turn=turn)] * 2


def _one_at_a_time() -> Iterator[Spec]:
    for name, levels, count in STEPS:
        yield from _levels(name, {level: {name: level} for level in levels}, count)
    yield from _levels(
        "contrast",
        {span: {"dark": 128 - span // 2, "light": 128 + span // 2, "noise": 3} for span in (200, 100, 60, 40, 25, 15)},
        10,
    )
    yield from _levels("glare", {share: {"glare": share} for share in (0.2, 0.35, 0.5, 0.7)}, 12)
    for correction in "MQH":
        yield from _levels(
            f"stain EC {correction}",
            {
                percent: {"stain": percent / 100, "correction": correction, "characters": 20}
                for percent in (5, 10, 15, 20, 25)
            },
            8,
        )
    yield from _levels("cylinder", {span: {"wrap": span} for span in (30, 60, 90, 120, 150)}, 10)
    yield from _levels("inverted", {quiet: {"inverted": True, "quiet": quiet} for quiet in (4, 2, 0)}, 12)
    yield from _levels("quiet zone", {quiet: {"quiet": quiet, "ground": "dark"} for quiet in (4, 2, 1, 0)}, 10)
    yield from _levels("shadow edge", {grey: {"shadow": grey} for grey in (60, 110, 160)}, 10)
    yield from _levels("jpeg q", {quality: {"jpeg": quality} for quality in (60, 30, 12)}, 8)


def _trays() -> Iterator[Spec]:
    for size, labels, side in (("m", 10, 70), ("l", 10, 90), ("l", 30, 90)):
        yield from [Spec(group="multi", level=f"{labels}@{size}", labels=labels, size=size, side=side)] * 12


def _field(lot: random.Random) -> Iterator[Spec]:
    for _ in range(500):
        version = lot.choice((1, 2, 2, 2, 3))
        correction, characters = lot.choice(STRENGTHS[version])
        yield Spec(
            group="field",
            size=lot.choice("sml"),
            version=version,
            correction=correction,
            characters=characters,
            side=int(math.exp(lot.uniform(math.log(55), math.log(260)))),
            tilt=abs(lot.gauss(0, 18)),
            blur=abs(lot.gauss(0.3, 0.9)),
            motion=lot.choice((0, 0, 0, 3, 5, 7)),
            noise=lot.uniform(2, 16),
            dark=lot.randint(20, 90),
            light=lot.randint(140, 240),
            glare=lot.choice((0, 0, 0, 0.25, 0.4)),
            stain=lot.choice((0, 0, 0.03, 0.06, 0.1)),
            wrap=lot.choice((0, 0, 0, 40, 70)),
            inverted=lot.random() < 0.08,
            quiet=lot.choice((4, 4, 4, 2)),
            shadow=lot.choice((0, 0, 40, 90)),
            jpeg=lot.choice((0, 0, 70)),
        )


def _negatives(lot: random.Random) -> Iterator[Spec]:
    for _ in range(120):
        yield Spec(group="negative", labels=0, size=lot.choice("sml"), noise=lot.uniform(2, 20))
