"""What each module of a patch shows, from -1 light to 1 dark, and 0 where it is covered.

The cover is found without looking at any tag, so it spoils no statistics: where a window of almost three modules
is flat, nothing of a symbol can be seen.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from teardown_app.intake.comparison.grid import FINE

AROUND = 7 * FINE
"""Samples in which a symbol shows both light and dark."""
COARSE = 2
"""Light and dark around are worked out at every second sample."""
WINDOW = 11
"""Samples a side of the window that is looked at for flatness: 2.75 modules."""
FLAT = 0.55
"""Of half the contrast: a window that varies less is covered."""
LEAST_CONTRAST = 4.0
"""Grey levels from the middle to light or dark, at least: less is noise."""


def shown(patch: np.ndarray) -> np.ndarray:
    """(35, 35) values of a patch of (140, 140) samples."""
    smooth = _mean(patch, 3)
    middle, half = _contrast(smooth, AROUND)
    flat = _running(smooth, WINDOW, np.maximum) - _running(smooth, WINDOW, np.minimum) < FLAT * half
    covered = _running(flat[::-1, ::-1], WINDOW, np.maximum)[::-1, ::-1]
    values = np.where(covered, 0, np.clip((middle - smooth) / half, -1, 1))
    low, high = FINE // 2 - 1, FINE // 2
    return np.asarray(sum(values[i::FINE, j::FINE] for i in (low, high) for j in (low, high)) / 4)


def levels(grey: np.ndarray, around: int) -> np.ndarray:
    """Each sample from -1 light to 1 dark, by the light and dark of the square around it."""
    smooth = _mean(grey, 3)
    middle, half = _contrast(smooth, around)
    return np.asarray(np.clip((middle - smooth) / half, -1, 1))


def _contrast(smooth: np.ndarray, around: int) -> tuple[np.ndarray, np.ndarray]:
    """The middle between light and dark around each sample, and how far both are from it."""
    coarse = smooth[::COARSE, ::COARSE]
    light, dark = (
        _mean(_running(coarse, around // COARSE, most), around // COARSE) for most in (np.maximum, np.minimum)
    )
    middle, half = (light + dark) / 2, np.maximum((light - dark) / 2, LEAST_CONTRAST)
    return _as_fine(middle, smooth.shape), _as_fine(half, smooth.shape)


def _as_fine(coarse: np.ndarray, shape: tuple[int, ...]) -> np.ndarray:
    return coarse.repeat(COARSE, 0).repeat(COARSE, 1)[: shape[0], : shape[1]]


def _running(samples: np.ndarray, width: int, most: Callable[..., np.ndarray]) -> np.ndarray:
    """The largest or smallest of a square window around each sample, by doubling."""
    for _ in range(2):
        samples = _longer(samples, width // 2, width - 1 - width // 2)
        done = 1
        while done < width:
            step = min(done, width - done)
            samples = most(samples[:-step], samples[step:])
            done += step
        samples = samples.T
    return samples


def _mean(samples: np.ndarray, width: int) -> np.ndarray:
    """The mean of a square window around each sample."""
    for _ in range(2):
        sums = np.cumsum(_longer(samples, width // 2 + 1, width - 1 - width // 2), axis=0, dtype=np.float64)
        samples = ((sums[width:] - sums[:-width]) / width).T
    return samples.astype(np.float32)


def _longer(samples: np.ndarray, before: int, after: int) -> np.ndarray:
    """With its first and last row repeated."""
    return samples[np.clip(np.arange(-before, len(samples) + after), 0, len(samples) - 1)]
