"""Witness: readings and torques that an instrument found out later makes doubtful.

Written from `docs/formats/open-points.md` (A reading is in doubt) alone; computed in whole fractions.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Any, NamedTuple

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.ledger.record import SHOP, Record
from tests.open_points.naive_entries import Entry, Told

SIZES = {
    "nm": ("length", Fraction(1, 1000)), "um": ("length", Fraction(1)), "mm": ("length", Fraction(1000)),
    "N": ("force", Fraction(1)), "kN": ("force", Fraction(1000)), "ohm": ("resistance", Fraction(1)),
}  # fmt: skip
"""Kind of a unit, and how many of the smallest go into it."""

SHARE = "%"


class Quantity(NamedTuple):
    """A number with a unit; `sign` is the sign as written."""

    size: Fraction
    unit: str
    sign: str


def quantity(text: str) -> Quantity | None:
    """What is written, or nothing where it is no number with a unit or without."""
    found = re.fullmatch(r"([+-]?)(\d+(?:\.\d+)?)\s*(\S*)", text.strip())
    return Quantity(Fraction(found[1] + found[2]), found[3], found[1]) if found else None


def converted(read: Quantity | None, unit: str) -> Fraction | None:
    """The number in another unit, if that is of the same kind."""
    if read is None:
        return None
    (kind, size), (wanted, per) = SIZES.get(read.unit, ("", Fraction(1))), SIZES.get(unit, ("", Fraction(1)))
    return read.size * size / per if kind and kind == wanted else None


class Doubts:
    """What was found out about the instruments of the shop."""

    def __init__(self, told: Told) -> None:
        self.told = told
        shop = [each for ref, each in told.records.items() if each.job == SHOP and not told.why_not(ref)]
        self.given, found, cleared = (
            [each for each in shop if each.typ == f"instrument.{word}"] for word in ("given", "found_out", "cleared")
        )
        self.found = [
            each for each in found if not any(one.body["record"] == each.ref and told.saw(one, each) for one in cleared)
        ]

    def touching(self, entry: Entry) -> list[Record]:
        """What was found out and touches this reading or torque."""
        number = entry.value.get("instrument", "")
        found = [each for each in self.found if number and each.body["number"] == number]
        return [each for each in found if self._touches(each, entry.record)]

    def _touches(self, found: Record, record: Record) -> bool:
        if record.clk != "ok":
            return True
        day, last_good = record.wall[:10], found.body["last_good"]
        if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", last_good):
            return True
        if day <= last_good:
            return False
        given = [each.body for each in self.given if self.told.saw(each, found)]
        same = [body for body in given if body["number"] == found.body["number"]]
        ends = sorted(body["calibrated"] for body in same if body.get("calibrated", "") > last_good)
        return not ends or day < ends[0]

    def of(self, check: Check | None, entries: Iterable[Entry]) -> list[Record]:
        """What puts any of these readings in doubt."""
        return [
            found
            for entry in entries
            for found in self.touching(entry)
            if could_change(check, entry.value, found.body["by"])
        ]


def could_change(check: Check | None, body: dict[str, Any], by: str) -> bool:
    """Whether an instrument that showed wrongly by so much could have led to another verdict."""
    limit, error, texts = check.limit if check else None, quantity(by), _texts(body)
    if limit is None or (limit.max is None and limit.min is None) or not texts or error is None:
        return True
    read = [converted(quantity(text), limit.unit) for text in texts]
    values = [each for each in read if each is not None]
    off = error.size / 100 if error.unit == SHARE else converted(error, limit.unit)
    if off is None or len(values) < len(read):
        return True
    for one in (off,) if error.sign else (off, -off):
        if error.unit == SHARE and one == -1:
            return True
        truth = [each / (1 + one) if error.unit == SHARE else each - one for each in values]
        top, bottom = limit.max, limit.min
        good = all(
            (top is None or each <= Fraction(top)) and (bottom is None or each >= Fraction(bottom)) for each in truth
        )
        if body["verdict"] != ("accept" if good else "reject"):
            return True
    return False


def _texts(body: dict[str, Any]) -> list[str]:
    """Readings as typed: all of them, else the one value."""
    value = body.get("value")
    return list(body.get("readings") or ([f"{value.get('text', '')} {value.get('unit', '')}"] if value else []))
