"""From a weighing of water to its volume: density of water, density of the air around it, both in one factor."""

from __future__ import annotations

import math

from teardown_app.metrology.fault import number

WEIGHTS_DENSITY = 8000.0
"""kg/m3, conventional density of the weights a balance is adjusted with."""


def water_density(temperature: float) -> float:
    """Density of air-free water at 101325 Pa, kg/m3: formula of Tanaka et al., Metrologia 38 (2001) 301.

    rho = a5 (1 - (t + a1)^2 (t + a2) / (a3 (t + a4))). `temperature` t 0 to 40 degC. Water full of air is
    lighter by less than 5 parts in a million. Raises `BadInput`.

    >>> round(water_density(20), 3)
    998.207
    """
    t = number("temperature", temperature, "0 to 40 degC", low=0, high=40)
    return 999.974950 * (1 - (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881)))


def air_density(temperature: float, pressure: float, *, humidity: float = 50.0) -> float:
    """Density of moist air, kg/m3: (0.34848 p - 0.009 h exp(0.061 t)) / (273.15 + t), approximation of OIML R 111-1.

    Parameters: `temperature` t 10 to 35 degC, `pressure` p 600 to 1100 hPa, relative `humidity` h 0 to 100 %.
    Within 2 parts in 10 000 of CIPM-2007 up to 30 degC, 1 in 1000 above. Raises `BadInput`.

    >>> round(air_density(20, 1013.25), 4)
    1.1993
    """
    t = number("temperature", temperature, "10 to 35 degC", low=10, high=35)
    p = number("pressure", pressure, "600 to 1100 hPa", low=600, high=1100)
    h = number("humidity", humidity, "0 to 100 %", low=0, high=100)
    return (0.34848 * p - 0.009 * h * math.exp(0.061 * t)) / (273.15 + t)


def z_factor(temperature: float, pressure: float, *, humidity: float = 50.0) -> float:
    """Volume of water by reading of a balance, ul/mg or ml/g, ISO 8655-6.

    Z = (1 - rho_air / rho_weights) / (rho_water - rho_air), weights of 8000 kg/m3, air as warm as the water.
    Parameters: `temperature` of water and air 10 to 35 degC, `pressure` 600 to 1100 hPa, relative `humidity` 0 to
    100 %. Raises `BadInput`.

    >>> round(z_factor(20, 1013), 4)
    1.0029
    """
    air = air_density(temperature, pressure, humidity=humidity)
    return 1000 * (1 - air / WEIGHTS_DENSITY) / (water_density(temperature) - air)
