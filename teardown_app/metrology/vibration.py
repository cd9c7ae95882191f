"""Vibration of a running machine: one sine in three quantities, r.m.s. of a record, zone of a velocity.

It holds no spectra; a band-pass of 10 Hz to 1000 Hz is the measuring instrument's business.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, number, numbers

ZONE_BORDERS_MM_S = {
    "I": (0.71, 1.8, 4.5),
    "II": (1.12, 2.8, 7.1),
    "III": (1.8, 4.5, 11.2),
    "IV": (2.8, 7.1, 18.0),
}
"""Borders A/B, B/C and C/D by class of machine, ISO 10816-1:1995 Annex B; r.m.s. velocity, 10 Hz to 1000 Hz.

Class I up to 15 kW, II 15 kW to 75 kW, III large on a rigid base, IV large on a soft base.
"""


class Sine(NamedTuple):
    """One sine, said in every quantity."""

    displacement: float
    """Peak to peak, um."""
    velocity: float
    """r.m.s., mm/s."""
    acceleration: float
    """r.m.s., m/s2."""


def from_displacement(displacement: float, speed: float) -> Sine:
    """The sine at running speed that has this displacement: v = pi f s / sqrt 2, a = 2 pi f v, f = n / 60.

    Parameters: `displacement` s peak to peak in um, 0 or above; `speed` n in r/min, above 0. Closed form of a single
    sine; readings that hold other frequencies cannot be converted so. Raises `BadInput`.

    >>> round(from_displacement(50, 1500).velocity, 6)
    2.776802
    """
    displacement = number("displacement", displacement, "0 um or above", low=0)
    return from_velocity(_pulsation(speed) * displacement * 1e-3 / math.sqrt(8), speed)


def from_velocity(velocity: float, speed: float) -> Sine:
    """The sine at running speed that has this velocity: s = sqrt 2 v / (pi f), a = 2 pi f v, f = n / 60.

    Parameters: `velocity` v r.m.s. in mm/s, 0 or above; `speed` n in r/min, above 0. Raises `BadInput`.

    >>> round(from_velocity(2.776802, 1500).displacement, 4)
    50.0
    """
    velocity = number("velocity", velocity, "0 mm/s or above", low=0)
    pulsation = _pulsation(speed)
    return Sine(math.sqrt(8) * velocity * 1e3 / pulsation, velocity, pulsation * velocity * 1e-3)


def from_acceleration(acceleration: float, speed: float) -> Sine:
    """The sine at running speed that has this acceleration: v = a / (2 pi f), f = n / 60.

    Parameters: `acceleration` a r.m.s. in m/s2, 0 or above; `speed` n in r/min, above 0. Raises `BadInput`.

    >>> round(from_acceleration(1.0, 3000).velocity, 6)
    3.183099
    """
    acceleration = number("acceleration", acceleration, "0 m/s2 or above", low=0)
    return from_velocity(acceleration * 1e3 / _pulsation(speed), speed)


def velocity_rms(record: Sequence[float] | Floats) -> float:
    """Root mean square of a velocity record about its mean: sqrt(mean((v - mean v)^2)).

    A steady offset is the sensor's, not the machine's, and lies outside the band of 10 Hz to 1000 Hz. Exact for
    whole periods. Parameters: `record` of shape (n,), n 2 or more, equally spaced in time, mm/s. Raises `BadInput`.

    >>> velocity_rms([3.0, -3.0, 3.0, -3.0])
    3.0
    """
    return float(np.std(numbers("record", record, at_least=2, unit="mm/s")))


def zone(velocity: float, machine_class: str) -> str:
    """Zone A to D of a vibration velocity, ISO 10816-1:1995 Annex B; a value on a border belongs to the better zone.

    Parameters: `velocity` r.m.s. in mm/s, 0 or above; `machine_class` I, II, III or IV. Raises `BadInput`.

    >>> zone(3.2, "II"), zone(0.71, "I")
    ('C', 'A')
    """
    velocity = number("velocity", velocity, "0 mm/s or above", low=0)
    if machine_class not in ZONE_BORDERS_MM_S:
        raise BadInput("machine_class", machine_class, "I, II, III or IV")
    return "ABCD"[sum(velocity > border for border in ZONE_BORDERS_MM_S[machine_class])]


def _pulsation(speed: float) -> float:
    """2 pi f in 1/s at a speed in r/min."""
    return 2 * math.pi * number("speed", speed, "above 0 r/min", above=0) / 60
