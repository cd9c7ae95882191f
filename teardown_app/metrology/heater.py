"""Heating elements: resistance and current from the plate, power at another voltage, band of resistance."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.metrology.fault import number

PLUS_PERCENT, MINUS_PERCENT = 5.0, 10.0
"""Usual tolerance of power, IEC 60335-1 for heaters above 200 W. From memory: verify against your copy."""


class Rating(NamedTuple):
    """What the plate comes to."""

    resistance: float
    """Ohm, hot."""
    current: float
    """A."""


class Band(NamedTuple):
    """Resistance that a tolerance of power allows."""

    low: float
    """Ohm; at the highest power."""
    high: float
    """Ohm; at the lowest power."""


def rating(voltage: float, power: float) -> Rating:
    """Hot resistance R = U^2 / P in ohm and current I = P / U in A of one element. Ohm's law.

    `voltage` U across the element in V, `power` P in W, both rated and above 0. Raises `BadInput`.

    >>> found = rating(208, 2000)
    >>> found.resistance, round(found.current, 6)
    (21.632, 9.615385)
    """
    volts, watts = _voltage("voltage", voltage), number("power", power, "above 0 W", above=0)
    return Rating(volts * volts / watts, watts / volts)


def power_at(rated_voltage: float, rated_power: float, voltage: float) -> float:
    """Power in W at another voltage: P' = P (U' / U)^2, the element as hot as at its rating.

    Rated voltage U in V and rated power P in W above 0; `voltage` U' in V, 0 or above. Raises `BadInput`.

    >>> round(power_at(208, 2000, 200), 3)
    1849.112
    """
    share = number("voltage", voltage, "0 V or above", low=0) / _voltage("rated_voltage", rated_voltage)
    return number("rated_power", rated_power, "above 0 W", above=0) * share * share


def resistance_band(voltage: float, power: float, *, plus: float = PLUS_PERCENT, minus: float = MINUS_PERCENT) -> Band:
    """Hot resistance in ohm that a tolerance of power allows: U^2 / (P (1 + plus)) to U^2 / (P (1 - minus)).

    Parameters: rated `voltage` U in V and `power` P in W above 0; `plus` and `minus` in % of the power, 0 or above,
    minus below 100. +5 / -10 % is from memory, verify against your copy of IEC 60335-1. Raises `BadInput`.

    >>> low, high = resistance_band(208, 2000)
    >>> round(low, 6), round(high, 6)
    (20.601905, 24.035556)
    """
    middle = rating(voltage, power).resistance
    more = 1 + number("plus", plus, "0 % or above", low=0) / 100
    less = 1 - number("minus", minus, "0 to below 100 %", low=0, below=100) / 100
    return Band(middle / more, middle / less)


def _voltage(field: str, value: float) -> float:
    return number(field, value, "above 0 V", above=0)
