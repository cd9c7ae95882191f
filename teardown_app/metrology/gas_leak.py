"""The same leak with another gas: nothing can be compared before the regime of flow is known."""

from __future__ import annotations

import math

from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.gases import Gas

REGIMES = ("viscous", "molecular")
"""Viscous: laminar, leaks roughly above 1e-5 Pa m3/s; molecular: roughly below 1e-8 Pa m3/s; between them neither."""


def with_other_gas(rate: float, measured: Gas, wanted: Gas, regime: str) -> float:
    """Leak rate of `wanted` through the leak that passed `rate` of `measured`, same pressures and temperature.

    Laminar viscous flow (Poiseuille): Q2 = Q1 eta1 / eta2. Molecular flow (Knudsen): Q2 = Q1 sqrt(M1 / M2).
    Parameters: `rate` in any unit of leak rate, 0 or above; gases with viscosity and molar mass above 0; `regime`
    viscous or molecular. Result in the unit of `rate`. Raises `BadInput`.

    >>> helium, air = Gas.named("helium"), Gas.named("air")
    >>> round(with_other_gas(1.0, air, helium, "molecular"), 5), round(with_other_gas(1.0, air, helium, "viscous"), 4)
    (2.68985, 0.9235)
    """
    rate = number("rate", rate, "0 or above", low=0)
    if regime == "viscous":
        return rate * _above_zero("viscosity", measured.viscosity) / _above_zero("viscosity", wanted.viscosity)
    if regime == "molecular":
        ratio = _above_zero("molar_mass", measured.molar_mass) / _above_zero("molar_mass", wanted.molar_mass)
        return rate * math.sqrt(ratio)
    raise BadInput("regime", regime, " or ".join(REGIMES))


def _above_zero(field: str, value: float) -> float:
    return number(field, value, "above 0", above=0)
