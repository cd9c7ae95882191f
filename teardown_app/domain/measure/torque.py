"""A torque as typed, and in newton metres.

1 lbf = 0.45359237 kg x 9.80665 m/s2, 1 ft = 0.3048 m, 1 in = 0.0254 m, all exact by definition
(NIST SP 811, appendix B.8: 1 lbf ft = 1.355 818 N m, 1 lbf in = 0.112 984 8 N m).
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple

from teardown_app.domain.measure.reading import could_be_either

LBF_N = Decimal("0.45359237") * Decimal("9.80665")
"""Pound-force in newtons, exact."""

IN_NEWTON_METRES = {
    "N m": Decimal(1),
    "lbf ft": LBF_N * Decimal("0.3048"),
    "lbf in": LBF_N * Decimal("0.0254"),
}

_SPELLINGS = {
    "nm": "N m",
    "lbfft": "lbf ft",
    "ftlbf": "lbf ft",
    "ftlb": "lbf ft",
    "lbft": "lbf ft",
    "lbfin": "lbf in",
    "inlbf": "lbf in",
    "inlb": "lbf in",
    "lbin": "lbf in",
}
_TYPED = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*([A-Za-z][A-Za-z .·*-]*)?\s*")


class Torque(NamedTuple):
    """A torque: the number and unit as typed (unit in the spelling of this table)."""

    text: str
    unit: str

    @property
    def newton_metres(self) -> Decimal:
        """In N m.

        >>> round(Torque("4.4", "lbf ft").newton_metres, 4)
        Decimal('5.9656')
        """
        return Decimal(self.text) * IN_NEWTON_METRES[self.unit]

    def written(self) -> dict[str, str]:
        """As it stands in a record."""
        return {"text": self.text, "unit": self.unit}


def read_torque(typed: str) -> Torque | str:
    """The torque that somebody typed, in N m where no unit is given; else what is wrong with it.

    >>> read_torque("6 Nm"), read_torque("4,4 lbf-ft")
    (Torque(text='6', unit='N m'), Torque(text='4.4', unit='lbf ft'))
    """
    match = _TYPED.fullmatch(typed)
    if match is None:
        return f"{typed!r} is no torque"
    number, unit = match[1], re.sub(r"[^a-z]", "", (match[2] or "N m").casefold())
    if could_be_either(number):
        return f"{number} could be read in two ways"
    text = number.replace(",", ".")
    if unit not in _SPELLINGS:
        return f"{match[2].strip()} is no unit of torque known here ({', '.join(IN_NEWTON_METRES)})"
    return Torque(text, _SPELLINGS[unit]) if Decimal(text) else "a torque of 0 tightens nothing"


def newton_metres(typed: str) -> Decimal | None:
    """What a text says in N m, 0 too; None where it is no torque, has no unit, or could be read in two ways.

    >>> newton_metres("4.2 Nm"), newton_metres("0 N m"), newton_metres("4.2"), newton_metres("tight")
    (Decimal('4.2'), Decimal('0'), None, None)
    """
    match = None if could_be_either(typed) else _TYPED.fullmatch(typed)
    unit = _SPELLINGS.get(re.sub(r"[^a-z]", "", (match[2] or "").casefold())) if match else None
    return Decimal(match[1].replace(",", ".")) * IN_NEWTON_METRES[unit] if match and unit else None
