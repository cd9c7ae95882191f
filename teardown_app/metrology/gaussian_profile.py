"""The Gaussian profile filter: its weight, what it lets through, and a profile parted into mean line and roughness."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, number, numbers

ALPHA = math.sqrt(math.log(2) / math.pi)
"""Width of the weight in cut-offs: half of a sine of cut-off wavelength passes."""
DISCARD, RENORMALISE, LINE = "discard", "renormalise", "line"
ENDS = (DISCARD, RENORMALISE, LINE)
POINTS_PER_CUT_OFF = 4
"""Fewest; with less the sampled weight no longer passes half at the cut-off."""
_SHORT = 64
"""Weights up to which plain convolution is the faster way."""


class Parted(NamedTuple):
    """A profile parted by the filter, where it is kept."""

    mean_line: Floats
    """Long waves, shape (k,), um."""
    roughness: Floats
    """Heights less mean line, shape (k,), um."""
    first: int
    """Number of points left out before the first kept one, and after the last."""


def gaussian_weight(position: Sequence[float] | Floats | float, cut_off: float) -> Floats:
    """Weight of the Gaussian profile filter: s(x) = exp(-pi (x / (alpha c))^2) / (alpha c), alpha = sqrt(ln 2 / pi).

    ISO 16610-21. Parameters: `position` x from the centre in mm, any shape, finite; `cut_off` c in mm, above 0.
    Returns 1/mm. Raises `BadInput` otherwise.

    >>> gaussian_weight([0, 0.4], 0.8).round(8).tolist()
    [2.66116755, 0.07570263]
    """
    width = ALPHA * number("cut_off", cut_off, "above 0 mm", above=0)
    x = numbers("position", np.ravel(np.asarray(position, dtype=np.float64)), unit="mm").reshape(np.shape(position))
    weight: Floats = np.exp(-math.pi * (x / width) ** 2) / width
    return weight


def gaussian_transmission(wavelength: Sequence[float] | Floats | float, cut_off: float) -> Floats:
    """Share of a sine's amplitude that stays in the mean line: 2^-(c / wavelength)^2; roughness keeps 1 less that.

    ISO 16610-21. Parameters: `wavelength` in mm, any shape, above 0; `cut_off` c in mm, above 0. Raises `BadInput`.

    >>> gaussian_transmission([0.4, 0.8, 1.6], 0.8).round(9).tolist()
    [0.0625, 0.5, 0.840896415]
    """
    cut = number("cut_off", cut_off, "above 0 mm", above=0)
    wave = numbers("wavelength", np.ravel(np.asarray(wavelength, dtype=np.float64)), unit="mm")
    if np.any(wave <= 0):
        raise BadInput("wavelength", float(wave.min()), "above 0 mm")
    with np.errstate(over="ignore"):
        share: Floats = np.exp2(-((cut / wave) ** 2)).reshape(np.shape(wavelength))
    return share


def gaussian_filter(heights: Sequence[float] | Floats, step: float, cut_off: float, *, ends: str = DISCARD) -> Parted:
    """Part a profile into its mean line and its roughness with the Gaussian filter of ISO 16610-21.

    The weight is sampled at the points, cut at one cut-off to either side and divided by its sum. `ends` says what is
    done where the weight reaches beyond the profile:
    "discard": half a cut-off is left out at both ends; what little weight still reaches beyond (0.4 % at most) is left
    out and the rest divided by its own sum. "renormalise": the same, and all points are kept. "line": all points are
    kept, and near the ends a line is fitted with the weights (first-order retention, as ISO 16610-28 offers), so that
    a straight profile is its own mean line up to the ends.

    Parameters: `heights` of shape (n,), um; `step` between points in mm; `cut_off` in mm, 4 steps or more.
    Raises `BadInput` otherwise, and where "discard" leaves nothing.

    >>> found = gaussian_filter(np.sin(2 * np.pi * np.arange(2000) / 100), 0.008, 0.8)
    >>> round(float(np.ptp(found.mean_line)), 4), len(found.roughness), found.first
    (1.0, 1900, 50)
    """
    z = numbers("heights", heights, unit="um")
    step = number("step", step, "above 0 mm", above=0)
    cut = number("cut_off", cut_off, "above 0 mm", above=0)
    if cut < POINTS_PER_CUT_OFF * step * (1 - 1e-9):
        raise BadInput("cut_off", cut_off, f"{POINTS_PER_CUT_OFF} steps or more: {POINTS_PER_CUT_OFF * step:g} mm")
    if ends not in ENDS:
        raise BadInput("ends", ends, " or ".join(ENDS))
    first = math.ceil(cut / 2 / step - 1e-6) if ends == DISCARD else 0
    if len(z) <= 2 * first:
        raise BadInput("heights", f"{len(z)} of them", f"above {2 * first}, half a cut-off is left out at both ends")
    level = float(z[0])
    line = _mean_line(z - level, step, cut, ends)
    kept = slice(first, len(z) - first)
    return Parted(line[kept] + level, (z - level - line)[kept], first)


def _mean_line(z: Floats, step: float, cut: float, ends: str) -> Floats:
    """Weighted mean at every point of the weights that lie within; near the ends a weighted line for `line`."""
    reach = min(int(cut / step * (1 + 1e-9)), len(z) - 1)
    offsets = np.arange(-reach, reach + 1)
    weights = np.exp(-math.pi * (offsets * step / (ALPHA * cut)) ** 2)
    weights /= weights.sum()
    total = _within(weights, len(z), reach)
    mean = _spread(z, weights, reach) / total
    if ends != LINE:
        return mean
    u = offsets / max(reach, 1)
    first, second = _within(weights * u, len(z), reach), _within(weights * u * u, len(z), reach)
    tilted = _spread(z, (weights * u)[::-1], reach)
    spread = total * second - first**2
    straight = spread > 1e-12 * second.max()
    line: Floats = np.where(straight, (second * mean * total - first * tilted) / np.where(straight, spread, 1), mean)
    return line


def _within(weights: Floats, n: int, reach: int) -> Floats:
    """Sum of the weights that lie on the profile, at every point of it."""
    sums = np.concatenate([[0.0], np.cumsum(weights)])
    at = np.arange(n)
    found: Floats = sums[np.minimum(n - 1 - at, reach) + reach + 1] - sums[np.maximum(-at, -reach) + reach]
    return found


def _spread(z: Floats, weights: Floats, reach: int) -> Floats:
    """Convolution of the profile with the weights, its length kept."""
    if len(weights) <= _SHORT:
        found: Floats = np.convolve(z, weights)[reach : reach + len(z)]
        return found
    length = 1 << (len(z) + len(weights) - 2).bit_length()
    both = np.fft.irfft(np.fft.rfft(z, length) * np.fft.rfft(weights, length), length)
    return both[reach : reach + len(z)]
