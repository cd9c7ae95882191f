"""The uncertainty of an instrument: a constant part and a share of the reading."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from teardown_app.domain.measure.units import factor


class Uncertainty(NamedTuple):
    """Expanded uncertainty (k = 2) of a reading: `fixed` in `unit`, and `share` of the reading."""

    fixed: Decimal
    unit: str
    share: Decimal

    def of(self, value: Decimal, unit: str) -> Decimal | None:
        """At a reading, in the reading's unit; None where the units measure different things."""
        times = factor(self.unit, unit) if self.unit else Decimal(1)
        return None if times is None else self.fixed * times + self.share * abs(value)
