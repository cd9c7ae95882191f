"""What lies on a label: flat stains, and grease that is dark, ragged and shines in places."""

from __future__ import annotations

import math

import cv2
import numpy as np

from tests.scanbench.grounds import unevenness
from tests.scanbench.spec import Spec
from tests.scanbench.symbol import MODULE, Flat

DARKEST, LIGHTEST = 5, 60
"""Grey levels of grease."""


def soil(label: Flat, spec: Spec, lots: np.random.Generator) -> None:
    """Lays the spec's stains and grease on a label."""
    if spec.stain > 0:
        _stain(label, spec, lots)
    if spec.grease > 0:
        _grease(label, spec, lots)


def _span(label: Flat) -> tuple[int, int]:
    """Where the symbol begins, from the left and the top alike, and its side."""
    near = int(label.symbol[0, 0])
    return near, int(label.symbol[1, 0]) - near


def _stain(label: Flat, spec: Spec, lots: np.random.Generator) -> None:
    """Opaque ellipses of one grey until their share of the symbol is covered."""
    near, side = _span(label)
    covered = np.zeros(label.grey.shape, np.uint8)
    symbol = covered[near : near + side, near : near + side]
    wanted = spec.stain * side * side
    grey = float(lots.choice([spec.dark - 10, 90, spec.light + 10]))
    while symbol.sum() < wanted:
        radius = max(min(math.sqrt((wanted - symbol.sum()) / math.pi) * 1.0, side * 0.22), 5)
        middle = (int(near + lots.uniform(0.02, 0.98) * side), int(near + lots.uniform(0.02, 0.98) * side))
        axes = (int(radius * lots.uniform(0.8, 1.3)), int(radius * lots.uniform(0.7, 1.1)))
        cv2.ellipse(covered, middle, axes, float(lots.uniform(0, 180)), 0, 360, 1, -1)
    label.grey[covered > 0] = grey


def _grease(label: Flat, spec: Spec, lots: np.random.Generator) -> None:
    """Blotches over the wanted share of the symbol; where they end is ragged and a little soft."""
    near, side = _span(label)
    field = _blotches(label.grey.shape, lots)
    edge = np.quantile(field[near : near + side, near : near + side], 1 - spec.grease)
    cover = np.clip((field - edge) / 0.08 + 0.5, 0, 1)
    grease = _shine(_texture(label.grey.shape, lots), lots)
    label.grey[:] = label.grey * (1 - cover) + grease * cover


def _blotches(shape: tuple[int, ...], lots: np.random.Generator) -> np.ndarray:
    """Hills of 4 to 10 modules with ragged slopes: grease lies where they are highest."""
    high, wide = shape
    hills = unevenness(lots, high, wide, int(lots.uniform(4, 10) * MODULE))
    return np.asarray(
        hills + 0.3 * unevenness(lots, high, wide, int(1.5 * MODULE)) + 0.12 * unevenness(lots, high, wide, MODULE // 2)
    )


def _texture(shape: tuple[int, ...], lots: np.random.Generator) -> np.ndarray:
    """Grey levels of the grease: noise of 0.5 to 3 modules, so that it looks like modules."""
    high, wide = shape
    cells = [int(lots.uniform(*span) * MODULE) for span in ((0.5, 1), (1, 2), (2, 3))]
    rough = np.asarray(sum(unevenness(lots, high, wide, cell) for cell in cells)) / math.sqrt(3)
    return np.asarray(np.clip(30 + 20 * rough, DARKEST, LIGHTEST).astype(np.float32))


def _shine(grease: np.ndarray, lots: np.random.Generator) -> np.ndarray:
    """Half of all grease shines: one to four light streaks, 3 to 10 modules long."""
    if lots.random() < 0.5:
        return grease
    streaks = np.zeros_like(grease)
    high, wide = grease.shape
    for _ in range(int(lots.integers(1, 5))):
        x, y, turn = lots.uniform(0, wide), lots.uniform(0, high), lots.uniform(0, math.pi)
        reach = lots.uniform(1.5, 5) * MODULE
        ends = [(int(x + way * reach * math.cos(turn)), int(y + way * reach * math.sin(turn))) for way in (-1, 1)]
        cv2.line(streaks, ends[0], ends[1], float(lots.uniform(90, 200)), int(lots.uniform(0.2, 0.7) * MODULE))
    return np.asarray(grease + cv2.GaussianBlur(streaks, (0, 0), MODULE * 0.12))
