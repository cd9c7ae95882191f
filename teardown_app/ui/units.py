"""The person's unit system: limits are shown in it and readings may be typed in it; records keep what was typed.

Factors are those of `domain.reading`, held there against published ones.
"""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal

from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.measure.units import factor

OTHERS = {
    "um": "uin",
    "µm": "uin",
    "mm": "in",
    "in": "mm",
    "uin": "um",
    "bar": "psi",
    "kPa": "psi",
    "psi": "bar",
    "N m": "lbf in",
    "g": "oz",
    "kg": "lb",
}
"""A unit, and the one of the other system."""

INCH_POUND = ("uin", "in", "psi", "lbf in", "oz", "lb")


def offered_units(unit: str, system: str) -> tuple[str, ...]:
    """Units in which a reading may be typed, the person's own first. A limit without unit has none."""
    other = OTHERS.get(unit, "")
    if not other or factor(other, unit) is None:
        return (unit,)
    wants_other = (other in INCH_POUND) == (system == "inch-pound")
    return (other, unit) if wants_other else (unit, other)


def shown_limit(limit: Limit, system: str) -> str:
    """A limit as the bill gives it, and in the person's units where these differ.

    >>> shown_limit(Limit("<= 0.4 um", max=Decimal("0.4"), unit="um"), "SI")
    '<= 0.4 um'
    """
    unit = offered_units(limit.unit, system)[0]
    times = factor(limit.unit, unit) if unit != limit.unit else None
    if times is None:
        return limit.text
    context = Context(prec=4, rounding=ROUND_HALF_EVEN)
    parts = [
        f"{sign} {context.multiply(value, times).normalize():f}"
        for sign, value in (("≥", limit.min), ("≤", limit.max), ("", limit.nominal))
        if value is not None
    ]
    return f"{limit.text} ({' '.join(parts).strip()} {unit})" if parts else limit.text


def shown_torque(newton_metres: Decimal, system: str) -> str:
    """A torque in N m, and in lbf in for who wants it."""
    said = f"{newton_metres.normalize():f} N m"
    times = factor("N m", "lbf in") if system == "inch-pound" else None
    if times is None:
        return said
    return f"{said} ({Context(prec=3).multiply(newton_metres, times).normalize():f} lbf in)"
