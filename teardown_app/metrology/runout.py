"""Runout of a turned part from indicator readings: one section, and all of them together."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from teardown_app.metrology.fault import BadInput, Floats, number, numbers, rows


def circular_runout(readings: Sequence[float] | Floats) -> float:
    """Largest less smallest reading of one turn (total indicator reading), ISO 1101 circular runout.

    Parameters: `readings` in mm round one section, shape (n,), three or more. Raises `BadInput` otherwise.

    >>> round(circular_runout([0.00, 0.03, 0.05, 0.02]), 6)
    0.05
    """
    return float(np.ptp(numbers("readings", readings, at_least=3, unit="mm")))


def total_runout(readings: Sequence[Sequence[float]] | Floats) -> float:
    """Largest less smallest reading of all sections, the indicator not set anew between them, ISO 1101 total runout.

    Parameters: `readings` in mm, shape (sections, readings a turn), three or more a turn. Raises `BadInput` otherwise.

    >>> round(total_runout([[0.0, 0.02, 0.01], [0.01, 0.04, 0.02]]), 6)
    0.04
    """
    if len(readings) == 0:
        raise BadInput("readings", "none", "one section or more")
    columns = len(readings[0])
    if columns < 3:
        raise BadInput("readings", f"{columns} a turn", "three or more a turn")
    return float(np.ptp(rows("readings", readings, columns=columns, unit="mm")))


def eccentric_runout(eccentricity: float) -> float:
    """Runout of a perfect circle whose centre lies off the axis: twice the eccentricity, mm.

    Parameters: `eccentricity` in mm, 0 or above. Raises `BadInput` otherwise.

    >>> eccentric_runout(0.05)
    0.1
    """
    return 2.0 * number("eccentricity", eccentricity, "0 mm or above", low=0)


def missed_share(count: int) -> float:
    """Of the runout that eccentricity makes, the largest share that equally spaced readings can miss: 1 - cos(pi/n)
    for an even number n; half of that for an odd one, where no two readings face each other.

    Parameters: `count` readings a turn, three or more. Raises `BadInput` otherwise.

    >>> round(missed_share(8), 4), round(missed_share(12), 4)
    (0.0761, 0.0341)
    """
    n = int(number("count", count, "three or more readings a turn", low=3))
    return (1.0 - math.cos(math.pi / n)) / (1 if n % 2 == 0 else 2)
