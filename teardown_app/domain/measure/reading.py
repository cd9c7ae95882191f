"""A reading as typed, and its verdict against a limit by the simple rule: within or on the limit is accept.

Whether the reading is good enough for its uncertainty is not asked here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import NamedTuple

from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.measure.units import plain_unit

DIGITS, SIZE = 28, 40
"""Longer numbers and larger powers of ten are slips of the finger; within these all arithmetic is exact."""

_READING = re.compile(r"\s*([+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?)\s*(.*?)\s*")


class Quantity(NamedTuple):
    """A number as typed, with a decimal point; its unit in plain letters; its value in that unit."""

    text: str
    unit: str
    value: Decimal


def read_quantity(typed: str, mark: str = "") -> Quantity | None:
    """A reading as typed, with point or comma; None when it is none, or could be read in two ways. `mark` is the
    decimal mark where other numbers beside it have settled that.

    >>> read_quantity("0,38 um")
    Quantity(text='0.38', unit='um', value=Decimal('0.38'))
    >>> read_quantity("1.2 kOhm").unit
    'kohm'
    >>> read_quantity("about 3") is None, read_quantity("1,234.5 mm") is None, read_quantity("1e999 mm") is None
    (True, True, True)
    >>> read_quantity("1,500 um") is None, read_quantity("1,500 um", ",").text, read_quantity("1.500 um").text
    (True, '1.500', '1.500')
    """
    found = _READING.fullmatch(typed)
    if not found or (could_be_either(typed) and mark != ","):
        return None
    if re.match(r"(?!1/[A-Za-z])[0-9.,]", found[2]):
        return None
    text = found[1].replace(",", ".")
    value = Decimal(text)
    if len(value.as_tuple().digits) > DIGITS or abs(value.adjusted()) > SIZE:
        return None
    return Quantity(text, plain_unit(found[2]), value)


def could_be_either(typed: str) -> bool:
    """True for one comma before exactly three digits: 1,500 may be one and a half or fifteen hundred.

    >>> could_be_either("1,500 um"), could_be_either("0,500 um"), could_be_either("1,50 um"), could_be_either("1.500")
    (True, False, False, False)
    """
    return re.match(r"\s*[+-]?[1-9]\d{0,2},\d{3}(?![\d.])", typed) is not None


def settled_mark(texts: Iterable[str]) -> str:
    """The decimal mark that numbers typed beside each other agree on: a comma where one of them shows it and none has a
    point; else empty.

    >>> settled_mark(["1,500", "0,35"]), settled_mark(["1,500"]), settled_mark(["1,500", "0,35", "1.2"])
    (',', '', '')
    """
    many = [one for one in texts if read_quantity(one, ",") is not None]
    shows = any("," in one and not could_be_either(one) for one in many)
    return "," if shows and not any("." in one for one in many) else ""


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
