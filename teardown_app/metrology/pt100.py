"""Platinum resistance thermometers: resistance and temperature both ways, and what a tolerance class lets pass."""

from __future__ import annotations

import math

from teardown_app.metrology.fault import BadInput, number

A, B, C = 3.9083e-3, -5.775e-7, -4.183e-12
"""Constants of IEC 60751 in 1/degC, 1/degC^2, 1/degC^4."""
LOWEST, HIGHEST = -200.0, 850.0
"""Range of the curve, degC."""
OF_PRINT = 5e-5
"""Share of R0 by which a resistance may pass the ends of the curve: half a step of the printed table."""
TOLERANCES = {"AA": (0.1, 0.0017), "A": (0.15, 0.002), "B": (0.3, 0.005), "C": (0.6, 0.01)}
"""Tolerance at 0 degC in K, and what each degree from there adds."""
WIRE_WOUND, FILM = "wire-wound", "film"
CLASS_RANGES_C = {
    WIRE_WOUND: {"AA": (-50.0, 250.0), "A": (-100.0, 450.0), "B": (-196.0, 600.0), "C": (-196.0, 600.0)},
    FILM: {"AA": (0.0, 150.0), "A": (-30.0, 300.0), "B": (-50.0, 500.0), "C": (-50.0, 600.0)},
}
"""Temperatures for which a class holds, degC: as a thermometer maker's operating instructions (WIKA 11208287) and a
laboratory's page (tnlab.org) quote IEC 60751; class C of film resistors from memory. Verify against your copy."""


def resistance(temperature: float, *, r0: float = 100.0) -> float:
    """Resistance in ohm at a temperature: R0 (1 + A t + B t^2), below 0 degC with C (t - 100) t^3 added. IEC 60751.

    Parameters: `temperature` t -200 to 850 degC; `r0` in ohm at 0 degC, above 0: 100, 500, 1000, or as calibrated.
    Raises `BadInput`.

    >>> round(resistance(100), 4), round(resistance(-40), 4), round(resistance(100, r0=1000), 3)
    (138.5055, 84.2707, 1385.055)
    """
    return _r0(r0) * (1 + _gain(_temperature(temperature)))


def temperature(resistance: float, *, r0: float = 100.0) -> float:
    """Temperature in degC for a resistance, the curve of IEC 60751 turned round without approximation.

    From 0 degC up the quadratic is solved; below, the full curve is solved by Newton's rule.

    Parameters: `resistance` in ohm, that of -200 to 850 degC (half a step of the printed table beyond is taken for
    the end); `r0` in ohm at 0 degC, above 0. Raises `BadInput`.

    >>> round(temperature(110), 5), round(temperature(80.31), 4)
    (25.68405, -49.9906)
    """
    start = _r0(r0)
    low, high = start * (1 + _gain(LOWEST)), start * (1 + _gain(HIGHEST))
    allowed = f"{low:.6g} to {high:.6g} ohm, which is -200 to 850 degC"
    read = number("resistance", resistance, allowed, low=low - OF_PRINT * start, high=high + OF_PRINT * start)
    gain = (read - start) / start
    found = 2 * gain / (A + math.sqrt(A * A + 4 * B * gain))
    if gain < 0:
        for _ in range(8):
            found -= (_gain(found) - gain) / _slope(found)
    return min(max(found, LOWEST), HIGHEST)


def tolerance(temperature: float, tolerance_class: str) -> float:
    """Greatest deviation in K that a class allows either way: AA 0.1 + 0.0017 |t|, A 0.15 + 0.002 |t|,
    B 0.3 + 0.005 |t|, C 0.6 + 0.01 |t|. IEC 60751.

    `temperature` t -200 to 850 degC; a class holds only in the range of its kind of resistor, CLASS_RANGES_C.
    Raises `BadInput`.

    >>> round(tolerance(100, "A"), 6), round(tolerance(-50, "B"), 6)
    (0.35, 0.55)
    """
    if tolerance_class not in TOLERANCES:
        raise BadInput("tolerance_class", tolerance_class, ", ".join(TOLERANCES))
    at_zero, rise = TOLERANCES[tolerance_class]
    return at_zero + rise * abs(_temperature(temperature))


def tolerance_ohm(temperature: float, tolerance_class: str, *, r0: float = 100.0) -> float:
    """The class tolerance in ohm: that in K times the slope dR/dt of the curve at this temperature. IEC 60751.

    Parameters as for `tolerance`; `r0` in ohm at 0 degC, above 0. Raises `BadInput`.

    >>> round(tolerance_ohm(100, "A"), 5), round(tolerance_ohm(200, "B"), 4)
    (0.13275, 0.478)
    """
    return tolerance(temperature, tolerance_class) * _r0(r0) * _slope(temperature)


def _r0(value: float) -> float:
    return number("r0", value, "above 0 ohm", above=0)


def _temperature(value: float) -> float:
    return number("temperature", value, "-200 to 850 degC", low=LOWEST, high=HIGHEST)


def _gain(t: float) -> float:
    """R / R0 - 1."""
    return t * (A + t * (B + (C * (t - 100) * t if t < 0 else 0.0)))


def _slope(t: float) -> float:
    """Of R / R0, 1/degC."""
    return A + t * (2 * B + (C * (4 * t - 300) * t if t < 0 else 0.0))
