"""Out of round from diameters read with a two-point instrument."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, numbers


class OutOfRound(NamedTuple):
    """Diameters of one section."""

    mean: float
    """mm."""
    largest: float
    """mm."""
    smallest: float
    """mm."""
    out_of_round: float
    """Largest less smallest diameter, mm."""
    roundness: float
    """Half of it, mm: two-point roundness, which does not see an odd number of lobes."""


def out_of_round(diameters: Sequence[float] | Floats) -> OutOfRound:
    """Largest less smallest of the diameters of a section, and half of it (two-point measurement, ISO 4292).

    Parameters: `diameters` in mm, shape (n,), two or more, above 0. Raises `BadInput` otherwise.

    >>> found = out_of_round([25.002, 25.008, 25.004])
    >>> round(found.out_of_round, 6), round(found.roundness, 6)
    (0.006, 0.003)
    """
    read = numbers("diameters", diameters, at_least=2, unit="mm")
    wrong = np.flatnonzero(read <= 0)
    if len(wrong):
        raise BadInput(f"diameters, no. {wrong[0] + 1}", float(read[wrong[0]]), "above 0 mm")
    largest, smallest = float(read.max()), float(read.min())
    return OutOfRound(float(read.mean()), largest, smallest, largest - smallest, (largest - smallest) / 2)
