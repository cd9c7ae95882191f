"""What a label lies on: brushed metal, concrete, turned rings, a perforated sheet, clutter."""

from __future__ import annotations

from collections.abc import Callable

import cv2
import numpy as np

from tests.scanbench.lookalikes import scatter

KINDS = ["brushed", "concrete", "rings", "grid", "clutter"]
"""Those drawn by lot; `dark` only where a spec asks for it."""

SCATTERED = {"clutter": 14, "concrete": 5, "rings": 5}
"""Things lying about."""

Ground = Callable[[np.random.Generator, int, int], np.ndarray]


def unevenness(lots: np.random.Generator, high: int, wide: int, cell: int) -> np.ndarray:
    """Smooth noise of about standard deviation 1 whose hills are about `cell` pixels wide."""
    cells = (max(2, high // cell + 2), max(2, wide // cell + 2))
    return cv2.resize(lots.normal(size=cells).astype(np.float32), (wide, high), interpolation=cv2.INTER_CUBIC)


def ground(lots: np.random.Generator, wide: int, high: int, kind: str = "") -> np.ndarray:
    """Grey levels of a background as float32."""
    kind = kind or str(lots.choice(KINDS))
    grey = np.ascontiguousarray(_GROUNDS[kind](lots, high, wide), dtype=np.float32)
    if kind in SCATTERED:
        grey = np.clip(grey, 0, 255).astype(np.uint8)
        scatter(grey, lots, SCATTERED[kind])
    return grey.astype(np.float32)


def _dark(lots: np.random.Generator, high: int, wide: int) -> np.ndarray:
    return 45 + 8 * unevenness(lots, high, wide, 40) + 5 * unevenness(lots, high, wide, 4)


def _brushed(lots: np.random.Generator, high: int, wide: int) -> np.ndarray:
    level = lots.uniform(80, 170)
    scratches = cv2.blur(lots.normal(size=(high, wide)).astype(np.float32), (61, 1))
    return level + 22 * scratches * 5 + 14 * unevenness(lots, high, wide, 160)


def _concrete(lots: np.random.Generator, high: int, wide: int) -> np.ndarray:
    return (
        lots.uniform(70, 150)
        + 22 * unevenness(lots, high, wide, 90)
        + 14 * unevenness(lots, high, wide, 18)
        + 9 * unevenness(lots, high, wide, 5)
    )


def _rings(lots: np.random.Generator, high: int, wide: int) -> np.ndarray:
    y, x = np.mgrid[0:high, 0:wide].astype(np.float32)
    middle_x, middle_y = lots.uniform(0, wide), lots.uniform(0, high)
    waves = np.sin(np.hypot(x - middle_x, y - middle_y) / lots.uniform(2.5, 9))
    return 110 + 35 * waves + 14 * unevenness(lots, high, wide, 100)


def _grid(lots: np.random.Generator, high: int, wide: int) -> np.ndarray:
    pitch = int(lots.integers(10, 34))
    grey = np.full((high, wide), 150, np.float32)
    y, x = np.mgrid[0:high, 0:wide]
    grey[((x % pitch - pitch // 2) ** 2 + (y % pitch - pitch // 2) ** 2) < (pitch * 0.32) ** 2] = 40
    grey += 10 * unevenness(lots, high, wide, 70)
    return grey


def _clutter(lots: np.random.Generator, high: int, wide: int) -> np.ndarray:
    return 120 + 16 * unevenness(lots, high, wide, 60)


_GROUNDS: dict[str, Ground] = {
    "dark": _dark,
    "brushed": _brushed,
    "concrete": _concrete,
    "rings": _rings,
    "grid": _grid,
    "clutter": _clutter,
}
