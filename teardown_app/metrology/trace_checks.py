"""Whether a trace can be trusted before anything is computed: points evenly spaced, heights within the range."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.fault import Floats, numbers

RUN, LONG_RUN = 3, 6
"""Equal heights in a row that count; that many are enough by themselves."""
_UNEVEN = 0.25
"""Share of the step by which one spacing may be off."""
_ROUNDED_FROM = 0.02
"""Share of spacings that are off from which it is rounding and no gap."""
SQUARE_SHARE = 0.9
"""Share of points at the highest or lowest height from which a profile is square, or level, and not clipped."""
_ON_GRID = 0.02


class Spacing(NamedTuple):
    """How the points of a trace lie along it."""

    step: float
    """Mean distance between points, in the unit of the positions; below 0 where they run backwards."""
    uneven: int
    """Number of the first point (from 0) that does not lie one step after the one before it; -1 if all do."""
    usual: float
    """Median distance between points, in the unit of the positions."""


def point_spacing(positions: Sequence[float] | Floats) -> Spacing:
    """Step of a trace from the positions of its points: (last - first) / (n - 1), and the first gap there is.

    A spacing may be off by a quarter of the step. Where more than one in fifty is, the positions may still be rounded
    ones: then all lie on one line but for their last digit (a step of 0.5 um written in mm to three decimals runs
    0, 0.001, 0.001, 0.002). Common practice.

    Parameters: `positions` of shape (n,), n 2 or more, any length unit. Raises `BadInput` otherwise.

    >>> point_spacing([0.0, 0.5, 1.0, 1.5]), point_spacing([0.0, 0.5, 1.0, 1.5, 3.5, 4.0]).uneven
    (Spacing(step=0.5, uneven=-1, usual=0.5), 4)
    """
    x = numbers("x", positions, at_least=2)
    step = float((x[-1] - x[0]) / (len(x) - 1))
    if step == 0:
        return Spacing(0.0, 1, 0.0)
    apart = np.diff(x)
    usual = float(np.median(apart))
    off = np.abs(apart - usual)
    wrong = off > _UNEVEN * abs(usual)
    if (wrong.mean() > _ROUNDED_FROM or usual * step <= 0) and _rounded(x, apart):
        return Spacing(step, -1, usual)
    if usual * step <= 0 and not wrong.any():
        wrong = off >= off.max()
    return Spacing(step, int(np.flatnonzero(wrong)[0]) + 1 if wrong.any() else -1, usual)


def _rounded(x: Floats, apart: Floats) -> bool:
    """True for positions on one line but for their last digit: two neighbouring spacings, no drift off the line."""
    digit = _last_digit(x)
    along = np.linspace(-1.0, 1.0, len(x))
    level = x - x.mean()
    left = level - along * float(along @ level) / float(along @ along)
    return bool(np.ptp(apart) <= 1.01 * digit and np.ptp(left) <= 1.3 * digit)


def points_at_stop(heights: Sequence[float] | Floats) -> int:
    """Points at which the pick-up stood at the end of its range; 0 where the trace is not clipped.

    A run is three or more equal heights in a row, exactly at the highest or the lowest height of the trace. A trace
    counts as clipped with two such runs, or one of six points. Heights written in steps of a last digit have such runs
    on rounded tops as well: there a run counts only if the profile leaves it faster than it could leave such a top. A
    profile with nine in ten points at those two heights is square, or level, and not called clipped. Common practice.

    Parameters: `heights` of shape (n,), um. Raises `BadInput` where one of them is no number.

    >>> sine = np.sin(2 * np.pi * np.arange(400) / 100)
    >>> points_at_stop(sine), points_at_stop(np.clip(sine, -9, 0.9)), points_at_stop(np.sign(sine))
    (0, 60, 0)
    """
    z = numbers("heights", heights, unit="um")
    if np.mean((z == z.max()) | (z == z.min())) >= SQUARE_SHARE:
        return 0
    leave = np.abs(np.diff(z))
    moved = leave[leave > 1e-9 * np.ptp(z)]
    grid = _grid(moved)
    runs = [run for stop in (z.max(), z.min()) for run in _runs(z, float(stop), leave, grid)]
    return sum(runs) if len(runs) > 1 or max(runs, default=0) >= LONG_RUN else 0


def _grid(moved: Floats) -> float:
    """The step all changes of height are multiples of; 0 where there is none."""
    for parts in (1, 2, 3, 4, 5):
        times = moved / (float(moved.min()) / parts)
        if np.all(np.abs(times - np.round(times)) < _ON_GRID):
            return float(moved.min()) / parts
    return 0.0


def _runs(z: Floats, stop: float, leave: Floats, grid: float) -> list[int]:
    """Lengths of the runs at one height that the profile enters or leaves faster than a rounded top would."""
    at = np.concatenate([[False], z == stop, [False]])
    starts, ends = np.flatnonzero(~at[:-1] & at[1:]), np.flatnonzero(at[:-1] & ~at[1:])
    steps = np.concatenate([[0.0], leave, [0.0]])
    return [int(b - a) for a, b in zip(starts, ends, strict=True)
            if b - a >= RUN and max(steps[a], steps[b]) > grid * _off_a_top(int(b - a))]  # fmt: skip


def _off_a_top(length: int) -> float:
    """Steps of the last digit by which a profile can leave a rounded top that is level over so many points.

    Such a top bends by 8 / length^2 steps a point at most; one step more and a half is rounding.
    """
    return 1.5 + 8 / length**2 * (length / 2 + 1)


def _last_digit(x: Floats) -> float:
    """Power of ten that all positions are multiples of, 0 where there is none down to the tenth decimal."""
    for decimals in range(11):
        scaled = x * 10.0**decimals
        if np.all(np.abs(scaled - np.round(scaled)) < 1e-4):
            return float(10.0**-decimals)
    return 0.0
