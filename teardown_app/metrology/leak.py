"""Leak test by pressure: what the change of pressure says, and what a change of temperature would feign.

Pressures are absolute here. Units of leak rates stand in `leak_unit`, other gases in `gas_leak`.
"""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.metrology.fault import BadInput, number

ZERO_CELSIUS = 273.15
"""K."""


class Decay(NamedTuple):
    """Leak rate out of a vessel; below 0 when the pressure rose."""

    raw: float
    """Without regard to temperature, mbar l/s."""
    compensated: float
    """With the end pressure brought to the temperature of the start, mbar l/s."""


def pressure_decay(
    volume: float,
    start: float,
    end: float,
    duration: float,
    *,
    temperature_start: float | None = None,
    temperature_end: float | None = None,
) -> Decay:
    """Leak rate from a fall of pressure: Q = V (P1 - P2 T1 / T2) / t. Ideal gas at the temperature of the start.

    Parameters: `volume` V in l, above 0, all that is shut in, lines and gauge too; `start` P1 and `end` P2 in mbar
    absolute, P1 above 0, P2 0 or above; `duration` t in s, above 0; temperatures of the gas in degC, above -273.15,
    both or neither: without them raw and compensated are the same. Raises `BadInput`.

    >>> found = pressure_decay(1.5, 3013.25, 3008.25, 300, temperature_start=22, temperature_end=22.5)
    >>> round(found.raw, 6), round(found.compensated, 6)
    (0.025, 0.050438)
    """  # fmt: skip
    volume = number("volume", volume, "above 0 l", above=0)
    start = number("start", start, "above 0 mbar absolute", above=0)
    end = number("end", end, "0 mbar absolute or above", low=0)
    duration = number("duration", duration, "above 0 s", above=0)
    raw = volume * (start - end) / duration
    if temperature_start is None and temperature_end is None:
        return Decay(raw, raw)
    t1, t2 = _kelvin("temperature_start", temperature_start), _kelvin("temperature_end", temperature_end)
    return Decay(raw, volume * (start - end + end * (t2 - t1) / t2) / duration)


def pressure_per_kelvin(pressure: float, temperature: float) -> float:
    """Change of pressure by 1 K in a tight vessel, mbar/K: dP/dT = P / T.

    Parameters: `pressure` P in mbar absolute, above 0; `temperature` in degC, above -273.15. Raises `BadInput`.

    >>> round(pressure_per_kelvin(5000, 20), 3)
    17.056
    """
    pressure = number("pressure", pressure, "above 0 mbar absolute", above=0)
    return pressure / _kelvin("temperature", temperature)


def allowed_drop(leak_rate: float, volume: float, duration: float) -> float:
    """Fall of pressure in mbar that a leak makes at steady temperature: dP = Q t / V.

    Parameters: `leak_rate` Q in mbar l/s, 0 or above; `volume` V in l and `duration` t in s, above 0.
    Raises `BadInput`.

    >>> allowed_drop(0.25, 5, 40)
    2.0
    """
    leak_rate = number("leak_rate", leak_rate, "0 mbar l/s or above", low=0)
    volume = number("volume", volume, "above 0 l", above=0)
    return leak_rate * number("duration", duration, "above 0 s", above=0) / volume


def _kelvin(field: str, temperature: float | None) -> float:
    """Kelvin from degC; None is no temperature."""
    if temperature is None:
        raise BadInput(field, "missing", "a temperature at the start and one at the end, or neither")
    return number(field, temperature, "above -273.15 degC", above=-ZERO_CELSIUS) + ZERO_CELSIUS
