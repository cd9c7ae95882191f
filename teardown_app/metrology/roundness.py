"""Roundness of a section: the four reference circles of ISO 12181-1."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from teardown_app.metrology._centres import inner_centres, round_centres, zone_centres
from teardown_app.metrology._section import Section
from teardown_app.metrology.fault import Floats


class Circle(NamedTuple):
    """A reference circle and how far the section departs from it."""

    deviation: float
    """Largest less smallest distance of a point from the centre, mm: roundness."""
    centre: tuple[float, float]
    """x and y, mm."""
    radius: float
    """Of the reference circle, mm; of the minimum zone the mean of its two."""
    largest: float
    """Distance of the farthest point from the centre, mm."""
    smallest: float
    """Distance of the nearest point from the centre, mm."""


def least_squares_circle(points: Sequence[Sequence[float]] | Floats) -> Circle:
    """LSC: the least sum of squared distances from the circle, by Newton steps to the last digits. ISO 12181-1.

    Parameters: `points` x, y in mm, shape (n, 2), three or more that do not lie on one line. Raises `BadInput`
    otherwise.

    >>> found = least_squares_circle([(1, 7), (2, 6), (5, 8), (7, 7), (9, 5), (3, 7)])
    >>> [round(one, 6) for one in (*found.centre, found.radius)]
    [4.739782, 2.983533, 4.714226]
    """
    section = Section(points)
    centre = section.fitted()
    radii = section.radii(centre)
    return _circle(section, centre, float(radii.mean()))


def minimum_zone_circles(points: Sequence[Sequence[float]] | Floats) -> Circle:
    """MZC: the two concentric circles nearest to each other that hold all points between them. ISO 12181-1.

    Held by two points outside and two inside, or by three and one; both are tried for every choice among a few points,
    and a point beyond is taken among them until none is. Centres are looked for within a radius of that of the LSC.

    Parameters and errors as in `least_squares_circle`.

    >>> import numpy as np
    >>> angles = np.arange(8) * np.pi / 4
    >>> r = 50 + np.array([0, 6, 10, 4, -2, 3, 8, 1]) / 1000
    >>> round(minimum_zone_circles(np.c_[r * np.cos(angles), r * np.sin(angles)]).deviation, 9)
    0.01
    """
    section = Section(points)
    centre = section.settled(zone_centres, lambda radii: radii.max(axis=-1) - radii.min(axis=-1))
    radii = section.radii(centre)
    return _circle(section, centre, float(radii.max() + radii.min()) / 2)


def minimum_circumscribed_circle(points: Sequence[Sequence[float]] | Floats) -> Circle:
    """MCC: the smallest circle that holds all points, as of a shaft. Held by two points or three. ISO 12181-1.

    Parameters and errors as in `least_squares_circle`.

    >>> round(minimum_circumscribed_circle([(0, 0), (10, 0), (10, 10), (0, 10)]).radius, 9)
    7.071067812
    """
    section = Section(points)
    centre = section.settled(round_centres, lambda radii: radii.max(axis=-1))
    return _circle(section, centre, float(section.radii(centre).max()))


def maximum_inscribed_circle(points: Sequence[Sequence[float]] | Floats) -> Circle:
    """MIC: the largest circle without a point inside, its centre among the three points that hold it, as of a bore.

    ISO 12181-1. There may be several as large; the radius is the same. `BadInput` where no three points surround a
    centre: the points are only part of a round. Other parameters and errors as in `least_squares_circle`.

    >>> round(maximum_inscribed_circle([(1, 0), (0, 1), (-1, 0), (0, -1.2)]).radius, 9)
    1.016666667
    """
    section = Section(points)
    centre = section.settled(inner_centres, lambda radii: -radii.min(axis=-1))
    return _circle(section, centre, float(section.radii(centre).min()))


def _circle(section: Section, centre: Floats, radius: float) -> Circle:
    radii = section.radii(centre)
    largest, smallest = float(radii.max()), float(radii.min())
    return Circle(largest - smallest, section.world(centre), radius, largest, smallest)
