"""A joint as shops write it, without names: `M6; A4-70; 6 N.m`. What looks like one of these and is none is told."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from teardown_app.domain.measure.torque import read_torque

_TORQUE = r"(?<![\w.,-])\d[\d.,]*\s*(?:N\s?[.·*]?\s?m|lbf?[ .·*-]?(?:in|ft)|(?:in|ft)[ .·*-]?lbf?)\b"
_CLASS = r"(?<![\w.,-])(?:A[1-5]-\d{2,3}|[45]\.[68]|6\.8|8\.8|9\.8|10\.9|12\.9)(?!\w|[.,]\d)"
_SIZE = r"(?<![\w.,-])M\d+(?:[.,]\d+)?(?:\s?[xX×]\s?\d+(?:[.,]\d+)?)?(?!\w|,\d)"
WORDS = {"torque_nm": _TORQUE, "class": _CLASS, "size": _SIZE}
"""Classes of ISO 898-1 and ISO 3506-1; in this order, as a torque may hold what looks like a class."""
_UNREAD = re.compile(r"\bM\s?\d|\bA\d-?\d\d|\d\s*(?:k?N\b|N\s?[.·*]?\s?[mM]|kg|kp|lb|nm\b)", re.IGNORECASE)


class ShopWords(NamedTuple):
    """What was read without a name; what is left as a note; what has to be asked."""

    found: dict[str, str]
    rest: str
    troubles: tuple[str, ...]


def read_shop_words(text: str, named: Mapping[str, str]) -> ShopWords:
    """Size, class and torque in a text without names; `named` are the words that stand there with their names.

    >>> read_shop_words("M6;A4-70;6 N.m", {}).found
    {'torque_nm': '6', 'class': 'A4-70', 'size': 'M6'}
    >>> read_shop_words("M6 or M8, tight", {}).troubles
    ('“M6” and “M8” are both a size; write one, as size=M6',)
    """
    found: dict[str, str] = {}
    troubles: list[str] = []
    for word, pattern in WORDS.items():
        there = re.findall(pattern, text)
        troubles += _twice(word, there, named)
        if len(there) == 1:
            text = re.sub(pattern, " ", text)
            found |= _value(word, there[0], troubles)
    rest = " ".join(re.sub(r"(?<!\S)[;,]+(?!\S)", " ", text.replace(";", " ; ")).split()).strip(" ;,")
    return ShopWords(found, rest, tuple(troubles or _unread(rest)))


def _unread(rest: str) -> list[str]:
    if not _UNREAD.search(rest):
        return []
    return [f"“{rest[:40]}” looks like a size, a class or a torque; write it as size=M6 class=A4-70 torque_nm=6"]


def _twice(word: str, there: list[str], named: Mapping[str, str]) -> list[str]:
    said = [*([named[word]] if word in named and there else []), *there]
    if len(said) < 2:
        return []
    what = {"torque_nm": "torque"}.get(word, word)
    return [f"“{said[0]}” and “{said[1]}” are both a {what}; write one, as {word}={said[0].split()[0]}"]


def _value(word: str, typed: str, troubles: list[str]) -> dict[str, str]:
    """One of the words as its named form holds it; a torque in N m."""
    if word != "torque_nm":
        return {word: " ".join(typed.split())}
    read = read_torque(typed)
    if isinstance(read, str):
        troubles.append(f"“{typed}”: {read}; write it as torque_nm=6")
        return {}
    return {word: f"{read.newton_metres:f}" if read.unit != "N m" else read.text}
