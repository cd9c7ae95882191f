"""Resistance of a winding: at another temperature, the temperature it tells, how alike the phases are."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.fault import BadInput, number, numbers

COPPER_IEEE, COPPER_IEC, ALUMINIUM = 234.5, 235.0, 225.0
"""k in degC: copper after IEEE 112, copper after IEC 60034-1, aluminium. From memory: verify against your copy."""
LOWEST, HIGHEST = -50.0, 300.0
"""Range of winding temperature, degC, in which the straight line is used."""
OF_ROUNDING = 1e-9
"""K by which a temperature that was computed may pass the range: last digits only."""


class Unbalance(NamedTuple):
    """How far windings that should be alike differ."""

    percent: float
    """Greatest distance from the mean, % of the mean."""
    mean: float
    """Ohm."""
    at: int
    """Which one lies farthest from the mean, counted from 0; the first of them on a tie."""


def resistance_at(resistance: float, temperature: float, reference: float, *, k: float = COPPER_IEEE) -> float:
    """Resistance in ohm that a winding has at another temperature: R2 = R1 (k + t2) / (k + t1).

    IEEE 112 and IEC 60034-1; k 234.5 or 235 for copper, 225 for aluminium, verify against your copy.

    Parameters: `resistance` R1 in ohm, above 0, read at `temperature` t1; `reference` t2 is wanted; both -50 to
    300 degC; `k` 200 to 300 degC. Raises `BadInput`.

    >>> round(resistance_at(2.0, 20, 25), 6), round(resistance_at(1.25, 60, 20), 6)
    (2.039293, 1.080221)
    """
    cold = _above_zero(_temperature("temperature", temperature), k)
    wanted = _above_zero(_temperature("reference", reference), k)
    return number("resistance", resistance, "above 0 ohm", above=0) * (wanted / cold)


def hot_temperature(cold_resistance: float, cold_temperature: float, hot_resistance: float,
                    *, k: float = COPPER_IEEE) -> float:  # fmt: skip
    """Mean temperature of a winding in degC, told by its resistance: t2 = (R2 / R1) (k + t1) - k.

    IEEE 112 and IEC 60034-1, method of resistance.

    Parameters: resistances R1 cold and R2 hot in ohm, above 0; `cold_temperature` t1 -50 to 300 degC; `k` 200 to
    300 degC. Raises `BadInput`, also where t2 comes out beyond -50 to 300 degC.

    >>> hot_temperature(2.0, 20, 2.5), hot_temperature(2.0, 20, 2.5, k=235)
    (83.625, 83.75)
    """
    start = _temperature("cold_temperature", cold_temperature)
    cold = number("cold_resistance", cold_resistance, "above 0 ohm", above=0)
    hot = number("hot_resistance", hot_resistance, "above 0 ohm", above=0)
    found = start + (hot - cold) / cold * _above_zero(start, k)
    if not LOWEST - OF_ROUNDING <= found <= HIGHEST + OF_ROUNDING:
        raise BadInput("hot_resistance", hot_resistance, f"what -50 to 300 degC make of it; this is {found:.1f} degC")
    return found


def unbalance(resistances: Sequence[float]) -> Unbalance:
    """Unbalance in % of windings that should be alike: 100 max |Ri - mean| / mean.

    `resistances` in one unit, 2 or more, each above 0, all at one temperature. Raises `BadInput`.

    >>> found = unbalance([1.02, 1.00, 1.01])
    >>> round(found.percent, 6), found.at
    (0.990099, 0)
    """
    read = numbers("resistances", resistances, at_least=2, unit="ohm")
    for index in np.flatnonzero(read <= 0):
        raise BadInput(f"resistances, no. {index + 1}", float(read[index]), "above 0 ohm")
    share = read / read.max()
    away = np.abs(share - share.mean())
    farthest = int(np.flatnonzero(away >= away.max() * (1 - 1e-12))[0])
    return Unbalance(100 * float(away[farthest] / share.mean()), float(share.mean() * read.max()), farthest)


def _temperature(field: str, value: float) -> float:
    return number(field, value, "-50 to 300 degC", low=LOWEST, high=HIGHEST)


def _above_zero(temperature: float, k: float) -> float:
    """Degrees above the point where the straight line of resistance meets zero."""
    return temperature + number("k", k, "200 to 300 degC", low=200, high=300)
