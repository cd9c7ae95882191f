"""Torque and the preload it makes in a screw, by a nut factor or by friction; units of torque.

These are reckonings. The torque a job uses comes from the bill or the maker.
"""

from __future__ import annotations

from teardown_app.metrology.fault import BadInput, number

NEWTON_METRES = {"N m": 1.0, "lbf ft": 4.4482216152605 * 0.3048, "lbf in": 4.4482216152605 * 0.0254}
"""Exact: pound 0.45359237 kg, gravity 9.80665 m/s2, inch 25.4 mm."""


def torque(preload: float, diameter: float, nut_factor: float) -> float:
    """Torque in N m for a preload: T = K d F.

    Parameters: `preload` F in N, 0 or above; `diameter` d of the thread in mm, above 0; `nut_factor` K above 0 to 1.
    Raises `BadInput`.

    >>> round(torque(15900, 8, 0.2), 3)
    25.44
    """
    preload = number("preload", preload, "0 N or above", low=0)
    return _lever(diameter, nut_factor) * preload


def preload(torque: float, diameter: float, nut_factor: float) -> float:
    """Preload in N that a torque makes: F = T / (K d).

    Parameters: `torque` T in N m, 0 or above; `diameter` d in mm, above 0; `nut_factor` K above 0 to 1.
    Raises `BadInput`.

    >>> round(preload(25.44, 8, 0.2), 3)
    15900.0
    """
    torque = number("torque", torque, "0 N m or above", low=0)
    return torque / _lever(diameter, nut_factor)


def friction_factor(
    diameter: float,
    pitch: float,
    pitch_diameter: float,
    *,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter: float,
) -> float:
    """Nut factor that friction gives: K = (0.159 P + 0.578 d2 mu + Dkm mu_h / 2) / d.

    The three terms are what stretches the screw, friction in the thread (60 degree flanks), friction under the head.
    Parameters: `diameter` d, `pitch` P, `pitch_diameter` d2, `bearing_diameter` Dkm (mean of the ring under the head)
    in mm, above 0; coefficients of friction 0 to 1. Raises `BadInput`.

    >>> friction = dict(thread_friction=0.12, bearing_friction=0.12, bearing_diameter=11)
    >>> round(torque(15000, 8, friction_factor(8, 1.25, 7.188101, **friction)), 4)
    20.3598
    """  # fmt: skip
    diameter = number("diameter", diameter, "above 0 mm", above=0)
    stretch = 0.159 * number("pitch", pitch, "above 0 mm", above=0)
    in_thread = 0.578 * number("pitch_diameter", pitch_diameter, "above 0 mm, at most diameter", above=0, high=diameter)
    in_thread *= number("thread_friction", thread_friction, "0 to 1", low=0, high=1)
    beneath = number("bearing_diameter", bearing_diameter, "above 0 mm", above=0) / 2
    beneath *= number("bearing_friction", bearing_friction, "0 to 1", low=0, high=1)
    return (stretch + in_thread + beneath) / diameter


def convert_torque(value: float, given: str, wanted: str) -> float:
    """A torque in another unit: N m, lbf ft, lbf in. 1 N m = 0.737562 lbf ft = 8.850746 lbf in.

    Parameters: `value` in unit `given`, any sign. Raises `BadInput`.

    >>> round(convert_torque(1, "N m", "lbf in"), 6)
    8.850746
    """
    for field, unit in (("given", given), ("wanted", wanted)):
        if unit not in NEWTON_METRES:
            raise BadInput(field, unit, ", ".join(NEWTON_METRES))
    return number("value", value, "a number") * (NEWTON_METRES[given] / NEWTON_METRES[wanted])


def _lever(diameter: float, nut_factor: float) -> float:
    """K d in m."""
    diameter = number("diameter", diameter, "above 0 mm", above=0)
    return number("nut_factor", nut_factor, "above 0, at most 1", above=0, high=1) * diameter * 1e-3
