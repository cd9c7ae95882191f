"""Standard uncertainties from readings, resolution and instrument, put together and expanded."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from teardown_app.metrology.fault import BadInput, Floats, number, numbers


class Repeated(NamedTuple):
    """What repeated readings of one thing say."""

    mean: float
    """In the unit of the readings."""
    s: float
    """Standard deviation of one reading (n - 1), in the same unit."""
    u: float
    """Standard uncertainty of the mean, in the same unit."""
    n: int
    """How many readings."""


def repeated_readings(readings: Sequence[float] | Floats) -> Repeated:
    """Mean, s = sqrt(sum (x - mean)^2 / (n - 1)) and u = s / sqrt n (type A; JCGM 100:2008, 4.2).

    readings: shape (n,), two or more, in one unit; else `BadInput`. Equal readings give s = 0, just that.

    >>> repeated_readings([10.1, 10.2, 10.3]).mean
    10.2
    """
    read = numbers("readings", readings, at_least=2).tolist()
    first, n = read[0], len(read)
    off = [one - first for one in read]
    shift = math.fsum(off) / n
    s = math.hypot(*(one - shift for one in off)) / math.sqrt(n - 1)
    if not math.isfinite(s):
        raise BadInput("readings", "too far apart", "differences below 1e308")
    return Repeated(first + shift, s, s / math.sqrt(n), n)


def from_resolution(resolution: float) -> float:
    """Standard uncertainty of a digit that is rounded: u = resolution / (2 sqrt 3) (JCGM 100:2008, F.2.2.1).

    Every value within half a step is equally likely (rectangular). resolution 0 or above; else `BadInput`. The
    unit stays.

    >>> round(from_resolution(0.01), 6)
    0.002887
    """
    return number("resolution", resolution, "0 or above", low=0) / (2.0 * math.sqrt(3.0))


def from_limits(half_width: float) -> float:
    """Standard uncertainty of an error known only to stay within +-a: u = a / sqrt 3 (JCGM 100:2008, 4.3.7).

    half_width a 0 or above; else `BadInput`. The unit stays.

    >>> round(from_limits(3.0), 6)
    1.732051
    """
    return number("half_width", half_width, "0 or above", low=0) / math.sqrt(3.0)


def of_instrument(reading: float, fixed: float, share: float = 0.0) -> float:
    """What a data sheet gives as fixed part plus part of reading: fixed + share |reading|.

    It is what the sheet says it is: an expanded uncertainty (`standard`) or limits of error (`from_limits`).
    fixed in the unit of the reading, share as a number (0.001 for 0.1 %), both 0 or above; else `BadInput`.

    >>> round(of_instrument(-50.0, 0.02, 0.001), 6)
    0.07
    """
    part = number("share", share, "0 or above; 0.001 for 0.1 %", low=0) * abs(number("reading", reading))
    return number("fixed", fixed, "0 or above", low=0) + part


def standard(expanded_uncertainty: float, k: float = 2.0) -> float:
    """Standard uncertainty from an expanded one: u = U / k (JCGM 100:2008, 4.3.3).

    U 0 or above, coverage factor k above 0; else `BadInput`. The unit stays.

    >>> standard(0.2)
    0.1
    """
    return number("uncertainty", expanded_uncertainty, "0 or above", low=0) / number("k", k, "above 0", above=0)


def expanded(standard_uncertainty: float, k: float = 2.0) -> float:
    """Expanded uncertainty U = k u (JCGM 100:2008, 6.2.1).

    u 0 or above, coverage factor k above 0; else `BadInput`. The unit stays.

    >>> expanded(0.1)
    0.2
    """
    return number("u", standard_uncertainty, "0 or above", low=0) * number("k", k, "above 0", above=0)


def combined(uncertainties: Sequence[float] | Floats) -> float:
    """Combined standard uncertainty of independent parts: u_c = sqrt(sum u_i^2) (JCGM 100:2008, 5.1.2).

    Each part is already in the unit of the result. shape (n,), one or more, each 0 or above; else `BadInput`.

    >>> combined([3.0, 4.0])
    5.0
    """
    parts = numbers("uncertainties", uncertainties)
    for place, part in enumerate(parts, start=1):
        number(f"uncertainties, no. {place}", float(part), "0 or above", low=0)
    return math.hypot(*parts)
