"""Resistivity of de-ionised water: that of pure water at a temperature, and a reading brought to 25 degC."""

from __future__ import annotations

from teardown_app.metrology.fault import BadInput, number

LOWEST, HIGHEST = 0.0, 50.0
"""Range of the fit, degC."""
OF_READING = 0.005
"""Share by which a reading may pass pure water's figure and still be taken for it: rounding of displays."""


def pure_water_resistivity(temperature: float) -> float:
    """Resistivity in Mohm cm of water that holds nothing but its own ions.

    1 / A with A = 0.05498 + 2.9326e-3 x + 6.0629e-5 x^2 + 4.2690e-7 x^3 in uS/cm, x = t - 25: fit after
    Marsh and Stokes. `temperature` t 0 to 50 degC. Raises `BadInput`.

    >>> round(pure_water_resistivity(25), 3)
    18.188
    """
    return 1 / _pure_conductivity(_offset(temperature))


def resistivity_at_25(resistivity: float, temperature: float) -> float:
    """A reading without temperature compensation, brought to 25 degC, in Mohm cm.

    K25 = (K - A) / (1 + 0.02 x) + 0.05498, x = t - 25, K = 1 / `resistivity`, A of pure water at t: its own ions and
    those of salts follow temperature each in their way. Good to about 5 %.

    Parameters: `resistivity` in Mohm cm, above 0, at most that of pure water (0.5 % is let pass as rounding);
    `temperature` t 0 to 50 degC. Raises `BadInput`: a reading above pure water is the sensor's fault.

    >>> round(resistivity_at_25(10.0, 20), 5)
    8.35634
    """
    offset = _offset(temperature)
    resistivity = number("resistivity", resistivity, "above 0 Mohm cm", above=0)
    pure = _pure_conductivity(offset)
    if resistivity > (1 + OF_READING) / pure:
        most = f"at most {1 / pure:.3f} Mohm cm, which is pure water at {temperature:g} degC"
        raise BadInput("resistivity", resistivity, most)
    return 1 / ((1 / resistivity - pure) / (1 + 0.02 * offset) + _pure_conductivity(0.0))


def _offset(temperature: float) -> float:
    """Degrees above 25 degC, within the fit's range."""
    return number("temperature", temperature, "0 to 50 degC", low=LOWEST, high=HIGHEST) - 25


def _pure_conductivity(x: float) -> float:
    """Of pure water in uS/cm, x degrees above 25 degC."""
    return 0.05498 + x * (2.9326e-3 + x * (6.0629e-5 + x * 4.2690e-7))
