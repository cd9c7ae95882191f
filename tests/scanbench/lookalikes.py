"""Things lying about on a bench, among them some that look like bars, letters and finder marks."""

from __future__ import annotations

import cv2
import numpy as np

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ0123456789"
"""What texts are drawn from."""

Place = tuple[int, int]


def text(lots: np.random.Generator, characters: int) -> str:
    """So many characters by lot."""
    return "".join(LETTERS[place] for place in lots.integers(0, len(LETTERS), characters))


def scatter(grey: np.ndarray, lots: np.random.Generator, count: int) -> None:
    """Draws so many things into an uint8 picture."""
    high, wide = grey.shape
    for _ in range(count):
        place = (int(lots.integers(0, wide)), int(lots.integers(0, high)))
        level = float(lots.uniform(20, 235))
        _THINGS[lots.integers(0, len(_THINGS))](grey, lots, place, level)


def _ring(grey: np.ndarray, lots: np.random.Generator, place: Place, level: float) -> None:
    cv2.circle(grey, place, int(lots.integers(8, 90)), level, int(lots.integers(2, 10)))


def _plate(grey: np.ndarray, lots: np.random.Generator, place: Place, level: float) -> None:
    x, y = place
    cv2.rectangle(grey, place, (x + int(lots.integers(20, 260)), y + int(lots.integers(10, 160))), level, -1)


def _writing(grey: np.ndarray, lots: np.random.Generator, place: Place, level: float) -> None:
    cv2.putText(grey, text(lots, 8), place, cv2.FONT_HERSHEY_SIMPLEX, float(lots.uniform(0.5, 2)), level, 2)


def _bars(grey: np.ndarray, lots: np.random.Generator, place: Place, _level: float) -> None:
    x, y = place
    for _ in range(40):
        width = int(lots.integers(1, 5))
        cv2.rectangle(grey, (x, y), (x + width, y + 60), 20.0 if lots.random() < 0.5 else 230.0, -1)
        x += width


def _finder(grey: np.ndarray, _lots: np.random.Generator, place: Place, _level: float) -> None:
    x, y = place
    for reach, level in ((30, 20.0), (21, 225.0), (12, 20.0)):
        cv2.rectangle(grey, (x - reach, y - reach), (x + reach, y + reach), level, -1)


_THINGS = (_ring, _plate, _writing, _bars, _finder)
