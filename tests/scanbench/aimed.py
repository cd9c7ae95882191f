"""A tablet held over a bench: one label under the mark, stained or not, and clean ones beside it or cut by the edge.

What is aimed at is known by how it is drawn: the label whose middle lies nearest the mark in the middle of the
picture, the others at least half a label farther away.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
from attrs import evolve, frozen

from tests.scanbench import camera
from tests.scanbench.grounds import ground
from tests.scanbench.laying import Point
from tests.scanbench.photo import Drawn, placed
from tests.scanbench.spec import Spec

AIMED_FROM = 600_000
WIDE, HIGH = 1280, 720
ROOM = 24
"""Pixels around the picture that a moving hand brings into it."""
LOOKS = 15
"""Frames of one second that are looked at: every second one of a camera that gives thirty."""
OFF = 0.3
"""Standard deviation of how far a hand is off the mark, in widths of the symbol; never more than `FARTHEST_OFF`."""
FARTHEST_OFF = 0.7
NEAREST, FARTHEST = 1.8, 3.0
"""From the middle of the aimed label to one beside it, in widths: labels side by side touch at 1.5."""
MOST_STAINED = 0.4
TREMBLE = 2.5
"""Standard deviation of how far the picture moves from one frame to the next, in pixels."""


@frozen
class Scene:
    """What lies in the picture: the aimed label first, then those beside it."""

    place: int
    seed: int
    stain: float
    off: Point
    specs: tuple[Spec, ...]
    middles: tuple[Point, ...]
    """In pixels of the picture; outside it for what is cut by the edge."""


def scene(n: int, seed: int, stain: float | None = None) -> Scene:
    """Scene `n`: `stain` (0 to 1 of the aimed symbol) is drawn by lot from 0 to 0.4 where it is not said."""
    lots = np.random.default_rng([seed, AIMED_FROM + n])
    side = float(lots.uniform(90, 200))
    drawn_by_lot = float(lots.uniform(0, MOST_STAINED))
    share = drawn_by_lot if stain is None else stain
    aimed = Spec(
        group="aimed",
        version=1,
        characters=10,
        side=side,
        stain=share,
        tilt=abs(float(lots.normal(0, 10))),
        blur=0.4 + abs(float(lots.normal(0, 0.3))),
        noise=float(lots.uniform(2, 8)),
    )
    far = min(abs(float(lots.normal(0, OFF))), FARTHEST_OFF) * side
    off = _away(far, float(lots.uniform(0, 2 * math.pi)))
    middle = (WIDE / 2 + off[0], HIGH / 2 + off[1])
    beside = list(_beside(middle, far, side, int(lots.integers(1, 4)), lots))
    clean = [evolve(aimed, stain=0, side=side * float(lots.uniform(0.9, 1.1))) for _ in beside]
    return Scene(n, seed, share, off, (aimed, *clean), (middle, *beside))


def _beside(middle: Point, off: float, side: float, count: int, lots: np.random.Generator) -> Iterator[Point]:
    """Places of the others: about half of them where the picture's edge cuts them, none on another."""
    taken = [middle]
    for _ in range(200):
        if len(taken) > count:
            break
        at = _cut(lots) if lots.random() < 0.5 else _near(middle, side, lots)
        apart = min(math.dist(at, one) for one in taken)
        farther = math.dist(at, (WIDE / 2, HIGH / 2)) >= off + side / 2
        if farther and apart >= NEAREST * side and 0 <= at[0] <= WIDE and 0 <= at[1] <= HIGH:
            taken.append(at)
            yield at


def _near(middle: Point, side: float, lots: np.random.Generator) -> Point:
    x, y = _away(float(lots.uniform(NEAREST, FARTHEST)) * side, float(lots.uniform(0, 2 * math.pi)))
    return middle[0] + x, middle[1] + y


def _cut(lots: np.random.Generator) -> Point:
    """A place on the picture's edge."""
    along, at = int(lots.integers(0, 4)), float(lots.uniform(0.1, 0.9))
    return ((at * WIDE, 0), (at * WIDE, HIGH), (0, at * HIGH), (WIDE, at * HIGH))[along]


def _away(far: float, angle: float) -> Point:
    return far * math.cos(angle), far * math.sin(angle)


def frames(scene: Scene, numbers: Sequence[str]) -> Iterator[np.ndarray]:
    """Frames of one second, uint8 of 720 x 1280: the same bench, the hand trembling; `numbers` one for each label."""
    photo, _ = bench(scene, numbers)
    lots = np.random.default_rng([scene.seed, AIMED_FROM + scene.place, 1])
    for _ in range(LOOKS):
        x, y = (ROOM + int(np.clip(lots.normal(0, TREMBLE), -ROOM, ROOM)) for _ in range(2))
        yield camera.noise(photo[y : y + HIGH, x : x + WIDE].astype(np.float32), scene.specs[0].noise, lots)


def bench(scene: Scene, numbers: Sequence[str]) -> tuple[np.ndarray, list[Drawn]]:
    """The bench with what a moving hand may bring into the picture, as float32, and its labels."""
    lots = np.random.default_rng([scene.seed, AIMED_FROM + scene.place, 0])
    photo = ground(lots, WIDE + 2 * ROOM, HIGH + 2 * ROOM, scene.specs[0].ground)
    labels = [
        placed(photo, spec, lots, number, (x + ROOM, y + ROOM))
        for spec, number, (x, y) in zip(scene.specs, numbers, scene.middles, strict=True)
    ]
    return camera.blur(photo, scene.specs[0].blur), labels
