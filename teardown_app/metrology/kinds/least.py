"""The least that proves anything, kind by kind: what lies below it is refused, or is inconclusive with the reason.

Numbers here are common practice, no source, where nothing else is said.
"""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.metrology.fault import BadInput, Floats, rows

SAME_PLACE = 1e-6
"""Places nearer to each other than this share of the whole are one place."""
NARROW = 1e-3
"""A face measured over less than this share of its length across lies on a line."""
LEANS = 0.5
"""Cosine of the lean, 60 degrees, beyond which a plane stands upright and its heights run along it."""
NO_RADII = 0.1
"""Radii that differ by more than this share of their mean are deviations, or no round."""

LEAST = {
    "roughness": "one reading above 0: a stylus that lies on a surface never shows 0",
    "roughness-trace": "a trace that moves: not one height over more than half a cut-off",
    "roughness-before-after": "a pair of readings above 0",
    "cut-off": "a limit, or the width of the profile's elements",
    "flatness": "four different places that do not lie in one line, and heights across the face, not along it",
    "flatness-grid": "two rows of two readings",
    "roundness": "four different places, or four whole radii and not deviations from one",
    "runout": "three readings a turn",
    "bend": "thickness and radius, or chord and height",
    "diameters": "two directions",
    "residual-unbalance": "the residual unbalance of one plane",
    "vibration": "a velocity above 0: a machine that runs is never still",
    "relative-centrifugal-force": "a speed",
    "bonding": "a voltage above 0 while the current flows: 0 V says that the leads do not touch, or too coarse a meter",
    "heater": "a resistance above 0",
    "winding": "a resistance above 0 with its temperature",
    "winding-unbalance": "two phases, each above 0",
    "insulation": "a resistance above 0 with its temperature",
    "polarisation-index": "readings after one minute and after ten, of no more than 5 Gohm",
    "pt100": "a resistance or a temperature that the curve holds",
    "ntc": "a resistance or a temperature that the curve holds",
    "thermocouple": "a voltage or a temperature that the table holds",
    "pressure-decay": "a pressure that goes the way of the test, else a lower limit that says how far it may not",
    "allowed-pressure-drop": "a leak rate, a volume and a time",
    "leak-rate": "a rate of 0 or above",
    "gas-leak": "a rate of 0 or above",
    "water-resistivity": "a resistivity that water can have",
    "dispensed-volume": "ten weighings above 0",
    "choked-flow": "a pressure before the hole no lower than behind it",
    "bubble-point": "a pressure above 0",
    "torque": "a size and a class",
    "preload": "a torque",
    "fit": "a size above 0",
    "success-run": "one pass",
    "proportion": "one trial",
    "particle-counts": "one count",
    "decision": "a value and one limit",
    "repeated-readings": "two readings",
    "uncertainty-budget": "one reading",
}

DEVIATION, WRONG_WAY = "a deviation", "wrong way"
BELOW_ZERO = {
    "pt100": DEVIATION,
    "ntc": DEVIATION,
    "thermocouple": DEVIATION,
    "dispensed-volume": DEVIATION,
    "pressure-decay": WRONG_WAY,
    "leak-rate": WRONG_WAY,
}
"""Kinds whose judged value may be negative. A deviation lies either way, so that a bare `max` is held against its size;
what goes the wrong way proves nothing unless a lower limit says how far it may."""


def places_apart(points: Sequence[Sequence[float]]) -> int:
    """How many different places these are; two or three coordinates each.

    >>> places_apart([(0, 0), (1, 0), (0, 1)] * 2)
    3
    """
    import numpy as np

    read = rows("points", points, columns=len(points[0]) if points else 0)
    size = float(np.ptp(read, axis=0).max()) or 1.0
    return len({tuple(one) for one in np.round((read - read.min(axis=0)) / (size * SAME_PLACE)).tolist()})


def in_one_line(points: Sequence[Sequence[float]]) -> bool:
    """True where places of a face leave no width: they lie in one line, seen from above, or the face stands upright.

    >>> in_one_line([(0, 0, 0), (1, 0, 0.1), (2, 0, 0)]), in_one_line([(0, 0, 0), (1, 0, 0), (0, 1, 0)])
    (True, False)
    """
    import numpy as np

    read = rows("points", points, columns=3)[:, :2]
    spread = np.linalg.svd(read - read.mean(axis=0), compute_uv=False)
    return bool(len(spread) < 2 or spread[1] <= NARROW * spread[0])


def face_across(points: Sequence[Sequence[float]], normal: Floats) -> None:
    """Refuses heights that do not lie across a face: places in one line, or a face that leans too far."""
    if in_one_line(points):
        raise BadInput("points", "in one line, or of a face that stands upright", LEAST["flatness"])
    if abs(float(normal[2])) < LEANS:
        raise BadInput("points", "of a face that leans by more than 60 degrees", LEAST["flatness"])


def whole_radii(radii: Floats) -> None:
    """Refuses deviations in the place of radii.

    >>> import numpy
    >>> whole_radii(numpy.array([0.1, 0.4, 0.2]))
    Traceback (most recent call last):
    teardown_app.metrology.fault.BadInput: radii is from 0.1 to 0.4 mm, which are deviations; allowed: whole radii
    """
    low, high = float(radii.min()), float(radii.max())
    if high - low > NO_RADII * float(radii.mean()):
        raise BadInput("radii", f"from {low:g} to {high:g} mm, which are deviations", "whole radii")


def longest_stand(heights: Sequence[float]) -> int:
    """Most heights in a row that are one and the same.

    >>> longest_stand([1, 2, 2, 2, 3])
    3
    """
    import numpy as np

    moves = np.flatnonzero(np.diff(np.asarray(heights, dtype=float)))
    return int(np.diff(np.concatenate(([-1], moves, [len(heights) - 1]))).max())
