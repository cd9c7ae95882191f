"""A hand that holds a tablet over one label: ten frames of the same scene, each blurred and lit a little otherwise."""

from __future__ import annotations

import random
from collections.abc import Iterator

import numpy as np
from attrs import evolve

from tests.scanbench.photo import Drawn, frame
from tests.scanbench.scenes import moderate
from tests.scanbench.spec import Spec

FRAMES = 10
HANDS_FROM = 500_000


def hand(n: int, seed: int) -> list[Spec]:
    """The ten specs of hand `n`: what `moderate` draws, with more dirt, farther off and never quite still."""
    lot = random.Random(seed * 1_000 + n)
    (scene,) = moderate(1, lot.randrange(1 << 30))
    scene = evolve(
        scene,
        group="hand",
        size="m",
        side=lot.uniform(60, 160),
        turn=lot.uniform(0, 360),
        stain=lot.choice((0, 0.03, 0.06)),
    )
    return list(_moving(scene, lot))


def frames(n: int, seed: int) -> Iterator[tuple[np.ndarray, Drawn]]:
    """The ten photographs of hand `n`, with its label in each."""
    for k, spec in enumerate(hand(n, seed)):
        photo, (label,) = frame(HANDS_FROM + n, spec, seed=seed, sensor=np.random.default_rng([seed, n, k]))
        yield photo, label


def _moving(scene: Spec, lot: random.Random) -> Iterator[Spec]:
    for _ in range(FRAMES):
        scene = evolve(
            scene,
            turn=(scene.turn or 0) + lot.gauss(0, 2),
            side=scene.side * lot.gauss(1, 0.02),
            tilt=abs(scene.tilt + lot.gauss(0, 3)),
        )
        yield evolve(
            scene,
            blur=0.4 + abs(lot.gauss(0, 0.9)),
            motion=lot.choice((0, 3, 4, 5, 7, 9)),
            glare=lot.choice((0, 0, 0.3, 0.5)),
        )
