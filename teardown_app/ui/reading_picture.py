"""The picture beside a reading that is being entered: the reading so far, to scale against its limits."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any, NamedTuple

from teardown_app.domain.bill.check import Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.ledger.kinds.work import check_facet
from teardown_app.domain.measure.demanded import kind_of
from teardown_app.domain.measure.judging import Reading, judge, quantity_in
from teardown_app.domain.measure.measuring import checked, numbers_in, without_noise
from teardown_app.domain.measure.propagation import propagated
from teardown_app.domain.measure.reading import read_quantity
from teardown_app.domain.measure.units import factor
from teardown_app.domain.parts.instrument import instrument, read_uncertainty
from teardown_app.figures.figure import Figure
from teardown_app.figures.margin import Beside, margin
from teardown_app.figures.measured import figure_of
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import Kind
from teardown_app.ui.form import Values
from teardown_app.ui.forms.kinds import fields_entered, wants_kind
from teardown_app.workflows.act import Refused
from teardown_app.workflows.asked import Asked, asked_for
from teardown_app.workflows.held_against import held_against, other_reading

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


class SoFar(NamedTuple):
    """What was entered so far, as a record would hold it, and what the kind makes of it."""

    body: dict[str, Any]
    measured: dict[str, Any]


def reading_picture(desk: Desk, values: Values, asking: str, typed: str) -> Figure | None:
    """A kind's own picture while its readings come in, else the margin; None where no number decides."""
    thing = str(values["thing"])
    asked = asked_for(
        desk.look, thing, str(values["check"]), when=str(values["when"]), spot=str(values.get("spot", ""))
    )
    entered = {**values, asking: typed} if typed.strip() else dict(values)
    kind = kind_of(asked.check)
    so_far = _so_far(desk, kind, asked.check, entered)
    own = figure_of(kind.name, so_far.measured) if kind is not None else None
    return own or _margin(desk, thing, asked, so_far)


def _so_far(desk: Desk, kind: Kind | None, check: Check, values: Values) -> SoFar:
    unit = check.limit.unit if check.limit else ""
    if kind is not None and wants_kind(kind, check, values):
        measured: dict[str, Any] = {}
        try:
            measured = fields_entered(kind, check, values, desk.traces())
            result = kind.compute(**checked(kind.fields, measured))
        except (BadInput, ArithmeticError):
            return SoFar({}, measured)
        value = next((one for one in result.values if one.name == kind.judged and one.value is not None), None)
        if value is None:
            return SoFar({}, measured)
        clean = without_noise(float(value.value or 0), numbers_in(kind, measured, value.unit))
        return SoFar({"value": {"text": f"{clean:f}", "unit": value.unit}}, measured)
    told = [str(values[name]) for name in values if name == "value" or name.startswith("value ")]
    good = [one for one in told if read_quantity(one) and factor(read_quantity(one).unit or unit, unit) is not None]  # type: ignore[union-attr]
    return SoFar({"readings": [_with_unit(one, unit) for one in good]} if good else {}, {})


def _with_unit(typed: str, unit: str) -> str:
    read = read_quantity(typed)
    return f"{read.text} {read.unit or unit}".strip() if read else typed


def _margin(desk: Desk, thing: str, asked: Asked, so_far: SoFar) -> Figure | None:
    check = asked.check
    limit = _limit(desk, thing, asked)
    if limit is None or limit.count is not None or check.limit is None:
        return None
    body = dict(so_far.body)
    size = _uncertainty(desk, check, so_far, limit.unit)
    if size is not None:
        body["uncertainty"] = {"text": f"{size.normalize():f}", "unit": limit.unit}
    told = other_reading(desk.look, thing, asked) if check.limit.compare else None
    read = Reading.of(check, {**body, **({"against": told} if told else {})}) if body else None
    low, high = (None if end is None else float(end) for end in (limit.min, limit.max))
    beside = _beside(desk, thing, asked, limit.unit)
    if read is None:
        return margin(None, low=low, high=high, unit=limit.unit, beside=beside)
    judged = judge(check, read)
    guard = (judged.decision.guard if judged.decision else 0.0) or 0.0
    spread = float(size) if size is not None else 0.0
    return margin(
        float(judged.worst), low=low, high=high, unit=limit.unit, guard=guard, uncertainty=spread,
        verdict=judged.verdict, beside=beside,
    )  # fmt: skip


def _limit(desk: Desk, thing: str, asked: Asked) -> Limit | None:
    try:
        return held_against(desk.look, thing, asked, "", "")[0]
    except Refused:
        return None


def _uncertainty(desk: Desk, check: Check, so_far: SoFar, unit: str) -> Decimal | None:
    """Of the result, from that of the instrument last used."""
    known = instrument(desk.workshop.shop, desk.settings.instrument_for(check.instrument)) if check.instrument else None
    told = read_uncertainty(known.uncertainty if known else "")
    kind = kind_of(check)
    if told is None or not so_far.body or (kind is not None and kind.judged and not so_far.measured):
        return None
    if kind is not None and so_far.measured:
        spread = propagated(kind, checked(kind.fields, so_far.measured), told, known.unit if known else "")
        return None if spread is None else Decimal(f"{spread:.3g}")
    read = Reading.of(check, so_far.body) if so_far.body else None
    return told.of(max(read.values, key=abs), unit) if read else None


def _beside(desk: Desk, thing: str, asked: Asked, unit: str) -> list[Beside]:
    """The reading before, the one as found, and the pair's."""
    job, check = desk.job, asked.check
    found = []
    for says, when in (("as found", "as found"), ("before", asked.when)):
        before = job.value(thing, check_facet(check.name, asked.spot, when))
        value = quantity_in(before.value, unit) if before and before.value else None
        if value is not None and (says, when) != ("as found", asked.when):
            found.append(Beside(says, float(value)))
    pair = other_reading(desk.look, thing, asked) if check.limit and check.limit.compare == "pair" else None
    value = quantity_in(pair, unit) if pair else None
    return [*found, Beside("pair", float(value))] if value is not None else found
