"""A spinning bowl: acceleration at a radius, as a multiple of standard gravity."""

from __future__ import annotations

import math

from teardown_app.metrology.fault import number

STANDARD_GRAVITY = 9.80665
"""m/s2, exact by definition."""


def relative_centrifugal_force(radius: float, speed: float) -> float:
    """Acceleration over standard gravity: RCF = r omega^2 / g, omega = 2 pi n / 60, g = 9.80665 m/s2.

    The exact constant is 1.11824e-5 for r in cm; the 1.118e-5 of many tables gives 0.02 % less.
    Parameters: `radius` in mm from the axis, above 0; `speed` n in r/min, 0 or above. Raises `BadInput`.

    >>> round(relative_centrifugal_force(100, 3000), 2)
    1006.42
    """
    radius = number("radius", radius, "above 0 mm", above=0)
    speed = number("speed", speed, "0 r/min or above", low=0)
    return radius * 1e-3 * (2 * math.pi * speed / 60) ** 2 / STANDARD_GRAVITY


def speed_for(rcf: float, radius: float) -> float:
    """Speed in r/min at which a radius in mm sees that multiple of standard gravity: n = 60 / (2 pi) sqrt(RCF g / r).

    Parameters: `rcf` 0 or above, `radius` above 0. Raises `BadInput`.

    >>> round(speed_for(1006.4196, 100), 2)
    3000.0
    """
    rcf = number("rcf", rcf, "0 or above", low=0)
    radius = number("radius", radius, "above 0 mm", above=0)
    return math.sqrt(rcf * STANDARD_GRAVITY / (radius * 1e-3)) * 60 / (2 * math.pi)
