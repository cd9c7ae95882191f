"""Height parameters of a roughness profile: Ra, Rq, Rsk, Rku, Rt, Rp, Rv, Rz. No filter and no form removal."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, number, numbers

ISO_21920, ISO_4287 = "ISO 21920-2", "ISO 4287"
STANDARDS = (ISO_21920, ISO_4287)
SECTIONS = 5
"""Sections of one cut-off length in an evaluation length, unless the drawing says otherwise."""
_DUST = 16 * float(np.finfo(np.float64).eps)
"""Share of the largest height beneath which what is left is rounding."""


class Roughness(NamedTuple):
    """Height parameters of one evaluation length."""

    ra: float
    """Arithmetic mean height, um."""
    rq: float
    """Root mean square height, um."""
    rz: float
    """Mean over the sections of highest peak plus deepest valley, um."""
    rt: float
    """Highest peak to deepest valley of the whole length, um."""
    rp: float
    """Mean over the sections of the highest peak, um."""
    rv: float
    """Mean over the sections of the deepest valley, um, counted downwards."""
    rsk: float | None
    """Skewness; below 0 where valleys outweigh peaks. None for a profile without any height."""
    rku: float | None
    """Kurtosis; 3 for normally distributed heights. None for a profile without any height."""
    rzx: float
    """Largest peak to valley of any one section, um."""


def roughness_parameters(
    heights: Sequence[float] | Floats,
    *,
    sections: float = SECTIONS,
    standard: str = ISO_21920,
    mean_line: Literal["mean", "zero"] = "mean",
) -> Roughness:
    """Height parameters of a roughness profile.

    With z the height over the mean line: Ra = mean |z|, Rq = sqrt(mean z^2), Rsk = mean z^3 / Rq^3,
    Rku = mean z^4 / Rq^4, Rt = max z - min z over the whole length. Of each section: Rp = max z, Rv = -min z,
    Rz = Rp + Rv; the profile's Rp, Rv and Rz are the means over the sections, Rzx is the largest Rz.
    ISO 21920-2 takes Ra, Rq, Rsk and Rku over the whole length; ISO 4287 takes them too of each section and averages.

    Parameters: `heights` of shape (n,), equally spaced, in um, n at least twice `sections`; `sections` of equal length,
    1 or more (5 as a rule); where n cannot be divided they differ by one point. `standard` one of STANDARDS.
    `mean_line` "mean" measures from the mean of all heights, "zero" from the height 0, as a filter leaves it.
    Raises `BadInput` otherwise.

    >>> found = roughness_parameters([1, 3, 2, -1, -2, 0, 4, -3, 1, -5])
    >>> round(found.ra, 9), round(found.rq, 9), found.rz, found.rt, round(found.rsk, 9), round(found.rku, 9)
    (2.2, 2.645751311, 4.0, 9.0, -0.323969548, 2.2)
    """  # fmt: skip
    whole = number("sections", sections, "a whole number, 1 or above", low=1)
    if whole != int(whole):
        raise BadInput("sections", sections, "a whole number, 1 or above")
    z = numbers("heights", heights, at_least=2 * int(whole), unit="um")
    if standard not in STANDARDS:
        raise BadInput("standard", standard, " or ".join(STANDARDS))
    if mean_line not in ("mean", "zero"):
        raise BadInput("mean_line", mean_line, "mean or zero")
    if mean_line == "mean":
        z = _from_mean(z)
    parts = np.split(z, [-(-k * len(z) // int(whole)) for k in range(1, int(whole))])
    moments = [_moments(part) for part in (parts if standard == ISO_4287 else [z])]
    ra, rq = (float(np.mean([one[column] for one in moments])) for column in (0, 1))
    rsk, rku = (_average([one[column] for one in moments]) for column in (2, 3))
    peaks = np.array([part.max() for part in parts])
    valleys = np.array([-part.min() for part in parts])
    height = peaks + valleys
    return Roughness(ra, rq, float(height.mean()), float(z.max() - z.min()), float(peaks.mean()),
                     float(valleys.mean()), rsk, rku, float(height.max()))  # fmt: skip


def _from_mean(z: Floats) -> Floats:
    """Heights over their own mean; rounding of a level profile at a great height counts as nothing."""
    near = z - z[0]
    over: Floats = near - near.mean()
    return np.zeros_like(over) if np.abs(over).max() <= _DUST * np.abs(z).max() else over


def _moments(z: Floats) -> tuple[float, float, float | None, float | None]:
    """Ra, Rq, Rsk, Rku; scaled by the largest height, so that no power leaves the range of numbers."""
    largest = float(np.abs(z).max())
    if largest == 0:
        return 0.0, 0.0, None, None
    unit = z / largest
    rq = float(np.sqrt(np.mean(unit**2)))
    skew, kurtosis = float(np.mean(unit**3)) / rq**3, float(np.mean(unit**4)) / rq**4
    return largest * float(np.mean(np.abs(unit))), largest * rq, skew, kurtosis


def _average(values: list[float | None]) -> float | None:
    """Mean of those that are defined."""
    there = [one for one in values if one is not None]
    return float(np.mean(there)) if there else None
