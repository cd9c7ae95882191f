"""Roughness as found against as left, place by place."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, numbers


class Change(NamedTuple):
    """What became of the roughness."""

    difference: Floats
    """As found less as left, by place, shape (n,), um; below 0 where it has become rougher."""
    percent: Floats
    """Difference as a share of as found, by place, shape (n,), %."""
    mean_percent: float
    """Reduction of the mean over all places, %."""


def change_by_place(as_found: Sequence[float] | Floats, as_left: Sequence[float] | Floats) -> Change:
    """Reduction by place: d = found - left, 100 d / found; and of the means: 100 (1 - mean left / mean found).

    Common practice. Parameters: `as_found` and `as_left` of the same shape (n,), um, the same places in the same order
    with the same cut-off; as found above 0, as left 0 or above. Raises `BadInput` otherwise.

    >>> found = change_by_place([0.8, 0.5], [0.4, 0.3])
    >>> found.difference.round(9).tolist(), found.percent.round(9).tolist(), round(found.mean_percent, 6)
    ([0.4, 0.2], [50.0, 40.0], 46.153846)
    """
    found, left = numbers("as_found", as_found, unit="um"), numbers("as_left", as_left, unit="um")
    if len(found) != len(left):
        raise BadInput("as_left", f"{len(left)} of them", f"{len(found)}, one for every place as found")
    for name, values, bad, allowed in (("as_found", found, found <= 0, "above 0 um"),
                                       ("as_left", left, left < 0, "0 um or above")):  # fmt: skip
        if bad.any():
            place = int(np.flatnonzero(bad)[0])
            raise BadInput(f"{name}, no. {place + 1}", float(values[place]), allowed)
    difference = found - left
    return Change(difference, 100 * difference / found, float(100 * difference.sum() / found.sum()))
