"""Standard tolerances: how wide a tolerance class is, by size and grade."""

from __future__ import annotations

from teardown_app.metrology.fault import BadInput, number

ENDS_MM = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
"""Ends of the ranges of nominal size. A size on an end belongs to the range that ends there."""
TOLERANCE_UM = {
    4: (3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20),
    5: (4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27),
    6: (6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40),
    7: (10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63),
    8: (14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97),
    9: (25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155),
    10: (40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250),
    11: (60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400),
}
"""By grade, a value for each range of `ENDS_MM`."""
_NOISE = 1e-12
"""Share of a size that is noise of the numbers: 0.1 * 3 * 10 is 3 mm."""


def standard_tolerance(nominal: float, grade: int) -> float:
    """Tolerance of a grade IT in mm, ISO 286-1: table of 13 ranges of size to 500 mm.

    The table comes near to a i with i = 0.45 D^(1/3) + 0.001 D in um, D the geometric mean of the range in mm and
    a = 7, 10, 16, 25, 40, 64, 100 for IT5 to IT11; where they differ the table holds.

    `nominal` above 0 to 500 mm, `grade` 4 to 11 as a whole number; else `BadInput`.

    >>> standard_tolerance(20, 7), standard_tolerance(3, 6), standard_tolerance(3.001, 6)
    (0.021, 0.006, 0.008)
    """
    return TOLERANCE_UM[_grade(grade)][_range(nominal)] / 1000


def _range(nominal: float) -> int:
    """Number of the range that a nominal size falls in."""
    size = number("nominal", nominal, "above 0 to 500 mm", above=0, high=500 * (1 + _NOISE))
    return next(place for place, end in enumerate(ENDS_MM) if size <= end * (1 + _NOISE))


def _grade(grade: int, largest: int = 11) -> int:
    """A known grade."""
    if not isinstance(grade, int) or isinstance(grade, bool) or not min(TOLERANCE_UM) <= grade <= largest:
        raise BadInput("grade", grade, f"a whole number, {min(TOLERANCE_UM)} to {largest}")
    return grade
