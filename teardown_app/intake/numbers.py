"""Numbers as people type them, with point or comma.

`1,500` may be one and a half or fifteen hundred. Other cells of the column, then of the table, settle it;
when they do not, nobody is asked to trust a guess.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal

from attrs import frozen

LONGEST = 30
"""Characters; nobody counts parts with longer numbers."""

_PLAIN = re.compile(r"[0-9]+")
_SPACED = re.compile(r"[0-9]{1,3}(?:[ '’][0-9]{3})+(?=[.,]|$)")
_ONE_MARK = re.compile(r"([0-9]*)([.,])([0-9]+)")
_GROUPED = re.compile(r"[0-9]{1,3}(?:(?P<mark>[.,])[0-9]{3})(?:(?P=mark)[0-9]{3})*(?:(?P<decimal>[.,])[0-9]+)?")


@frozen
class Number:
    """One number as read: a value, or why there is none."""

    value: Decimal | None = None
    trouble: str = ""


def decimal_mark(text: str) -> str:
    """Which decimal mark a number gives away: `.`, `,`, or empty when it gives none.

    >>> [decimal_mark(each) for each in ("1,5", "0.500", "1.234,5", "1.234.567", "1,500", "7")]
    [',', '.', ',', ',', '', '']
    """
    text = _bare(text)
    if could_be_either(text):
        return ""
    one = _ONE_MARK.fullmatch(text)
    if one:
        return one[2]
    many = _GROUPED.fullmatch(text)
    if not many or many["decimal"] == many["mark"]:
        return ""
    return "," if many["mark"] == "." else "."


def could_be_either(text: str) -> bool:
    """Whether point or comma could be decimal mark or thousands mark.

    >>> could_be_either("1.500"), could_be_either("0,500"), could_be_either("1234,500")
    (True, False, False)
    """
    return bool(re.fullmatch(r"[1-9][0-9]{0,2}[.,][0-9]{3}", _bare(text)))


def settled_mark(texts: Iterable[str]) -> str:
    """The decimal mark that all unambiguous numbers agree on; empty when there is none or two."""
    marks = {decimal_mark(text) for text in texts} - {""}
    return marks.pop() if len(marks) == 1 else ""


def read_number(text: str, mark: str = "") -> Number:
    """Read a number; `mark` is the decimal mark that other cells settled.

    >>> read_number("1,500", ",").value, read_number("1,500", ".").value, read_number("2,5").value
    (Decimal('1.500'), Decimal('1500'), Decimal('2.5'))
    >>> read_number("2 EA").trouble
    'is not a number; write digits only'
    """
    bare = _bare(text)
    if len(bare) > LONGEST:
        return Number(trouble="is not a number that can be meant; it is too long")
    if could_be_either(bare) and not mark:
        return Number(trouble=f"could be {_as_decimal(bare)} or {_as_thousands(bare)}; write {_instead(bare)}")
    found = _value(bare, mark)
    if found is None:
        return Number(trouble="is not a number; write digits only")
    return Number(-found if _sign(text) else found)


def _value(bare: str, mark: str) -> Decimal | None:
    if could_be_either(bare):
        return Decimal(_as_decimal(bare) if mark in bare else _as_thousands(bare))
    if _PLAIN.fullmatch(bare):
        return Decimal(bare)
    if _ONE_MARK.fullmatch(bare):
        return Decimal(bare.replace(",", "."))
    many = _GROUPED.fullmatch(bare)
    if not many or many["decimal"] == many["mark"]:
        return None
    whole = bare.replace(many["mark"], "")
    return Decimal(whole.replace(",", "."))


def _bare(text: str) -> str:
    """Without sign and blanks, and without blanks or apostrophes between groups of three."""
    text = text.strip().replace("−", "-").lstrip("+-") if _signed(text) else text.strip()
    spaced = _SPACED.match(text)
    return re.sub(r"[ '’]", "", text) if spaced else text


def _signed(text: str) -> bool:
    return bool(re.match(r"\s*[+\-−][0-9.,]", text))


def _sign(text: str) -> bool:
    return text.strip()[:1] in ("-", "−")


def _as_decimal(bare: str) -> str:
    return bare.replace(",", ".")


def _as_thousands(bare: str) -> str:
    return bare.replace(",", "").replace(".", "")


def _instead(bare: str) -> str:
    decimal = _as_decimal(bare).rstrip("0")
    short = decimal.removesuffix(".") if decimal.endswith(".") else decimal
    other = "," if "." in short else "."
    if len(short.partition(".")[2]) == 3:
        return f"{short}0 or {_as_thousands(bare)}"
    return (
        f"{short} ({short.replace('.', other)}) or {_as_thousands(bare)}"
        if "." in short
        else f"{short} or {_as_thousands(bare)}"
    )
