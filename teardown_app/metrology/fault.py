"""What is said of a number that cannot be right: which field, what stood there, what is allowed.

numpy is loaded when the first row of numbers is checked: the first screen of the app does not wait for it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
else:
    Floats = Any


class BadInput(ValueError):
    """A value that cannot be computed with.

    >>> str(BadInput("diameter", -1.0, "above 0 mm"))
    'diameter is -1.0; allowed: above 0 mm'
    """

    def __init__(self, field: str, value: object, allowed: str) -> None:
        self.field, self.value, self.allowed = field, value, allowed
        super().__init__(f"{field} is {value}; allowed: {allowed}")


def number(
    field: str,
    value: float,
    allowed: str = "a number",
    *,
    low: float = -math.inf,
    high: float = math.inf,
    above: float = -math.inf,
    below: float = math.inf,
) -> float:
    """A finite number with low <= value <= high and above < value < below, else `BadInput`.

    >>> number("mass", 2, "above 0 kg", above=0)
    2.0
    """  # fmt: skip
    if not isinstance(value, (int, float)) or isinstance(value, bool) or not math.isfinite(value):
        raise BadInput(field, value, allowed)
    if not (low <= value <= high and above < value < below):
        raise BadInput(field, value, allowed)
    return float(value)


def numbers(field: str, values: Sequence[float] | Floats, *, at_least: int = 1, unit: str = "") -> Floats:
    """A row of finite numbers, `at_least` many, as an array of shape (n,); else `BadInput` that says which is none.

    >>> numbers("ra", [0.2, 0.3], unit="um")
    array([0.2, 0.3])
    """
    return rows(field, values, columns=0, at_least=at_least, unit=unit)


def rows(field: str, values: object, *, columns: int, at_least: int = 1, unit: str = "") -> Floats:
    """Finite numbers of shape (n, columns), or (n,) for `columns` 0; else `BadInput`."""
    import numpy as np

    shape = f"rows of {columns} numbers" if columns else "numbers"
    allowed = f"{at_least} or more {shape}" + (f" in {unit}" if unit else "")
    try:
        read = np.asarray(values, dtype=np.float64)
    except (TypeError, ValueError):
        raise BadInput(field, _short(values), allowed) from None
    if read.ndim != (2 if columns else 1) or (columns and read.shape[1] != columns):
        raise BadInput(field, _short(values), allowed)
    if len(read) < at_least:
        raise BadInput(field, f"{len(read)} of them", allowed)
    wrong = np.flatnonzero(~np.isfinite(read if not columns else read.sum(axis=1)))
    if len(wrong):
        raise BadInput(f"{field}, no. {wrong[0] + 1}", str(read[wrong[0]]), allowed)
    return read


def _short(values: object) -> str:
    said = repr(values)
    return said if len(said) <= 60 else said[:57] + "..."
