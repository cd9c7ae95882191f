"""Measuring instruments of the shop: what they read, how well, until when; and since when one read wrongly."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import NamedTuple

from teardown_app.domain.job.ground import had_seen
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.registers import Instrument
from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.measure.reading import Quantity, read_quantity
from teardown_app.domain.measure.uncertainty import Uncertainty
from teardown_app.domain.measure.units import factor
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.shop.shop import Shop

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


class Doubt(NamedTuple):
    """An error as somebody found it: so much in a unit, or a share of the reading.

    `sign` is +1 where the instrument showed too much, -1 too little, 0 where only the size is known.
    """

    size: Decimal
    unit: str
    """Empty where `size` is a share of the reading (0.02 for 2 %)."""
    sign: int


def read_uncertainty(text: str) -> Uncertainty | None:
    """A value, a share of the reading, or both; None when it is neither.

    >>> read_uncertainty("0.02 um + 2 %")
    Uncertainty(fixed=Decimal('0.02'), unit='um', share=Decimal('0.02'))
    >>> read_uncertainty("1.5 %").of(Decimal(200), "ohm")
    Decimal('3.000')
    >>> read_uncertainty("0.01 mm").of(Decimal(3), "um")
    Decimal('10')
    >>> read_uncertainty("good"), read_uncertainty("-1 mm")
    (None, None)
    """
    fixed, unit, share = Decimal(0), "", Decimal(0)
    for part in re.split(r"\+", text):
        read = read_quantity(part)
        if read is None or read.value < 0:
            return None
        if read.unit == "%" and not share:
            share = read.value / 100
        elif read.unit and read.unit != "%" and not unit:
            fixed, unit = read.value, read.unit
        else:
            return None
    return Uncertainty(fixed, unit, share)


def read_doubt(text: str) -> Doubt | None:
    """How much an instrument was found out by: `0.05 um`, `+0.05 um` (it showed too much), `-2 %`.

    None when it is neither.

    >>> read_doubt("+0.05 um"), read_doubt("2 %").size
    (Doubt(size=Decimal('0.05'), unit='um', sign=1), Decimal('0.02'))
    """
    read = read_quantity(text)
    if read is None or not read.unit:
        return None
    sign = 0 if text.lstrip()[0] not in "+-" else 1 if read.value > 0 else -1
    if read.unit == "%":
        return Doubt(abs(read.value) / 100, "", sign)
    return Doubt(abs(read.value), read.unit, sign)


def instruments(shop: Shop, reads: str = "") -> list[Instrument]:
    """Instruments in use, those that read a thing as bills call it first, by number."""
    every = [shop.value(thing, "instrument") for thing in shop.things("instrument")]
    used = [one for one in every if one and not one.out]
    return sorted(used, key=lambda one: (not _same(one.reads, reads), one.number))


def instrument(shop: Shop, number: str) -> Instrument | None:
    """What the register says of an instrument; None where it is not in it."""
    return shop.value("instrument:" + number, "instrument")  # type: ignore[no-any-return]


def unit_shown(known: Instrument) -> str:
    """The unit that an instrument shows: as registered, else that of its ends or its resolution."""
    said = (read_quantity(text) for text in (known.low, known.high, known.resolution) if text)
    return known.unit or next((one.unit for one in said if one and one.unit), "")


def reads_this(known: Instrument, wanted: str) -> bool:
    """True where the bill's word is what the register says that it reads."""
    return not wanted or _same(known.reads, wanted)


def is_kept(shop: Shop, wanted: str) -> bool:
    """True where the register has an instrument for what the bill names."""
    return any(_same(one.reads, wanted) for one in instruments(shop))


def _same(one: str, other: str) -> bool:
    return " ".join(one.casefold().split()) == " ".join(other.casefold().split())


def unfit_on(shop: Shop, known: Instrument, now: Moment, readings: Sequence[Quantity] = ()) -> str:
    """Why readings taken now with this instrument release nothing; empty when they may."""
    name = f"instrument {known.number}"
    if known.out:
        return f"{name} is out of use"
    if not known.due:
        return f"{name} has no day until which it is calibrated"
    if now.clk != "ok":
        return f"the tablet's clock is not right, so nobody can say whether {name} is in date"
    if now.wall[:10] > known.due:
        return f"the calibration of {name} was due on {known.due}"
    if any(not _good_again(shop, entry) for entry in standing_found_outs(shop, known.number)):
        return f"{name} was found to read wrongly and has not been calibrated since"
    return next((said for one in readings if (said := _out_of_range(known, name, one))), "")


def _out_of_range(known: Instrument, name: str, reading: Quantity) -> str:
    for word, sign in (("low", -1), ("high", 1)):
        said = getattr(known, word)
        end = read_quantity(said)
        times = factor(reading.unit or end.unit, end.unit) if end else None
        if end and times is not None and sign * (reading.value * times - end.value) > 0:
            return f"{reading.text} {reading.unit} is out of the range of {name} ({said})"
    return ""


def _good_again(shop: Shop, found_out: Entry) -> str:
    """The first day of a calibration recorded by somebody who had seen that it was wrong; empty while there is none."""
    days = [
        str(entry.value.calibrated)
        for entry in shop.entries(found_out.thing, "instrument")
        if entry.value.calibrated > found_out.value.last_good and shop.knowing.knew(entry.record, found_out.record)
    ]
    return min(days, default="")


def standing_found_outs(shop: Shop, number: str) -> list[Entry]:
    """What was found out about an instrument and not cleared as a mistake by somebody who had seen it."""
    thing = "instrument:" + number
    cleared = shop.entries(thing, "cleared")
    return [
        entry
        for entry in shop.entries(thing, "found_out")
        if not any(one.value == entry.record.ref and shop.knowing.knew(one.record, entry.record) for one in cleared)
    ]


def found_outs(shop: Shop, number: str, wall: str, clk: str) -> list[Entry]:
    """What was found out about an instrument that touches a reading of that day.

    A clock that is not right proves no day: then everything that was ever found out does.
    """
    return [entry for entry in standing_found_outs(shop, number) if clk != "ok" or _touches(shop, entry, wall[:10])]


def _touches(shop: Shop, entry: Entry, day: str) -> bool:
    """After the last good day and before a calibration; a last good day that is no day proves nothing."""
    last_good = entry.value.last_good
    if not _DAY.fullmatch(last_good):
        return True
    again = _good_again(shop, entry)
    return bool(day > last_good) and not (again and day >= again)


# the register as it was for somebody


def in_use(job: Job, author: Record) -> dict[str, list[Instrument]]:
    """What was given, and not replaced, of each instrument in use, as the register was for the author of a record: what
    he had seen of it, and what was written on a day before. Where that differs, one word *out* is enough."""
    seen = tuple(sorted(item for item in job.knowing.vector(author).items() if item[0].startswith(SHOP)))
    key = (in_use, seen, _day_of(author))
    if key not in job.memory:
        job.memory[key] = _in_use(job.shop, lambda one: _was_there_for(job, author, one.record))
    return job.memory[key]  # type: ignore[no-any-return]


def _was_there_for(job: Job, author: Record, given: Record) -> bool:
    """Days are compared by clocks that are right; a clock that is not proves no day, and then it was there."""
    day, before = _day_of(author), _day_of(given)
    return not day or not before or before < day or had_seen(job, author, given)


def _day_of(record: Record) -> str:
    """The day on which a record was written; empty where its clock was not right."""
    return record.wall[:10] if record.clk == "ok" else ""


def in_use_now(shop: Shop) -> dict[str, list[Instrument]]:
    """The same, as the register is on this tablet."""
    return _in_use(shop, lambda _: True)


def _in_use(shop: Shop, is_seen: Callable[[Entry], bool]) -> dict[str, list[Instrument]]:
    found = {}
    for thing in shop.things("instrument"):
        seen = [one for one in shop.entries(thing, "instrument") if is_seen(one)]
        told = [one.value for one in shop.unreplaced(seen, "instrument")]
        if told and not any(one.out for one in told):
            found[thing.partition(":")[2]] = told
    return found


def in_use_for(job: Job, author: Record, wanted: str) -> dict[str, list[Instrument]]:
    """Of these instruments those that read what a check names, whatever the case; none where it names nothing."""
    word = wanted.strip().casefold()
    known = in_use(job, author).items() if word else ()
    return {number: told for number, told in known if any(word in one.reads.casefold() for one in told)}
