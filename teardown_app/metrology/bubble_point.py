"""Bubble point of a wetted filter: pressure that drives liquid out of a round pore, and the pore it speaks of.

A pass is the maker's minimum for that liquid and filter; no limit comes from a pore size.
"""

from __future__ import annotations

import math

from teardown_app.metrology.fault import number


def capillary_pressure(
    surface_tension: float, pore: float, *, contact_angle: float = 0.0, shape_factor: float = 1.0
) -> float:
    """Pressure in kPa that empties a wetted pore: P = 4 C gamma cos(theta) / d.

    Parameters: `surface_tension` gamma in mN/m and `pore` diameter d in um, above 0; `contact_angle` theta 0 to below
    90 degrees; `shape_factor` C above 0 to 1, 1 for a round pore. Raises `BadInput`.

    >>> round(capillary_pressure(72.0, 0.2), 6)
    1440.0
    """  # fmt: skip
    return _strength(surface_tension, contact_angle, shape_factor) / number("pore", pore, "above 0 um", above=0)


def pore_diameter(
    pressure: float, surface_tension: float, *, contact_angle: float = 0.0, shape_factor: float = 1.0
) -> float:
    """Diameter in um of the pore that opens at a pressure: d = 4 C gamma cos(theta) / P.

    Parameters: `pressure` P in kPa, above 0; the others as in `capillary_pressure`. Raises `BadInput`.

    >>> round(pore_diameter(434.0, 21.7), 6)
    0.2
    """  # fmt: skip
    pressure = number("pressure", pressure, "above 0 kPa", above=0)
    return _strength(surface_tension, contact_angle, shape_factor) / pressure


def _strength(surface_tension: float, contact_angle: float, shape_factor: float) -> float:
    """4 C gamma cos(theta) in mN/m, which is kPa um."""
    tension = number("surface_tension", surface_tension, "above 0 mN/m", above=0)
    angle = number("contact_angle", contact_angle, "0 to below 90 degrees: the liquid must wet", low=0, below=90)
    shape = number("shape_factor", shape_factor, "above 0, at most 1", above=0, high=1)
    return 4 * shape * tension * math.cos(math.radians(angle))
