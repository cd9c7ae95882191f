"""Random gauges: what they read, what the shop writes of them, and what is found out about them later."""

from __future__ import annotations

from decimal import Decimal
from random import Random
from typing import Any

from teardown_app.domain.bill.bill import Check
from tests.open_points.tablets import JOB, SHOP, Tablet

GAUGES = ("M7K3M0001A", "M7K3M0002C")
WRENCHES = ("M7K3M0003E", "M7K3M0004G")
BY = (
    "+0.05 um", "0.05 um", "-0.05 um", "+0.0001 mm", "-50 nm", "-2 %", "2 %", "+25 %", "0.5 N", "+0.01 mm",
    "3 ohm", "+0.05", "a lot", "", "-150 %", "100 %", "-100 %", "0 um",
)  # fmt: skip
DAYS = ("2026-02-20", "2026-03-01", "2026-03-02", "2026-03-02", "2026-03-03", "2026-03-04", "2026-03-05")
SMALLER = {"mm": ("um", 1000), "um": ("nm", 1000), "kN": ("N", 1000)}


def measured(rng: Random, check: Check | None) -> dict[str, Any]:
    """What a reading says beside its verdict: numbers near the limit, of one gauge or none, not always fit."""
    body: dict[str, Any] = {}
    if rng.random() < 0.6:
        body |= {"instrument": rng.choice((*GAUGES, GAUGES[0], "M7K3M0009R"))}
    if rng.random() < 0.05:
        body |= {"unfit": rng.choice(("the person was not qualified", ""))}
    texts = [number_near(rng, check) for _ in range(rng.choice((1, 1, 2, 3)))]
    kind = rng.random()
    if kind < 0.75:
        text, _, unit = texts[0].rpartition(" ")
        body |= {"value": {"text": text, "unit": unit}}
    if len(texts) > 1 or 0.7 < kind < 0.85:
        body |= {"readings": texts}
    return body


def number_near(rng: Random, check: Check | None) -> str:
    """A number about one of the limits, or on it; now and then in another unit, or none at all."""
    limit = check.limit if check else None
    if limit is None or not limit.unit or rng.random() < 0.02:
        return rng.choice(("0.3 um", "12 ohm", "5 N"))
    edge = rng.choice([each for each in (limit.max, limit.min) if each is not None])
    share = rng.choice((0, 0, "0.02", "-0.02", "0.25", "-0.2", "-0.5", "0.1", "-0.125", "-0.1"))
    number, unit = edge + Decimal(share) * rng.choice((edge, Decimal("0.01"))), limit.unit
    if unit in SMALLER and rng.random() < 0.3:
        unit, times = SMALLER[unit]
        number *= times
    return f"{number:f} {unit}"


def in_the_shop(tablet: Tablet, rng: Random) -> None:
    """A gauge is registered or calibrated, found out, or that is taken back; with the right and without."""
    by, number = rng.choice(("AA", "AA", "CC", "BB", "DD")), rng.choice((*GAUGES, *WRENCHES))
    found = [each for each in tablet.view(SHOP) if each.typ == "instrument.found_out"]
    kind = rng.random()
    if kind < 0.4:
        days = {name: rng.choice((*DAYS, "2026-03-08")) for name in ("calibrated", "due") if rng.random() < 0.7}
        more: dict[str, Any] = rng.choice(({}, {}, {"name": "gauge 3"}, {"out": True}))
        if number in WRENCHES:
            days["due"] = rng.choice(("2026-03-01", "2027-01-01", "2027-01-01"))
            more = more | {"low": "2 N m"} if rng.random() < 0.3 else more
            more = more | {"high": rng.choice(("3", "20")), "unit": "N m"} if rng.random() < 0.3 else more
        reads = "torque wrench" if number in WRENCHES else rng.choice(("bore gauge", "length"))
        _write(tablet, by, "instrument.given", {"number": number, "reads": reads, **days, **more})
    elif kind < 0.8 or not found:
        _write(tablet, by, "instrument.found_out", {
            "number": number, "by": rng.choice(BY), "last_good": rng.choice(DAYS), "why": "dropped",
        })  # fmt: skip
    else:
        chosen = rng.choice(found)
        _take_back(tablet, by, rng, chosen.ref, str(chosen.body["number"]))


def _take_back(tablet: Tablet, by: str, rng: Random, ref: str, number: str) -> None:
    """A finding out is cleared, or voided, which no journal of the shop knows."""
    if rng.random() < 0.8:
        _write(tablet, by, "instrument.cleared", {"number": number, "record": ref, "why": "other gauge"})
    else:
        journal = rng.choice((SHOP, JOB))
        tablet.write(by, "record.voided", ("job",), {"record": ref, "why": "slip"}, journal=journal)


def _write(tablet: Tablet, by: str, typ: str, body: dict[str, Any]) -> None:
    tablet.write(by, typ, (f"instrument:{body['number']}",), body, journal=SHOP)
