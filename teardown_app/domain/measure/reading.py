"""A reading as typed, and its verdict against a limit by the simple rule: within or on the limit is accept.

Whether the reading is good enough for its uncertainty is not asked here.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from teardown_app.domain.bill.limit import Limit

EXPONENTS = {
    "q": -30, "r": -27, "y": -24, "z": -21, "a": -18, "f": -15, "p": -12, "n": -9, "u": -6, "m": -3, "c": -2, "d": -1,
    "": 0, "da": 1, "h": 2, "k": 3, "M": 6, "G": 9, "T": 12, "P": 15, "E": 18, "Z": 21, "Y": 24, "R": 27, "Q": 30,
}  # fmt: skip
"""SI prefixes as powers of ten: SI Brochure, 9th edition, table 7. u stands for the micro sign."""

BASES = (
    "m", "g", "s", "A", "K", "V", "W", "N", "Pa", "bar", "Hz", "F", "H", "T", "J", "l", "ohm", "N m",
)  # fmt: skip
ALIASES = {
    "\u03a9": "ohm", "\u2126": "ohm", "Ohm": "ohm", "OHM": "ohm", "\u00b5": "u", "\u03bc": "u",
    "\u00b7": " ", "\u22c5": " ", "*": " ", "Nm": "N m", "°C": "C", "degC": "C",
}  # fmt: skip
"""What people type, and how it is compared: both ohm signs, both micro signs, the dots of a product."""

DIGITS, SIZE = 28, 40
"""Longer numbers and larger powers of ten are slips of the finger; within these all arithmetic is exact."""

_READING = re.compile(r"\s*([+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?)\s*(.*?)\s*")


class Quantity(NamedTuple):
    """A number as typed, with a decimal point; its unit in plain letters; its value in that unit."""

    text: str
    unit: str
    value: Decimal


def read_quantity(typed: str) -> Quantity | None:
    """A reading as typed, with point or comma; None when it is none.

    >>> read_quantity("0,38 um")
    Quantity(text='0.38', unit='um', value=Decimal('0.38'))
    >>> read_quantity("1.2 kOhm").unit
    'kohm'
    >>> read_quantity("about 3") is None, read_quantity("1,234.5 mm") is None, read_quantity("1e999 mm") is None
    (True, True, True)
    """
    found = _READING.fullmatch(typed)
    if not found or re.match(r"[0-9.,]", found[2]):
        return None
    text = found[1].replace(",", ".")
    value = Decimal(text)
    if len(value.as_tuple().digits) > DIGITS or abs(value.adjusted()) > SIZE:
        return None
    return Quantity(text, plain_unit(found[2]), value)


BY_DEFINITION = {
    "in": (Decimal("25.4"), "mm"),
    "uin": (Decimal("0.0254"), "um"),
    "psi": (Decimal("6894.757293168"), "Pa"),
    "bar": (Decimal(100000), "Pa"),
    "lbf in": (Decimal("0.1129848290276167"), "N m"),
    "lb": (Decimal("453.59237"), "g"),
    "oz": (Decimal("28.349523125"), "g"),
}
"""Units that are no power of ten of another one: how much of which SI unit each is (NIST SP 811, appendix B)."""


def could_be_either(typed: str) -> bool:
    """True for one comma before exactly three digits: 1,500 may be one and a half or fifteen hundred.

    >>> could_be_either("1,500 um"), could_be_either("0,500 um"), could_be_either("1,50 um"), could_be_either("1.500")
    (True, False, False, False)
    """
    return re.match(r"\s*[+-]?[1-9]\d{0,2},\d{3}(?![\d.])", typed) is not None


def plain_unit(unit: str) -> str:
    """A unit in the letters that are compared.

    >>> plain_unit("kΩ"), plain_unit("µm"), plain_unit("Mohm"), plain_unit("N·m"), plain_unit("Nm")
    ('kohm', 'um', 'Mohm', 'N m', 'N m')
    """
    for name, ours in ALIASES.items():
        unit = unit.replace(name, ours)
    return " ".join(unit.split())


def factor(unit: str, wanted: str) -> Decimal | None:
    """What a number in `unit` is multiplied with to be one in `wanted`; None when they measure different things.

    The prefixes are those of the SI Brochure, 9th edition, table 7:

    >>> factor("um", "mm"), factor("kohm", "Ω"), factor("mm", "Mm"), factor("mL/min", "l/min")
    (Decimal('0.001'), Decimal('1E+3'), Decimal('1E-9'), Decimal('0.001'))

    Inch-pound units by their definitions (NIST SP 811, appendix B):

    >>> factor("in", "mm"), factor("uin", "um"), factor("psi", "kPa")
    (Decimal('25.4'), Decimal('0.0254'), Decimal('6.894757293168'))
    >>> factor("mm", "N") is None, factor("l/min", "l/h") is None
    (True, True)
    """
    ours, _, per = plain_unit(unit).partition("/")
    theirs, _, other_per = plain_unit(wanted).partition("/")
    if per != other_per:
        return None
    power = _power(ours.replace("L", "l"), theirs.replace("L", "l"))
    if power is not None:
        return Decimal(1).scaleb(power)
    if ours in BY_DEFINITION:
        times, metric = BY_DEFINITION[ours]
        onwards = factor(metric, theirs)
        return None if onwards is None else times * onwards
    if theirs in BY_DEFINITION:
        times, metric = BY_DEFINITION[theirs]
        before = factor(ours, metric)
        return None if before is None else before / times
    return None


def _power(unit: str, wanted: str) -> int | None:
    if unit == wanted:
        return 0
    for base in BASES:
        ours, theirs = _exponent(unit, base), _exponent(wanted, base)
        if ours is not None and theirs is not None:
            return ours - theirs
    return None


def _exponent(unit: str, base: str) -> int | None:
    return EXPONENTS.get(unit.removesuffix(base)) if unit.endswith(base) else None


def is_numeric(limit: Limit | None) -> bool:
    """True where numbers decide; what is compared with another reading, a fit class or a picture a person judges.

    >>> is_numeric(Limit("max 0.4 um", max=Decimal("0.4"))), is_numeric(Limit("compare pair", compare="pair"))
    (True, False)
    """
    if limit is None or limit.compare:
        return False
    return limit.max is not None or limit.min is not None or limit.count is not None


def is_count(value: Decimal) -> bool:
    """True for a whole number of 0 or more.

    >>> is_count(Decimal("4")), is_count(Decimal("3.5")), is_count(Decimal("-1"))
    (True, False, False)
    """
    return value >= 0 and value == value.to_integral_value()


def verdict(limit: Limit, value: Decimal) -> str:
    """`accept` within or on the limit, else `reject`; the value is in the limit's own unit.

    >>> verdict(Limit("max 0.4 um", max=Decimal("0.4")), Decimal("0.40"))
    'accept'
    >>> verdict(Limit("min 20 Mohm", min=Decimal(20)), Decimal("19.9"))
    'reject'
    """
    if limit.count is not None:
        return "accept" if value == limit.count else "reject"
    over = limit.max is not None and value > limit.max
    under = limit.min is not None and value < limit.min
    return "reject" if over or under else "accept"
