"""Volume that a pump or dispenser gives, from weighings of water: how far off, and how much it scatters."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, number, numbers

LEAST_WEIGHINGS = 10


class Dispensed(NamedTuple):
    """Errors of delivery at one set volume."""

    mean: float
    """Mean volume, ul."""
    systematic_error: float
    """Mean less set volume, ul."""
    systematic_percent: float
    """The same as % of the set volume."""
    random_error: float
    """Standard deviation of single deliveries, n - 1, ul."""
    variation: float
    """Coefficient of variation: random error as % of the mean volume."""


def dispensed_volume(
    weighings: Sequence[float] | Floats, nominal: float, z: float, *, evaporation: float = 0.0
) -> Dispensed:
    """Systematic and random error of deliveries by weighing, ISO 8655-6: V = (m + e) Z, sample deviation with n - 1.

    Parameters: `weighings` m of shape (n,), n 10 or more, each one delivery, mg, 0 or above; `nominal` set volume
    in ul, above 0; `z` from `z_factor`, 0.9 to 1.1 ul/mg; `evaporation` e lost in one weighing, mg, 0 or above.
    Raises `BadInput`, also when nothing at all was delivered.

    >>> found = dispensed_volume([99, 101] * 5, 100, 1.003)
    >>> round(found.mean, 4), round(found.systematic_percent, 4), round(found.random_error, 4)
    (100.3, 0.3, 1.0573)
    """  # fmt: skip
    masses = numbers("weighings", weighings, at_least=LEAST_WEIGHINGS, unit="mg")
    for place, mass in enumerate(masses, start=1):
        number(f"weighings, no. {place}", float(mass), "0 mg or above", low=0)
    nominal = number("nominal", nominal, "above 0 ul", above=0)
    z = number("z", z, "0.9 to 1.1 ul/mg", low=0.9, high=1.1)
    volumes = (masses + number("evaporation", evaporation, "0 mg or above", low=0)) * z
    mean, scatter = float(np.mean(volumes)), float(np.std(volumes, ddof=1))
    if mean <= 0:
        raise BadInput("weighings", "nothing delivered", "deliveries above 0 mg")
    return Dispensed(mean, mean - nominal, 100 * (mean - nominal) / nominal, scatter, 100 * scatter / mean)
