"""What the statistics of counts share: bounds of an estimate, the side that is bounded, and checks of input."""

from __future__ import annotations

from typing import NamedTuple

from teardown_app.metrology.fault import BadInput, number

MOST_COUNTED = 10_000_000
SIDES = ("two", "lower", "upper")
"""Bounds on both sides, or the whole risk on one of them."""


class Bounds(NamedTuple):
    """A confidence interval; a side that is not bounded lies at the end of what is possible."""

    low: float
    """In the unit of the estimate."""
    high: float
    """In the unit of the estimate; may be infinite."""


def _whole(field: str, value: float, *, low: int = 0, high: int = MOST_COUNTED, says: str = "") -> int:
    """A count: a whole number, from `low` to `high`."""
    allowed = says or f"a whole number from {low} to {high}"
    read = number(field, value, allowed, low=low, high=high)
    if read != int(read):
        raise BadInput(field, value, allowed)
    return int(read)


def _share(field: str, value: float) -> float:
    """A probability above 0 and below 1."""
    return number(field, value, "above 0 and below 1, such as 0.95 for 95 %", above=0, below=1)


def _risks(confidence: float, sided: str) -> tuple[float, float]:
    """Risks left out below and above; 0 where a side is not bounded."""
    left = 1.0 - _share("confidence", confidence)
    if sided not in SIDES:
        raise BadInput("sided", sided, " or ".join(SIDES))
    return {"two": (left / 2, left / 2), "lower": (left, 0.0), "upper": (0.0, left)}[sided]


def _passes(passes: float, trials: float) -> tuple[int, int]:
    """Passes and trials, whole numbers with passes <= trials and 1 or more trials."""
    n = _whole("trials", trials, low=1)
    return _whole("passes", passes, high=n, says=f"a whole number from 0 to the {n} trials"), n
