"""The register of measuring instruments: taken in, calibrated, out of use, found out."""

from __future__ import annotations

from typing import Any

from teardown_app.domain.ledger.record import SHOP
from teardown_app.domain.measure.reading import read_quantity
from teardown_app.domain.measure.units import factor
from teardown_app.domain.parts.instrument import instrument, read_doubt, read_uncertainty, standing_found_outs
from teardown_app.workflows.act import Drafts, ShopAct, refuse
from teardown_app.workflows.deed import NUMBER, RECORD, Deed, Field, by_hand
from teardown_app.workflows.label import label_number, not_void
from teardown_app.workflows.open_job import check_day


def give_instrument(act: ShopAct, number: str, *, out: bool = False, **said: str) -> Drafts:
    """Registers an instrument by the number on its label, or changes what is said of it.

    `said`: reads (as bills call it), name, unit, low, high, resolution, uncertainty (expanded, k = 2: a value, a
    share of the reading or both), calibrated and due as days. What is left out stays as it was.
    """
    act.needs("office")
    number = not_void(act.shop, _number(number))
    before = instrument(act.shop, number)
    told = {**(before.body if before else {}), **{name: value.strip() for name, value in said.items() if value.strip()}}
    told = {name: value for name, value in told.items() if name not in ("number", "out")}
    if not told.get("reads"):
        refuse(
            f"Instrument {number}: nobody says what it reads.", "Write what bills call it, such as 'roughness tester'."
        )
    _check(number, told)
    body: dict[str, Any] = {"number": number, **told}
    return [act.draft("instrument.given", ("instrument:" + number,), **body, out=True if out else None)]


def found_out(act: ShopAct, number: str, *, by: str, last_good: str, why: str) -> Drafts:
    """An instrument read wrongly by so much; on `last_good` it was last known to be right.

    `by` with a sign says which way: +0.05 um where it showed too much.
    """
    act.needs("release")
    number = _number(number)
    if instrument(act.shop, number) is None:
        refuse(f"No instrument {number} is registered.", "List them.", "shop instruments")
    error = read_doubt(by)
    if error is None or not error.size:
        refuse(f"“{by}” does not say by how much it read wrongly.", "Write it as '0.05 um', '+0.05 um' or '2 %'.")
    check_day(last_good)
    if act.now.clk == "ok" and last_good > act.now.wall[:10]:
        refuse(f"{last_good} is still to come.", "Give the last day on which it was known to be right.")
    if not why.strip():
        refuse(
            "Finding out an instrument needs its reason.", "Say how it came to light: its certificate, a comparison."
        )
    body = {"number": number, "by": by.strip(), "last_good": last_good, "why": why.strip()}
    return [act.draft("instrument.found_out", ("instrument:" + number,), **body)]


def clear(act: ShopAct, number: str, record: str = "", *, why: str) -> Drafts:
    """What was recorded as found out was a mistake: the readings it touched count again."""
    act.needs("release")
    number = _number(number)
    found = [one for one in standing_found_outs(act.shop, number) if one.record.ref == record or not record]
    if not found:
        refuse(f"Nothing stands against instrument {number} under that name.", "See what does.", "shop recall")
    if not why.strip():
        refuse("Clearing an instrument needs its reason.", "Say how you know that it read rightly.")
    body = {"number": number, "why": why.strip()}
    return [act.draft("instrument.cleared", ("instrument:" + number,), record=one.record.ref, **body) for one in found]


def _number(typed: str) -> str:
    again, wanted = "Scan the instrument's label again.", "An instrument's label begins with M."
    return label_number(typed, "M", again=again, wanted=wanted)


def _check(number: str, told: dict[str, str]) -> None:
    """Days are days, quantities are quantities of one kind."""
    for name in ("calibrated", "due"):
        if told.get(name):
            check_day(told[name])
    if told.get("calibrated") and told.get("due") and told["due"] < told["calibrated"]:
        refuse(f"Instrument {number} would be due before it was calibrated.", "Look at the certificate again.")
    unit = told.get("unit", "")
    for name in ("low", "high", "resolution"):
        read = read_quantity(told[name]) if told.get(name) else None
        if told.get(name) and (read is None or (unit and factor(read.unit or unit, unit) is None)):
            refuse(
                f"Instrument {number}: {name} “{told[name]}” is no quantity in {unit}.", f"Write it like '5 {unit}'."
            )
    found = read_uncertainty(told.get("uncertainty", "0 %"))
    if found is None or (unit and found.unit and factor(found.unit, unit) is None):
        refuse(
            f"Instrument {number}: “{told['uncertainty']}” is no uncertainty.",
            "Write it as '0.02 um', '1.5 %' or '0.02 um + 1 %' (expanded, k = 2).",
        )


INSTRUMENT = by_hand("shop instrument", SHOP, "Instrument {number} {state}.", "instrument.given")
FOUND_OUT = by_hand(
    "shop found-out",
    SHOP,
    "Instrument {number}: {touched} readings are touched, {again} are due again.",
    "instrument.found_out",
)
CLEARED = Deed(
    name="shop cleared", about=SHOP, do=clear, writes=("instrument.cleared",),
    says="What was recorded as found out about an instrument was a mistake.",
    example="M7K3M0001S --why 'the specimen was dirty' --by CR",
    done="Instrument {number} is cleared: its readings count again.",
    fields=(Field("number", says="number on its label (M…)", sort=NUMBER, first=True),
            Field("record", says="name of the record that was a mistake; else all that stands", sort=RECORD),
            Field("why", says="how you know that it read rightly", needed=True)),
)  # fmt: skip
