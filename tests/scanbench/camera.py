"""What light and camera do to the whole photograph: shadow, glare, blur, a moving hand, noise, JPEG."""

from __future__ import annotations

import math

import cv2
import numpy as np


def shadow(photo: np.ndarray, depth: float, middle: np.ndarray, lots: np.random.Generator) -> np.ndarray:
    """A hard edge of shadow through `middle`, `depth` grey levels deep on white."""
    y, x = _places(photo)
    turn = lots.uniform(0, 2 * math.pi)
    beyond = (x - middle[0]) * math.cos(turn) + (y - middle[1]) * math.sin(turn)
    return photo - depth / (1 + np.exp(np.clip(-beyond / 6, -60, 60))) * (photo / 255 + 0.3)


def glare(photo: np.ndarray, share: float, side: float, symbol: np.ndarray, lots: np.random.Generator) -> np.ndarray:
    """A highlight near the middle of the symbol, `share` of its side wide."""
    middle = symbol.mean(0) + lots.uniform(-0.3, 0.3, 2) * side
    y, x = _places(photo)
    radius = share * side / 2
    far = ((x - middle[0]) ** 2 + (y - middle[1]) ** 2) / (radius * radius)
    return photo + 330 * np.exp(-(far**1.5))


def motion(photo: np.ndarray, path: int, lots: np.random.Generator) -> np.ndarray:
    """Smeared along a straight path of so many pixels."""
    smear = np.zeros((2 * path + 1, 2 * path + 1), np.float32)
    turn = lots.uniform(0, math.pi)
    ends = [
        (int(round(path + way * math.cos(turn) * path / 2)), int(round(path + way * math.sin(turn) * path / 2)))
        for way in (-1, 1)
    ]
    cv2.line(smear, ends[0], ends[1], 1.0, 1)
    return cv2.filter2D(photo, -1, smear / smear.sum())


def noise(photo: np.ndarray, level: float, lots: np.random.Generator) -> np.ndarray:
    """Noise of the sensor, then whole grey levels."""
    noisy = photo + level * lots.standard_normal(photo.shape, dtype=np.float32)
    return np.clip(noisy, 0, 255).astype(np.uint8)


def jpeg(photo: np.ndarray, quality: int) -> np.ndarray:
    """Saved and opened again."""
    saved = cv2.imencode(".jpg", photo, [cv2.IMWRITE_JPEG_QUALITY, quality])[1]
    return cv2.imdecode(saved, cv2.IMREAD_GRAYSCALE)


def blur(photo: np.ndarray, sigma: float) -> np.ndarray:
    """Out of focus."""
    return cv2.GaussianBlur(photo, (0, 0), sigma)


def _places(photo: np.ndarray) -> np.ndarray:
    high, wide = photo.shape
    return np.mgrid[0:high, 0:wide].astype(np.float32)
