"""One photograph, drawn from its spec: labels on a ground, then light and camera."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
from attrs import evolve, frozen

from tests.scanbench import camera
from tests.scanbench.dirt import soil
from tests.scanbench.grounds import ground
from tests.scanbench.laying import Point, bend, lay
from tests.scanbench.lookalikes import text
from tests.scanbench.plan import SEED, plan
from tests.scanbench.spec import Spec
from tests.scanbench.symbol import MODULE, flat_label, matrix


@frozen
class Drawn:
    """A label that is in the photograph."""

    text: str
    corners: np.ndarray
    """4 x 2: (x, y) of the symbol's corners in pixels, going round from its top left."""
    module: float
    """Pixels a module before tilt."""


def frame(
    i: int,
    spec: Spec | None = None,
    *,
    numbers: Sequence[str] = (),
    seed: int = SEED,
    sensor: np.random.Generator | None = None,
) -> tuple[np.ndarray, list[Drawn]]:
    """Photograph `i` as uint8 rows x columns, and the labels in it.

    `numbers` are what the labels hold, one each, instead of texts by lot; all else in the photograph stays
    where it was. `sensor` is where noise comes from: another one gives the same scene once more.
    """
    spec = spec or plan()[i]
    lots = np.random.default_rng([seed, i])
    photo = ground(lots, *spec.wide_high, spec.ground)
    labels = list(_labels(photo, spec, lots, numbers))
    return _taken(photo, spec, labels, lots, sensor or lots), labels


def _labels(photo: np.ndarray, spec: Spec, lots: np.random.Generator, numbers: Sequence[str]) -> Iterator[Drawn]:
    if spec.labels == 1:
        yield placed(photo, spec, lots, _number(spec, lots, numbers, 0), None)
    elif spec.labels > 1:
        yield from _tray(photo, spec, lots, numbers)


def _tray(photo: np.ndarray, spec: Spec, lots: np.random.Generator, numbers: Sequence[str]) -> Iterator[Drawn]:
    """Labels in rows and columns over the whole photograph."""
    high, wide = photo.shape
    columns = math.ceil(math.sqrt(spec.labels * wide / high))
    cell_x, cell_y = wide / columns, high / math.ceil(spec.labels / columns)
    for place in range(spec.labels):
        tilted = evolve(spec, tilt=float(lots.uniform(0, 25)))
        number = _number(spec, lots, numbers, place)
        middle = (
            (place % columns + 0.5) * cell_x + lots.uniform(-0.04, 0.04) * cell_x,
            (place // columns + 0.5) * cell_y + lots.uniform(-0.04, 0.04) * cell_y,
        )
        yield placed(photo, tilted, lots, number, middle)


def _number(spec: Spec, lots: np.random.Generator, numbers: Sequence[str], place: int) -> str:
    """The text of a label; the lots are drawn in any case, so that all else stays the same."""
    by_lot = "K7" + text(lots, spec.characters - 2)
    return numbers[place] if numbers else by_lot


def placed(photo: np.ndarray, spec: Spec, lots: np.random.Generator, number: str, middle: Point | None) -> Drawn:
    """Draws one label; without a middle where people aim."""
    modules = matrix(number, spec.correction, spec.version)
    label = flat_label(modules, spec)
    soil(label, spec, lots)
    if spec.wrap > 0:
        label = bend(label, spec.wrap)
    corners = lay(photo, label, spec, lots, side=len(modules) * MODULE, middle=middle)
    return Drawn(number, corners, spec.side / len(modules))


def _taken(
    photo: np.ndarray, spec: Spec, labels: list[Drawn], lots: np.random.Generator, sensor: np.random.Generator
) -> np.ndarray:
    """What the camera makes of the scene."""
    if spec.shadow:
        wide, high = spec.wide_high
        middle = labels[0].corners.mean(0) if labels else np.array((wide / 2, high / 2))
        photo = camera.shadow(photo, spec.shadow, middle, lots)
    if spec.glare and labels:
        photo = camera.glare(photo, spec.glare, spec.side, labels[0].corners, lots)
    if spec.blur > 0:
        photo = camera.blur(photo, spec.blur)
    if spec.motion > 1:
        photo = camera.motion(photo, spec.motion, lots)
    photo = camera.noise(photo, spec.noise, sensor)
    return camera.jpeg(photo, spec.jpeg) if spec.jpeg else photo
