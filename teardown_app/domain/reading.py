"""A reading as typed, and its verdict against a limit by the simple rule: within or on the limit is accept.

Whether the reading is good enough for its uncertainty is not asked here.
"""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation
from typing import NamedTuple

from teardown_app.domain.limit import Limit

METHOD = "simple/1"
"""Rule and its version, written into every reading."""

PREFIXES = {
    "": Decimal(1),
    "n": Decimal("1e-9"),
    "u": Decimal("1e-6"),
    "m": Decimal("1e-3"),
    "c": Decimal("1e-2"),
    "d": Decimal("1e-1"),
    "h": Decimal("1e2"),
    "k": Decimal("1e3"),
    "M": Decimal("1e6"),
    "G": Decimal("1e9"),
}
"""SI Brochure, 9th edition, table 7."""

BASES = (
    "m", "g", "s", "A", "V", "W", "N", "Pa", "bar", "Hz", "F", "H", "J", "L", "l", "ohm", "N m", "Nm", "mm/s",
)  # fmt: skip
ALIASES = {
    "Ω": "ohm", "Ohm": "ohm", "OHM": "ohm", "µ": "u", "μ": "u", "N·m": "N m", "N*m": "N m", "°C": "C", "degC": "C",
}  # fmt: skip

_READING = re.compile(r"\s*([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?)\s*(.*?)\s*")


class Quantity(NamedTuple):
    """A number and its unit as typed."""

    text: str
    unit: str
    value: Decimal


def read_quantity(typed: str) -> Quantity | None:
    """A reading as typed, with point or comma; None when it is none.

    >>> read_quantity("0,38 um")
    Quantity(text='0.38', unit='um', value=Decimal('0.38'))
    >>> read_quantity("about 3") is None
    True
    """
    found = _READING.fullmatch(typed)
    if not found:
        return None
    text = found[1].replace(",", ".")
    try:
        value = Decimal(text)
    except InvalidOperation:
        return None
    return Quantity(text, plain_unit(found[2]), value) if value.is_finite() else None


def plain_unit(unit: str) -> str:
    """A unit in the letters that are compared.

    >>> plain_unit("kΩ"), plain_unit("µm"), plain_unit("Mohm")
    ('kohm', 'um', 'Mohm')
    """
    for name, ours in ALIASES.items():
        unit = unit.replace(name, ours)
    return " ".join(unit.split())


def factor(unit: str, wanted: str) -> Decimal | None:
    """What a number in `unit` is multiplied with to be one in `wanted`; None when they measure different things.

    >>> factor("um", "mm"), factor("kohm", "ohm"), factor("mm", "N")
    (Decimal('0.001'), Decimal('1000'), None)
    """
    if unit == wanted:
        return Decimal(1)
    for base in BASES:
        ours, theirs = _prefix(unit, base), _prefix(wanted, base)
        if ours is not None and theirs is not None:
            return (ours / theirs).normalize() + 0
    return None


def _prefix(unit: str, base: str) -> Decimal | None:
    return PREFIXES.get(unit.removesuffix(base)) if unit.endswith(base) else None


def is_numeric(limit: Limit | None) -> bool:
    """True where numbers decide and nobody judges by eye."""
    return limit is not None and (limit.max is not None or limit.min is not None or limit.count is not None)


def verdict(limit: Limit, value: Decimal) -> str:
    """`accept` within or on the limit, else `reject`; the value is in the limit's own unit.

    >>> verdict(Limit("max 0.4 um", max=Decimal("0.4")), Decimal("0.40"))
    'accept'
    """
    if limit.count is not None:
        return "accept" if value == limit.count else "reject"
    over = limit.max is not None and value > limit.max
    under = limit.min is not None and value < limit.min
    return "reject" if over or under else "accept"
