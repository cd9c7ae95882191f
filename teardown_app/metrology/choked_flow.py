"""Gas through an orifice or nozzle: ideal gas, choked or not."""

from __future__ import annotations

import math
from typing import NamedTuple

from teardown_app.metrology.fault import number
from teardown_app.metrology.gases import Gas
from teardown_app.metrology.leak import ZERO_CELSIUS
from teardown_app.metrology.leak_unit import ATMOSPHERE, GAS_CONSTANT


class OrificeFlow(NamedTuple):
    """What flows, and whether the throat is at the speed of sound."""

    mass_flow: float
    """g/s."""
    choked: bool
    """True where a lower pressure behind would bring no more."""
    pressure_ratio: float
    """Behind over before, absolute."""
    critical_ratio: float
    """Ratio at and below which flow is choked."""


def critical_ratio(heat_ratio: float) -> float:
    """Pressure ratio at and below which flow is choked: (2 / (k + 1))^(k / (k - 1)).

    `heat_ratio` k above 1, at most 5/3 for gases there are. Raises `BadInput`.

    >>> round(critical_ratio(1.4), 6)
    0.528282
    """
    k = number("heat_ratio", heat_ratio, "above 1, at most 5/3", above=1, high=5 / 3)
    return math.exp(-k / (k - 1) * math.log1p((k - 1) / 2))


def orifice_flow(
    diameter: float, before: float, behind: float, temperature: float, *, gas: Gas, discharge: float
) -> OrificeFlow:
    """Mass flow of an ideal gas through an orifice, entered from rest.

    With r = max(P2 / P1, critical ratio): m = Cd A P1 sqrt(2 k / (k - 1) M / (R T) (r^(2/k) - r^((k+1)/k))), which for
    choked flow is Cd A P1 sqrt(k M / (R T)) (2 / (k + 1))^((k + 1) / (2 (k - 1))).

    Parameters: `diameter` in mm, above 0; `before` P1 and `behind` P2 in bar absolute, 0 <= P2 <= P1, P1 above 0;
    `temperature` of the gas at rest in degC, above -273.15; `gas` with M in g/mol and k; `discharge` Cd above 0 to 1.
    Real nitrogen at 5 bar flows 0.2 % more. Raises `BadInput`.

    >>> round(orifice_flow(1, 5, 1.01325, 20, gas=Gas.named("nitrogen"), discharge=0.8).mass_flow, 6)
    0.729274
    """  # fmt: skip
    area = math.pi / 4 * (number("diameter", diameter, "above 0 mm", above=0) * 1e-3) ** 2
    before = number("before", before, "above 0 bar absolute", above=0)
    behind = number("behind", behind, "0 bar absolute or above, no more than before", low=0, high=before)
    kelvin = number("temperature", temperature, "above -273.15 degC", above=-ZERO_CELSIUS) + ZERO_CELSIUS
    discharge = number("discharge", discharge, "above 0, at most 1", above=0, high=1)
    critical, ratio = critical_ratio(gas.heat_ratio), behind / before
    lost = math.log(critical) if ratio <= critical else math.log1p((behind - before) / before)
    flux = before * 1e5 * math.sqrt(_expansion(gas.heat_ratio, lost) * gas.molar_mass * 1e-3 / (GAS_CONSTANT * kelvin))
    return OrificeFlow(discharge * area * flux * 1e3, ratio <= critical, ratio, critical)


def standard_flow(
    mass_flow: float, molar_mass: float, *, temperature: float = 0.0, pressure: float = ATMOSPHERE
) -> float:
    """Flow in litres a minute at a standard state: V = m R T / (M P).

    Parameters: `mass_flow` m in g/s, 0 or above; `molar_mass` M in g/mol, above 0; `temperature` of the standard state
    in degC, 0 where nothing else is said; its `pressure` in Pa, 101325. Raises `BadInput`.

    >>> round(standard_flow(0.729274, 28.0134), 3), round(standard_flow(0.729274, 28.0134, temperature=20), 3)
    (35.01, 37.574)
    """  # fmt: skip
    mass_flow = number("mass_flow", mass_flow, "0 g/s or above", low=0)
    mol_s = mass_flow / number("molar_mass", molar_mass, "above 0 g/mol", above=0)
    kelvin = number("temperature", temperature, "above -273.15 degC", above=-ZERO_CELSIUS) + ZERO_CELSIUS
    return mol_s * GAS_CONSTANT * kelvin / number("pressure", pressure, "above 0 Pa", above=0) * 6e4


def _expansion(k: float, lost: float) -> float:
    """2 k / (k - 1) (r^(2/k) - r^((k+1)/k)) for ln r = `lost`; keeps its digits near r = 1."""
    return -2 * k / (k - 1) * math.exp(2 / k * lost) * math.expm1((k - 1) / k * lost)
