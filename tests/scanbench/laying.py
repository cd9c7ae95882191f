"""A flat label bent round a cylinder, turned, tilted and laid into the photograph."""

from __future__ import annotations

import math

import cv2
import numpy as np

from tests.scanbench.spec import Spec
from tests.scanbench.symbol import Flat

FINER = 3
"""Drawn so many times finer than the photograph and averaged, so that edges are as a lens makes them."""

AWAY = 6
"""Distance of the camera in sides of the symbol."""

AIMED = 0.6
"""Share of width and height in which an aimed label lies."""

Point = tuple[float, float]


def bend(label: Flat, degrees: float) -> Flat:
    """The label on an upright cylinder, its symbol over so many degrees, darker towards the sides."""
    high, wide = label.grey.shape
    near, far = label.symbol[0, 0], label.symbol[1, 0]
    half = math.radians(degrees) / 2
    radius = int(far - near) / (2 * half)
    seen = int(2 * radius * math.sin(min(math.pi / 2 - 0.05, wide / (2 * radius))))
    across = (np.arange(seen) - seen / 2) / radius
    turned = np.arcsin(np.clip(across, -1, 1))
    columns = np.repeat((radius * turned + wide / 2)[None].astype(np.float32), high, 0)
    rows = np.repeat(np.arange(high, dtype=np.float32)[:, None], seen, 1)
    shade = (0.55 + 0.45 * np.cos(turned)).astype(np.float32)
    grey = cv2.remap(label.grey.astype(np.float32), columns, rows, cv2.INTER_LINEAR) * shade[None]
    left, right = (seen / 2 + way * radius * math.sin(half) for way in (-1, 1))
    corners = [[left, near], [right, near], [right, far], [left, far]]
    return Flat(grey, np.array(corners, np.float32))


def lay(
    photo: np.ndarray, label: Flat, spec: Spec, lots: np.random.Generator, *, side: int, middle: Point | None
) -> np.ndarray:
    """Draws the label (its symbol `side` wide when flat) and gives the symbol's corners in the photograph."""
    high, wide = label.grey.shape
    turn = math.radians(spec.turn if spec.turn is not None else lots.uniform(0, 360))
    tilted_to = lots.uniform(0, 2 * math.pi)
    edge = np.array([[0, 0], [wide, 0], [wide, high], [0, high]], np.float32)
    outline, symbol = (
        _seen(points, label.symbol, spec, spec.side / side, turn, tilted_to) for points in (edge, label.symbol)
    )
    at = np.asarray(middle if middle is not None else _aimed(photo, outline, lots))
    _draw(photo, label.grey, edge, outline, at, finer_by=side / (spec.side * FINER))
    return symbol + at.astype(np.float32)


def _seen(
    points: np.ndarray, symbol: np.ndarray, spec: Spec, scale: float, turn: float, tilted_to: float
) -> np.ndarray:
    """Points of the label through a pinhole, from the middle of the symbol."""
    x = (points[:, 0] - symbol[:, 0].mean()) * scale
    y = (points[:, 1] - symbol[:, 1].mean()) * scale
    x, y = x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)
    along = x * math.cos(tilted_to) + y * math.sin(tilted_to)
    across = -x * math.sin(tilted_to) + y * math.cos(tilted_to)
    tilt = math.radians(spec.tilt)
    deep, along = along * math.sin(tilt), along * math.cos(tilt)
    nearer = AWAY * spec.side / (AWAY * spec.side + deep)
    along, across = along * nearer, across * nearer
    return np.stack(
        [
            along * math.cos(tilted_to) - across * math.sin(tilted_to),
            along * math.sin(tilted_to) + across * math.cos(tilted_to),
        ],
        1,
    ).astype(np.float32)


def _aimed(photo: np.ndarray, outline: np.ndarray, lots: np.random.Generator) -> Point:
    """A place by lot, such that the label is in the middle of the photograph as far as it has room."""
    high, wide = photo.shape
    reach_x, reach_y = np.abs(outline).max(0) + 3
    return (
        wide / 2 + lots.uniform(-1, 1) * max(0, AIMED * wide / 2 - reach_x),
        high / 2 + lots.uniform(-1, 1) * max(0, AIMED * high / 2 - reach_y),
    )


def _draw(
    photo: np.ndarray, label: np.ndarray, edge: np.ndarray, outline: np.ndarray, at: np.ndarray, *, finer_by: float
) -> None:
    """The label over what is there already, where the photograph reaches."""
    low = np.floor(outline.min(0) + at) - 2
    wide, high = (np.ceil(outline.max(0) + at) + 2 - low).astype(int)
    onto = cv2.getPerspectiveTransform(edge, ((outline + at - low) * FINER).astype(np.float32))
    size = (wide * FINER, high * FINER)
    blur = max(1, int(finer_by))
    grey = label.astype(np.float32)
    grey = cv2.blur(grey, (blur, blur)) if blur > 1 else grey
    drawn = cv2.warpPerspective(grey, onto, size, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    cover = cv2.warpPerspective(np.ones(label.shape, np.float32), onto, size, flags=cv2.INTER_LINEAR)
    drawn, cover = (cv2.resize(one, (wide, high), interpolation=cv2.INTER_AREA) for one in (drawn, cover))
    x, y = int(low[0]), int(low[1])
    left, top = max(0, x), max(0, y)
    right, bottom = min(photo.shape[1], x + wide), min(photo.shape[0], y + high)
    part = np.s_[top - y : bottom - y, left - x : right - x]
    there = photo[top:bottom, left:right]
    photo[top:bottom, left:right] = there * (1 - cover[part]) + drawn[part] * cover[part]
