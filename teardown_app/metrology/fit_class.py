"""Limits of size of a hole or shaft from its tolerance class, and the clearance of two classes."""

from __future__ import annotations

import re
from typing import NamedTuple

from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.fundamental_deviation import BELOW_UM, LARGEST_GRADE, LETTERS, fundamental_deviation
from teardown_app.metrology.standard_tolerance import standard_tolerance

KNOWN = (
    "one class: a hole D E F G H JS N P of grade 5 to 11 or K M of 5 to 8 (such as H7; N9 to N11 above 1 mm), "
    "or a shaft d e f g h js k m n p of 5 to 11 (such as g6); for any other write the limits out"
)
_CLASS = re.compile(r"([A-Z]{1,2}|[a-z]{1,2})([5-9]|10|11)")
_EXACT = 9
"""Decimals of a mm that limits and clearances are kept to: beyond them is noise of the sum."""


class Deviations(NamedTuple):
    """Of one tolerance class."""

    lower: float
    """Lower deviation EI or ei from nominal (mm)."""
    upper: float
    """Upper deviation ES or es from nominal (mm)."""
    smallest: float
    """Lower limit of size (mm)."""
    largest: float
    """Upper limit of size (mm)."""


class Mating(NamedTuple):
    """How a hole and a shaft of one nominal size go together."""

    least_clearance: float
    """Smallest hole less largest shaft (mm); below 0 it is the greatest interference."""
    largest_clearance: float
    """Largest hole less smallest shaft (mm); below 0 it is the least interference."""
    fit: str
    """clearance, transition or interference."""


def deviations(nominal: float, fit: str) -> Deviations:
    """Deviations and limits of size of a tolerance class, ISO 286-1 and ISO 286-2.

    One deviation is `fundamental_deviation`, the other lies a `standard_tolerance` away; limit = nominal + deviation.
    JS and js are exact halves; some tables round them down to whole um in grades 7 to 11.

    `nominal` above 0 to 500 mm and large enough that the smaller limit is above 0, `fit` one class as in `KNOWN`,
    capitals for holes, small letters for shafts; else `BadInput`.

    >>> deviations(20, "H7")
    Deviations(lower=0.0, upper=0.021, smallest=20.0, largest=20.021)
    >>> deviations(25, "k6")[:2], deviations(30, "K7")[:2]
    ((0.002, 0.015), (-0.015, 0.006))
    """
    letter, grade = _class("fit", fit)
    width = standard_tolerance(nominal, grade)
    if letter == "N" and grade > 8 and nominal <= 1:
        raise BadInput("fit", fit, KNOWN)
    fixed = fundamental_deviation(nominal, letter, grade)
    upper_is_fixed = letter in BELOW_UM or letter in ("K", "M", "N", "P")
    lower = round(fixed - width, _EXACT) if upper_is_fixed else fixed
    upper = fixed if upper_is_fixed else round(fixed + width, _EXACT)
    smallest, largest = round(nominal + lower, _EXACT), round(nominal + upper, _EXACT)
    if smallest <= 0:
        raise BadInput("nominal", nominal, f"above {-lower:g} mm for {fit}, or nothing is left of the smaller limit")
    return Deviations(lower, upper, smallest, largest)


def interference(nominal: float, hole: str, shaft: str) -> Mating:
    """Least and largest clearance of two classes; below 0 it is interference. ISO 286-1.

    Least: EI - es. Largest: ES - ei. A clearance fit has no interference anywhere (least 0 or above), an
    interference fit no clearance anywhere (largest 0 or below), a transition fit may come out as either.

    `nominal` as in `deviations`, in mm; `hole` a class of a hole (H7), `shaft` one of a shaft (g6); else `BadInput`.

    >>> interference(20, "H7", "g6")
    Mating(least_clearance=0.007, largest_clearance=0.041, fit='clearance')
    """
    if not _class("hole", hole)[0].isupper():
        raise BadInput("hole", hole, "the class of a hole, in capitals, such as H7")
    if not _class("shaft", shaft)[0].islower():
        raise BadInput("shaft", shaft, "the class of a shaft, in small letters, such as g6")
    within, about = deviations(nominal, shaft), deviations(nominal, hole)
    least, largest = round(about.lower - within.upper, _EXACT), round(about.upper - within.lower, _EXACT)
    fit = "clearance" if least >= 0 else "interference" if largest <= 0 else "transition"
    return Mating(least, largest, fit)


def _class(field: str, fit: str) -> tuple[str, int]:
    """Letter and grade of a class that is known."""
    found = _CLASS.fullmatch(fit.strip()) if isinstance(fit, str) else None
    if found is None or found[1] not in LETTERS or int(found[2]) > LARGEST_GRADE.get(found[1], 11):
        raise BadInput(field, fit, KNOWN)
    return found[1], int(found[2])
