"""Witness: the register of instruments, and readings and torques that one found out later makes doubtful.

Written from `docs/formats/open-points.md` (section 4, A reading is in doubt; section 7, After closing) alone; computed
in whole fractions.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any, NamedTuple

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.ledger.record import SHOP, Record
from tests.open_points.naive_entries import Entry, Told

SIZES = {
    "nm": ("length", Fraction(1, 1000)), "um": ("length", Fraction(1)), "mm": ("length", Fraction(1000)),
    "N": ("force", Fraction(1)), "kN": ("force", Fraction(1000)), "ohm": ("resistance", Fraction(1)),
    "N m": ("torque", Fraction(1)), "Nm": ("torque", Fraction(1)),
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
    found = re.fullmatch(r"([+-]?)(\d+(?:\.\d+)?)\s*(\S(?:.*\S)?)?", text.strip())
    return Quantity(Fraction(found[1] + found[2]), found[3] or "", found[1]) if found else None


def converted(read: Quantity | None, unit: str) -> Fraction | None:
    """The number in another unit, if that is of the same kind."""
    if read is None:
        return None
    (kind, size), (wanted, per) = SIZES.get(read.unit, ("", Fraction(1))), SIZES.get(unit, ("", Fraction(1)))
    return read.size * size / per if kind and kind == wanted else None


class Doubts:
    """What the shop's register holds, and what was found out about its instruments."""

    def __init__(self, told: Told) -> None:
        self.told = told
        shop = [each for each in told.records.values() if each.job == SHOP and not told.why_not(each)]
        self.given, found, cleared = (
            [each for each in shop if each.typ == f"instrument.{word}"] for word in ("given", "found_out", "cleared")
        )
        self.found = [each for each in found if not any(self._clears(one, each) for one in cleared)]
        self.every = found

    def _clears(self, cleared: Record, found: Record) -> bool:
        """ "no `instrument.cleared` of the same `number` names whose author had seen it"."""
        same = cleared.body["number"] == found.body["number"] and cleared.body["record"] == found.ref
        return same and self.told.saw(cleared, found)

    # -- the register, as it was for an author -------------------------------------------------------

    def in_use(self, author: Record) -> dict[str, list[dict[str, Any]]]:
        """Instruments that the register has in use, as it was for the author of a record: what was given of each number
        and nothing replaced. Where that differs, one word *out* is enough."""
        known = [each for each in self.given if self._is_of_his_register(author, each)]
        left = [one for one in known if not any(self._replaces(other, one) for other in known)]
        numbers = {each.body["number"] for each in left}
        of_each = {number: [each.body for each in left if each.body["number"] == number] for number in numbers}
        return {n: bodies for n, bodies in of_each.items() if not any(body.get("out") for body in bodies)}

    def _is_of_his_register(self, author: Record, given: Record) -> bool:
        """ "what of it he had seen, and what was written on a day before the record's, by both clocks *ok*; where one
        of the clocks is not *ok*, also without that"."""
        by_good_clocks = author.clk == "ok" and given.clk == "ok"
        return self.told.saw(author, given) or not by_good_clocks or given.wall[:10] < author.wall[:10]

    def _replaces(self, later: Record, earlier: Record) -> bool:
        return later.body["number"] == earlier.body["number"] and self.told.saw(later, earlier)

    def gauge_serves(self, reading: Entry, check: Check) -> bool:
        """ "it names, where the check does and the register, as it was for him, has an `instrument` in use that reads
        it, one of these, whose `due` is not before the record's day, by a clock that is *ok*". One reads it when what
        the check names stands in its `reads`, whatever the case."""
        word, record = check.instrument.strip().casefold(), reading.record
        found = self.in_use(record)
        gauges = {n: all_ for n, all_ in found.items() if any(word in each["reads"].casefold() for each in all_)}
        if not word or not gauges:
            return True
        bodies = gauges.get(reading.value.get("instrument", ""), [])
        return bool(bodies) and record.clk == "ok" and all(is_in_date(body, record) for body in bodies)

    def wrenches(self, author: Record) -> dict[str, list[dict[str, Any]]]:
        """ "a wrench in use (an instrument whose `reads` has the word *torque*)"."""
        found = self.in_use(author)
        return {n: bodies for n, bodies in found.items() if any(_has_word(body["reads"], "torque") for body in bodies)}

    # -- found out -------------------------------------------------------------------------------------

    def is_after_closing(self, found: Record, entry: Entry) -> bool:
        """ "A finding out F is after closing for a reading or torque when a job.closed K with effect is there, K's
        author had seen that one and not F, and no job.reopened with effect had seen K."."""
        saw, ends = self.told.saw, [each for each in self.told.entries if each.fact == "end"]
        closed = [each.record for each in ends if each.value == "closed"]
        opened = [each.record for each in ends if each.value == "open"]
        return any(
            saw(one, entry.record) and not saw(one, found) and not any(saw(other, one) for other in opened)
            for one in closed
        )

    def of_instruments(self, entries: Iterable[Entry]) -> list[Record]:
        """ "what was found out about its instruments": of every number that one of these names."""
        numbers = {entry.value.get("instrument", "") for entry in entries} - {""}
        return [each for each in self.every if each.body["number"] in numbers]

    def touching(self, entry: Entry) -> list[Record]:
        """What was found out, not cleared, and touches this reading or torque."""
        number = entry.value.get("instrument", "")
        found = [each for each in self.found if number and each.body["number"] == number]
        return [each for each in found if self._touches(each, entry.record)]

    def doubting(self, entry: Entry) -> list[Record]:
        """What puts this reading or torque in doubt; of a torque all that touches its wrench."""
        found = self.touching(entry)
        if entry.fact == "torque":
            return found
        check = self.told.bill.checks.get(entry.value["check"])
        return [each for each in found if could_change(check, entry.value, each.body["by"])]

    def is_in_doubt(self, entry: Entry) -> bool:
        """Whether it is in doubt now: "What was found out *after closing* makes no reading due"."""
        return any(not self.is_after_closing(each, entry) for each in self.doubting(entry))

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


def is_in_date(body: dict[str, Any], record: Record) -> bool:
    """ "its `due` is not before the record's day"."""
    return not body.get("due") or bool(body["due"] >= record.wall[:10])


def hours_between(earlier: Record, later: Record) -> Decimal:
    """Hours by two good clocks; none at all by any other."""
    if earlier.clk != "ok" or later.clk != "ok":
        return Decimal(-1)
    waited = datetime.fromisoformat(later.wall) - datetime.fromisoformat(earlier.wall)
    return Decimal(waited.total_seconds()) / 3600


def _has_word(text: str, word: str) -> bool:
    return word in re.findall(r"[^\W\d_]+", text.casefold())


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
