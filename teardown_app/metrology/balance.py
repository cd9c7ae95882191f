"""Balance of a rigid rotor: how much unbalance may be left, how it falls to the bearing planes, what force it makes.

It holds no measuring of unbalance and no flexible rotors.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from teardown_app.metrology.fault import number

GRADES = (0.4, 1.0, 2.5, 6.3, 16.0, 40.0, 100.0, 250.0, 630.0, 1600.0, 4000.0)
"""Steps of the balance quality grade G in mm/s; values between them may be agreed."""
LEAST_SHARE = 0.3
"""Least share of one bearing plane; verify against your copy of the standard, another value may be given."""


class Permissible(NamedTuple):
    """Residual unbalance that a grade allows."""

    e_per: float
    """Specific, g mm/kg; the same number is the mass centre's offset in um."""
    u_per: float
    """Of the whole rotor, g mm."""


class Allocation(NamedTuple):
    """What falls to each bearing plane."""

    a: float
    """At bearing plane A, g mm."""
    b: float
    """At bearing plane B, g mm."""
    lever_share_a: float
    """Share of plane A by the lever rule alone, 0 to 1, before the least share is kept."""


def permissible_unbalance(grade: float, mass: float, speed: float) -> Permissible:
    """Permissible residual unbalance of a rigid rotor: e_per = 1000 G / omega, U_per = e_per m.

    omega = 2 pi n / 60, so that e_per = 9549.297 G / n. Formula of ISO 21940-11:2016 (earlier ISO 1940-1).

    Parameters: `grade` G in mm/s, `mass` m in kg, `speed` the highest service speed n in r/min; each above 0.
    Raises `BadInput` for anything else.

    >>> found = permissible_unbalance(2.5, 12, 1500)
    >>> round(found.e_per, 6), round(found.u_per, 6)
    (15.915494, 190.985932)
    """
    grade = number("grade", grade, "above 0 mm/s", above=0)
    mass = number("mass", mass, "above 0 kg", above=0)
    e_per = 1000 * grade / _angular_speed(speed)
    return Permissible(e_per, e_per * mass)


def plane_allocation(
    u_per: float, centre_from_a: float, span: float, *, least_share: float = LEAST_SHARE
) -> Allocation:
    """Permissible residual unbalance at bearing planes A and B, mass centre between them.

    U_A = U_per L_B / L and U_B = U_per L_A / L (ISO 21940-11:2016), each kept within `least_share` and
    1 - `least_share` of U_per; both always add up to U_per. `least_share` 0 gives the lever rule alone.

    Parameters: `u_per` in g mm, above 0; `centre_from_a` L_A, distance of the mass centre from plane A, and `span` L,
    distance of the planes, in the same unit, 0 < L_A < L; `least_share` 0 to 0.5. Raises `BadInput` for anything
    else: an overhung mass centre needs limits for its moment as well, which are not reckoned here.

    >>> plane_allocation(191, 200, 500)[:2]
    (114.6, 76.4)
    """  # fmt: skip
    u_per = number("u_per", u_per, "above 0 g mm", above=0)
    span = number("span", span, "above 0 mm", above=0)
    between = "above 0 and below span: between the bearings; an overhung mass centre is not reckoned here"
    from_a = number("centre_from_a", centre_from_a, between, above=0, below=span)
    least = number("least_share", least_share, "0 to 0.5", low=0, high=0.5)
    lever = (span - from_a) / span
    share = min(max(lever, least), 1 - least)
    return Allocation(u_per * share, u_per * (1 - share), lever)


def centrifugal_force(unbalance: float, speed: float) -> float:
    """Force in N that turns with an unbalance: F = U omega^2.

    Parameters: `unbalance` U in g mm, 0 or above; `speed` n in r/min, above 0. Raises `BadInput` otherwise.

    >>> round(centrifugal_force(190.985932, 1500), 6)
    4.712389
    """
    unbalance = number("unbalance", unbalance, "0 g mm or above", low=0)
    return unbalance * 1e-6 * _angular_speed(speed) ** 2


def _angular_speed(speed: float) -> float:
    """In rad/s, from r/min."""
    return 2 * math.pi * number("speed", speed, "above 0 r/min", above=0) / 60
