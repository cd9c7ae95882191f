"""What was typed or measured, made into the body of a reading: numbers, verdict, and how sure it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any, NamedTuple

from teardown_app.domain.bill.check import Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.ledger.kinds.registers import Instrument
from teardown_app.domain.measure.came_out import came_out
from teardown_app.domain.measure.demanded import kind_of, whole_fields
from teardown_app.domain.measure.digits import digits_shown, shortened
from teardown_app.domain.measure.judging import SIMPLE, Judged, Reading, judge
from teardown_app.domain.measure.measuring import verdict_of
from teardown_app.domain.measure.propagation import propagated
from teardown_app.domain.measure.raw import fields_of_readings, shown
from teardown_app.domain.measure.reading import Quantity, could_be_either, is_count, read_quantity
from teardown_app.domain.measure.units import factor
from teardown_app.domain.parts.instrument import (
    instrument,
    instruments,
    is_kept,
    read_uncertainty,
    reads_this,
    unfit_on,
    unit_shown,
)
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import Kind
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.asked import Asked
from teardown_app.workflows.held_against import held_against, sample

METHOD = "3"
"""Version of the rules below, written into every reading after its rule: `simple/3`."""

ANSWERS = {"good": "accept", "bad": "reject", "unsure": "inconclusive"}
"""What a person says where no number decides."""

KEPT = ("number", "reads", "name", "calibrated", "due", "low", "high", "resolution", "uncertainty")


class Taken(NamedTuple):
    """What somebody brings: readings as typed, or fields of a kind of measurement, or an answer."""

    values: tuple[str, ...] = ()
    answer: str = ""
    note: str = ""
    instrument: str = ""
    """Number on the measuring instrument."""
    uncertainty: str = ""
    """Expanded (k = 2), where it is not the register's."""
    against: str = ""
    """What a comparison is held against, where no record tells it."""
    measured: Mapping[str, Any] | None = None
    raw: str = ""
    """SHA-256 of the attachment that holds what was measured, where it is long."""
    reference: str = ""
    """For what the author accepts it himself, where it stands over a graver reading."""


def read(act: Act, thing: str, asked: Asked, taken: Taken) -> dict[str, Any]:
    """The body of the reading, without what it is about; refuses what cannot be meant."""
    what, check = f"{act.name(thing)}: {asked.check.name}", asked.check
    known = _known(act, what, taken.instrument)
    body: dict[str, Any] = {"instrument": known.number} if known else {}
    if taken.measured is not None:
        body |= _measured(what, check, taken)
    first = next(iter(taken.values), "") or " ".join(body.get("value", {}).values())
    limit, other = held_against(act, thing, asked, taken.against, what, first)
    judged = bool(body.keys() & {"value", "readings"})
    if limit is None or (taken.measured is not None and not judged):
        body = _in_digits(check, known, taken, body) if judged else body
        return body | _judged_by_hand(what, check, taken, body) | _worth(act, check, known, _shown(check, taken, known))
    if taken.measured is None:
        body |= _numbers(what, check, limit, taken)
        body |= _said_by_kind(what, check, body)
    body |= {"against": other} if other else {}
    if Reading.of(check, body) is None:
        unit = body["value"]["unit"] if "value" in body else "another unit"
        refuse(f"{what} comes out in {unit}, its limit is in {limit.unit}.", "Correct the limit in the bill.")
    body |= _uncertainty(what, check, limit, known, taken, body)
    body = _in_digits(check, known, taken, body)
    own = str(body.get("verdict", ""))
    body |= _verdict(check, body)
    body["verdict"] = verdict_of(own, body["verdict"])
    return body | _worth(act, check, known, _shown(check, taken, known))


def _known(act: Act, what: str, number: str) -> Instrument | None:
    if not number:
        return None
    known = instrument(act.shop, number.upper())
    if known is None and instruments(act.shop):
        refuse(f"{what}: no instrument {number} is registered.", "Register it, or scan it again.", "shop instrument")
    return known or Instrument(number)


def _measured(what: str, check: Check, taken: Taken) -> dict[str, Any]:
    """The kind's own computation: what came out, and the value that is judged."""
    kind = kind_of(check)
    if kind is None:
        refuse(f"{what} is of no kind that is computed.", "Give the reading itself.")
    most = max((len(one) for one in (taken.measured or {}).values() if isinstance(one, list)), default=0)
    if most and most < check.readings:
        refuse(f"{what} needs {check.readings} readings; here are {most}.", "Give every one of them.")
    return _computed(what, check, kind, taken.measured or {}, taken.raw)


def _said_by_kind(what: str, check: Check, body: Mapping[str, Any]) -> dict[str, Any]:
    """What a kind says that judges by a rule of its own, of readings as typed; nothing where it needs more than these
    and the bill."""
    kind = kind_of(check)
    given = fields_of_readings(kind, check, body) if kind and not kind.judged else None
    found = _computed(what, check, kind, given, "") if kind and given else {}
    return {name: value for name, value in found.items() if name not in ("value", "readings")}


def _computed(what: str, check: Check, kind: Kind, given: Mapping[str, Any], raw: str) -> dict[str, Any]:
    try:
        fields = whole_fields(kind, check, given)
        found = came_out(kind, check, fields)
    except BadInput as bad:
        refuse(f"{what}: {bad.field} is {bad.value}.", f"Allowed: {bad.allowed}.")
    return {"kind": kind.name} | ({"raw": raw} if raw else {"measured": fields}) | found


def _judged_by_hand(what: str, check: Check, taken: Taken, body: Mapping[str, Any]) -> dict[str, Any]:
    if "verdict" in body and not taken.answer:
        return {}
    if taken.values and "came_out" not in body:
        refuse(f"{what} has no limit that a number could be held against.", "Answer good, bad or unsure.")
    if taken.answer not in ANSWERS:
        refuse(f"{what} is judged by a person.", f"Answer {', '.join(ANSWERS)}.")
    return {"verdict": ANSWERS[taken.answer]}


def _numbers(what: str, check: Check, limit: Limit, taken: Taken) -> dict[str, Any]:
    if taken.answer:
        refuse(f"{what} has the limit {limit.text}.", "Give the reading with its unit.")
    read_ = [_number(what, limit, typed) for typed in taken.values or ("",)]
    wanted = 1 if _is_result(check, taken) else check.readings
    if len(read_) < wanted:
        refuse(f"{what} needs {wanted} readings; here are {len(read_)}.", "Give every one of them.")
    said = [{"text": one.text, "unit": one.unit or limit.unit} for one in read_]
    if len(said) == 1:
        return {"value": said[0]}
    return {"readings": [f"{one['text']} {one['unit']}".strip() for one in said]}


def _is_result(check: Check, taken: Taken) -> bool:
    """True where the result itself is given, of a kind that would compute it."""
    kind = kind_of(check)
    return kind is not None and bool(kind.judged) and taken.measured is None


def _number(what: str, limit: Limit, typed: str) -> Quantity:
    if could_be_either(typed):
        refuse(f"{what}: “{typed}” could be a fraction or thousands.", "Write a point, or leave the comma out.")
    found = read_quantity(typed)
    if found is None:
        refuse(f"{what}: “{typed}” is no reading.", f"Write a number with its unit, such as '{sample(limit)}'.")
    times = factor(found.unit or limit.unit, limit.unit)
    if times is None:
        unit = limit.unit or "numbers without unit"
        refuse(f"{what} is read in {unit}, not in {found.unit}.", f"Convert it: '{sample(limit)}'.")
    if limit.count is not None and not is_count(found.value):
        refuse(f"{what} is counted; {found.text} is no count.", "Give a whole number.")
    return found


def _shown(check: Check, taken: Taken, known: Instrument | None) -> list[Quantity]:
    """What the instrument showed: the readings as typed, or the least and the largest of the kind's raw readings that
    are its own. A result that was worked out elsewhere is none."""
    kind, unit = kind_of(check), unit_shown(known) if known else ""
    if taken.measured is None:
        told = () if _is_result(check, taken) else taken.values
        return [one for one in map(read_quantity, told) if one is not None]
    found = list(shown(kind, taken.measured, unit)) if kind and unit else []
    ends = [pick(found, key=lambda one: one.value) for pick in (max, min)] if found else []
    return [Quantity(f"{one.value.normalize():f}", one.unit, one.value) for one in ends]


def _uncertainty(
    what: str, check: Check, limit: Limit, known: Instrument | None, taken: Taken, body: Mapping[str, Any]
) -> dict[str, Any]:
    """Of the reading that the verdict hangs on, in the limit's unit; needed by every rule but the simple one.
    Of a result that was worked out elsewhere the instrument's own says nothing."""
    told = taken.uncertainty or ("" if _is_result(check, taken) else known.uncertainty if known else "")
    read_ = Reading.of(check, body)
    if not told or read_ is None:
        if (check.rule or SIMPLE) != SIMPLE:
            refuse(
                f"{what} is decided by the {check.rule} rule; that needs the uncertainty of the reading.",
                "Name the instrument it was read with, or give its uncertainty, such as 0.02 um.",
            )
        return {}
    found = read_uncertainty(told)
    if found is None:
        refuse(f"{what}: “{told}” is no uncertainty.", "Write it as '0.02 um', '1.5 %' or '0.02 um + 1 %' (k = 2).")
    size = found.of(max(read_.values, key=abs), limit.unit)
    kind = kind_of(check)
    if "came_out" in body and kind and kind.judged and not taken.uncertainty:
        spread = propagated(kind, taken.measured or {}, found, unit_shown(known) if known else "")
        size = None if spread is None else Decimal(f"{spread:.6g}")
    if size is None:
        if taken.uncertainty or (check.rule or SIMPLE) != SIMPLE:
            refuse(f"{what} is read in {limit.unit}; its uncertainty is in {found.unit}.", f"Give it in {limit.unit}.")
        return {}
    return {"uncertainty": {"text": f"{size.normalize():f}", "unit": limit.unit}}


def _in_digits(check: Check, known: Instrument | None, taken: Taken, body: dict[str, Any]) -> dict[str, Any]:
    """A computed value in the digits that it is shown and judged in; a typed one stays as typed."""
    kind = kind_of(check)
    if kind is None or not kind.judged or taken.measured is None:
        return body
    value = body["value"]
    step = read_quantity(known.resolution) if known and known.resolution else None
    resolution = f"{step.text} {step.unit or known.unit}" if step and known else ""
    digits = digits_shown(kind, taken.measured, resolution, Decimal(value["text"]), value["unit"])
    return shortened(check, body, digits)


def _verdict(check: Check, body: Mapping[str, Any]) -> dict[str, Any]:
    read_ = Reading.of(check, body)
    assert read_ is not None
    judged = judge(check, read_)
    said: dict[str, Any] = {"verdict": judged.verdict, "method": f"{check.rule or SIMPLE}/{METHOD}"}
    decided = _decided(judged)
    return said | ({"decided": decided} if decided else {})


def _decided(judged: Judged) -> dict[str, str]:
    """How the reading lies: state, side, margin and the ratio of tolerance to uncertainty, as texts."""
    found = judged.decision
    if found is None:
        return {}
    words = {"state": found.state, "side": found.side}
    numbers = {"margin": found.margin, "ratio": found.ratio, "conforms": found.conformity}
    return {name: word for name, word in words.items() if word} | {
        name: f"{number:.6g}" for name, number in numbers.items() if number is not None
    }


def _worth(act: Act, check: Check, known: Instrument | None, read_: Sequence[Quantity]) -> dict[str, Any]:
    """The instrument as it stood that day, and why the reading releases nothing where it does not."""
    said: dict[str, Any] = {}
    why = []
    if known and known.reads:
        said["read_with"] = {name: getattr(known, name) for name in KEPT if getattr(known, name)}
        if not reads_this(known, check.instrument):
            why.append(f"instrument {known.number} reads {known.reads}, not {check.instrument}")
        why.append(unfit_on(act.shop, known, act.now, read_))
    elif check.instrument and not known and is_kept(act.shop, check.instrument):
        why.append(f"no {check.instrument} is named as its instrument")
    wanted, now = check.qualification, act.now
    if wanted and not act.shop.is_qualified(act.by, wanted, now.wall[:10], now.clk):
        why.append(f"{act.by} holds no qualification for {wanted} that is in date")
    unfit = "; ".join(one for one in why if one)
    return said | ({"unfit": unfit} if unfit else {})
