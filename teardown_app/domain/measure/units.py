"""Units as people write them: which measure one thing, and how a number goes from one into another, exactly.

A unit is a product of words (`mbar l/s`, `N m`), each a unit with or without an SI prefix. A word that is not known
here is a unit of its own: it goes into nothing else.
"""

from __future__ import annotations

import re
from collections import Counter
from decimal import Decimal, localcontext
from fractions import Fraction
from functools import cache
from typing import NamedTuple

EXPONENTS = {
    "q": -30, "r": -27, "y": -24, "z": -21, "a": -18, "f": -15, "p": -12, "n": -9, "u": -6, "m": -3, "c": -2, "d": -1,
    "": 0, "da": 1, "h": 2, "k": 3, "M": 6, "G": 9, "T": 12, "P": 15, "E": 18, "Z": 21, "Y": 24, "R": 27, "Q": 30,
}  # fmt: skip
"""SI prefixes as powers of ten: SI Brochure, 9th edition, table 7. u stands for the micro sign."""

SI = ("m", "g", "s", "A", "K", "V", "W", "N", "Pa", "Hz", "F", "H", "T", "J", "S", "l", "ohm")
"""Units that take prefixes, each its own measure of size 1; litres, and pascals for pressure, as they are used here."""

NAMED = {
    "bar": ("Pa", "100000"),
    "psi": ("Pa", "6894.757293168"),
    "Torr": ("Pa", "101325/760"),
    "atm": ("Pa", "101325"),
    "in": ("m", "0.0254"),
    "ft": ("m", "0.3048"),
    "mil": ("m", "0.0000254"),
    "Angstrom": ("m", "1e-10"),
    "min": ("s", "60"),
    "h": ("s", "3600"),
    "lb": ("g", "453.59237"),
    "oz": ("g", "28.349523125"),
    "lbf": ("N", "4.4482216152605"),
    "m3": ("l", "1000"),
    "dm3": ("l", "1"),
    "cm3": ("l", "0.001"),
    "mm3": ("l", "0.000001"),
    "m2": ("m2", "1"),
    "cm2": ("m2", "0.0001"),
    "mm2": ("m2", "0.000001"),
}  # fmt: skip
"""How much of which unit each is: NIST SP 811, appendix B (Torr: an atmosphere by 760)."""

PREFIXED = {
    "mbar": ("bar", "0.001"),
    "ubar": ("bar", "0.000001"),
    "uin": ("in", "0.000001"),
    "mTorr": ("Torr", "0.001"),
}
"""Of the named units those that are written with a prefix."""

ALIASES = {
    "\u03a9": "ohm", "\u2126": "ohm", "Ohm": "ohm", "OHM": "ohm", "\u00b5": "u", "\u03bc": "u",
    "\u00b7": " ", "\u22c5": " ", "*": " ", "Nm": "N m", "°C": "C", "degC": "C", "\u00c5": "Angstrom",
    "\u212b": "Angstrom", "\u00b2": "2", "\u00b3": "3",
}  # fmt: skip
"""What people type, and how it is compared: both ohm signs, both micro signs, the dots of a product."""

WORDS = {
    "micron": "um",
    "microns": "um",
    "inch": "in",
    "inches": "in",
    "mils": "mil",
    "uinch": "uin",
    "angstrom": "Angstrom",
    "angstroms": "Angstrom",
    "sec": "s",
    "hr": "h",
    "rpm": "r/min",
    "torr": "Torr",
}
"""Other words for a unit, whole."""

DIGITS = 80
"""Of the arithmetic; a quotient that does not end is cut there, far beyond any number that is read."""


class Size(NamedTuple):
    """What a unit measures, as powers of its measures, and how large it is among its like."""

    measures: frozenset[tuple[str, int]]
    size: Fraction


def plain_unit(unit: str) -> str:
    """A unit in the letters that are compared.

    >>> plain_unit("kΩ"), plain_unit("µm"), plain_unit("Mohm"), plain_unit("N·m"), plain_unit("Nm"), plain_unit("Å")
    ('kohm', 'um', 'Mohm', 'N m', 'N m', 'Angstrom')
    """
    for name, ours in ALIASES.items():
        unit = unit.replace(name, ours)
    return " ".join(unit.split())


def factor(unit: str, wanted: str) -> Decimal | None:
    """What a number in `unit` is multiplied with to be one in `wanted`; None when they measure different things.

    The prefixes are those of the SI Brochure, 9th edition, table 7:

    >>> factor("um", "mm"), factor("kohm", "Ω"), factor("mm", "Mm"), factor("mL/min", "l/min")
    (Decimal('0.001'), Decimal('1E+3'), Decimal('1E-9'), Decimal('0.001'))

    Other units by their definitions (NIST SP 811, appendix B):

    >>> factor("in", "mm"), factor("mil", "um"), factor("psi", "kPa"), factor("hPa", "mbar"), factor("min", "s")
    (Decimal('25.4'), Decimal('25.4'), Decimal('6.894757293168'), Decimal('1'), Decimal('6E+1'))
    >>> factor("mm", "N") is None, factor("l/min", "l/h"), factor("Pa m3/s", "mbar l/s")
    (True, Decimal('6E+1'), Decimal('1E+1'))
    """
    ours, theirs = size_of(plain_unit(unit)), size_of(plain_unit(wanted))
    return _as_decimal(ours.size / theirs.size) if ours.measures == theirs.measures else None


def converted(value: Decimal, unit: str, wanted: str) -> Decimal | None:
    """A number in another unit, exactly wherever its digits end; None when they measure different things.

    >>> converted(Decimal("19.05"), "mm", "in"), converted(Decimal(1), "mm", "s")
    (Decimal('0.75'), None)
    """
    ours, theirs = size_of(plain_unit(unit)), size_of(plain_unit(wanted))
    if ours.measures != theirs.measures:
        return None
    return value if ours.size == theirs.size else _as_decimal(Fraction(value) * ours.size / theirs.size)


def _as_decimal(found: Fraction) -> Decimal:
    with localcontext(prec=DIGITS):
        return (Decimal(found.numerator) / Decimal(found.denominator)).normalize()


@cache
def size_of(unit: str) -> Size:
    """What a unit measures and how large it is; a power of ten is kept as one."""
    unit = WORDS.get(unit, unit)
    over, *under = unit.split("/")
    measures: Counter[str] = Counter()
    size = Fraction(1)
    for sign, words in ((1, over.split()), (-1, " ".join(under).split())):
        for word in words:
            measure, times = _word(word)
            measures[measure] += sign if measure else 0
            size *= times**sign
    return Size(frozenset((name, power) for name, power in measures.items() if power), size)


def _word(word: str) -> tuple[str, Fraction]:
    """The measure of one word of a unit, and its size."""
    word = WORDS.get(word, word)
    if word.endswith("L"):
        word = word[:-1] + "l"
    for table in (NAMED, PREFIXED):
        if word in table:
            base, times = table[word]
            measure, size = _word(base) if base != word else (base, Fraction(1))
            return measure, size * Fraction(times)
    for base in SI:
        prefix = word.removesuffix(base)
        if word.endswith(base) and prefix in EXPONENTS:
            return base, Fraction(10) ** EXPONENTS[prefix]
    return ("" if re.fullmatch(r"1?", word) else word), Fraction(1)
