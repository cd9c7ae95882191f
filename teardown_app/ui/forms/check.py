"""The form of a reading: the instrument, what its kind of measurement needs one after the other, or an answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.bill.check import RULES, Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.ledger.kinds.registers import Instrument
from teardown_app.domain.measure.demanded import kind_of, whole_fields
from teardown_app.domain.measure.judging import band
from teardown_app.domain.measure.units import factor
from teardown_app.domain.parts.instrument import instrument, instruments, reads_this
from teardown_app.metrology.cut_off import cut_off_for_limit
from teardown_app.metrology.fault import BadInput
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text
from teardown_app.ui.forms.kinds import CANNOT, RESULT, ask_kind, field_shown, fields_entered, wants_kind
from teardown_app.ui.reading_picture import reading_picture
from teardown_app.ui.units import offered_units, shown_limit
from teardown_app.ui.view import NUMBER, Field
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.asked import Asked, asked_for
from teardown_app.workflows.check import not_possible, read_check, warnings
from teardown_app.workflows.held_against import other_reading
from teardown_app.workflows.reading import ANSWERS, Taken

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

OTHER_TOOL, NONE_OF_THEM = "another instrument", "none of these"


def asked_of(desk: Desk, values: Values) -> Asked:
    """The check that the form is about."""
    thing = str(values["thing"])
    return asked_for(desk.look, thing, str(values["check"]), when=str(values["when"]), spot=str(values.get("spot", "")))


def _ask(desk: Desk, values: Values) -> Field | None:
    asked = asked_of(desk, values)
    check = asked.check
    if any(value == CANNOT for value in values.values()):
        return first_open(values, text("why", "Why could it not be measured?", ("gauge is out", "no access")))
    tool = _ask_tool(desk, values, check)
    if tool is not None:
        return tool
    kind = kind_of(check)
    if kind is not None and wants_kind(kind, check, values):
        return ask_kind(kind, check, values, _title(asked), desk.traces())
    limit = check.limit
    if limit is not None and _is_read(limit):
        return _ask_numbers(desk, values, asked, limit)
    return _ask_answer(values, asked)


def _title(asked: Asked) -> str:
    at = f" at {asked.spot}" if asked.spot else ""
    return f"{asked.check.says or asked.check.name}{at} ({asked.when})"


def _is_read(limit: Limit) -> bool:
    """True where a number is read; of a comparison without a difference allowed a person judges."""
    return (limit.compare != "" and limit.max is not None) or band(limit) is not None


# the instrument


def _ask_tool(desk: Desk, values: Values, check: Check) -> Field | None:
    """Which instrument: asked once, then the one last used; another can be taken at any reading."""
    known = [one for one in instruments(desk.workshop.shop, check.instrument) if reads_this(one, check.instrument)]
    if not check.instrument or not known:
        return None
    wants_other = any(value == OTHER_TOOL for value in values.values())
    used = desk.settings.instrument_for(check.instrument)
    if not wants_other and (values.get("tool") or used in [one.number for one in known]):
        return None
    for name in [name for name, value in values.items() if value == OTHER_TOOL]:
        values.pop(name)
    offered = [_tool_words(one) for one in known]
    return first_open({}, choose("tool", f"Which {check.instrument}?", (*offered, NONE_OF_THEM)))


def _tool_words(one: Instrument) -> str:
    due = f", due {one.due}" if one.due else ""
    return f"{one.number} {one.name or one.reads}{due}"


def _tool(desk: Desk, values: Values, check: Check) -> str:
    """Number of the instrument that the reading is taken with."""
    chosen = str(values.get("tool") or "")
    if chosen == NONE_OF_THEM:
        return ""
    number = chosen.partition(" ")[0] or desk.settings.instrument_for(check.instrument)
    if chosen and check.instrument:
        desk.settings.use_instrument(check.instrument, number)
    return number


# numbers


def _ask_numbers(desk: Desk, values: Values, asked: Asked, limit: Limit) -> Field | None:
    """As many readings as the check wants, one after the other: digits and one touch each."""
    check = asked.check
    if limit.compare and other_reading(desk.look, str(values["thing"]), asked) is None:
        says = f"What is it compared with ({limit.compare})?"
        field = _number("against", says, limit.unit, desk)
        if "against" not in values:
            return field
    unsure = _ask_uncertainty(desk, values, check)
    if unsure is not None:
        return unsure
    units = offered_units(limit.unit, desk.choice.units)
    more = (OTHER_TOOL,) if check.instrument and instruments(desk.workshop.shop) else ()
    many = 1 if RESULT in values.values() else check.readings
    for n in range(many):
        name = f"value {n + 1}" if many > 1 else "value"
        if name not in values:
            says = _title(asked) + (f": reading {n + 1} of {many}" if many > 1 else "")
            hint = f"Limit {shown_limit(limit, desk.choice.units)}{_setting(check)}"
            return Field(name, says, NUMBER, unit=units[0], units=units, choices=(*units[1:], *more, CANNOT), hint=hint)
    return None


def _ask_uncertainty(desk: Desk, values: Values, check: Check) -> Field | None:
    """What a rule needs that decides by it, where the instrument does not say."""
    known = instrument(desk.workshop.shop, _tool(desk, values, check))
    if (check.rule or RULES[0]) == RULES[0] or (known and known.uncertainty and RESULT not in values.values()):
        return None
    return first_open(values, text("uncertainty", "Uncertainty of the reading (k = 2), such as 0.02 mm or 1.5 %"))


def _setting(check: Check) -> str:
    """The cut-off and length that a roughness limit asks for (ISO 21920-3), so that the tester is set right."""
    limit, kind = check.limit, kind_of(check)
    if kind is None or kind.name != "roughness" or limit is None or limit.max is None:
        return ""
    times = factor(limit.unit, "um")
    if times is None or limit.max <= 0:
        return ""
    parameter = "Rz" if "rz" in f"{check.name} {check.says}".casefold() else "Ra"
    lengths = cut_off_for_limit(float(limit.max * times), parameter)
    return f"; {parameter}, cut-off {lengths.cut_off:g} mm, length {lengths.evaluation:g} mm"


def _number(name: str, says: str, unit: str, desk: Desk) -> Field:
    units = offered_units(unit, desk.choice.units)
    return Field(name, says, NUMBER, unit=units[0], units=units, choices=units[1:])


def _ask_answer(values: Values, asked: Asked) -> Field | None:
    limit = asked.check.limit
    hint = f"Held against: {limit.text}" if limit else ""
    asks = [choose("answer", _title(asked), (*ANSWERS, CANNOT), hint)]
    if limit is not None and values.get("answer") in ANSWERS:
        asks.append(text("note", f"What was it held against? {limit.text}", may_be_empty=True))
    return first_open(values, *asks)


# recording


def _finish(desk: Desk, values: Values) -> None:
    thing, asked = str(values["thing"]), asked_of(desk, values)
    check = asked.check
    if "why" in values:
        desk.act(
            lambda act: not_possible(act, thing, asked, why=str(values["why"])),
            f"{check.name} could not be measured; it stays open.",
        )
        return
    taken = _taken(desk, check, values)

    def build(act: Act) -> Drafts:
        drafts = read_check(act, thing, asked, taken)
        desk.workshop.keep_if_long(taken.measured or {})
        return drafts

    body = desk.act(build, f"{check.name} {', '.join(taken.values)}".strip())[-1].body
    word, warned = str(body["verdict"]), warnings(desk.look, thing, asked, body)
    value = " ".join((body.get("value") or {}).values()) or ", ".join(body.get("readings") or ())
    desk.say(" ".join([f"{check.name}: {value} {word}.".replace("  ", " "), *body.get("said", ()), *warned]), word)


def _taken(desk: Desk, check: Check, values: Values) -> Taken:
    kind = kind_of(check)
    measured = None
    if kind is not None and "answer" not in values and wants_kind(kind, check, values):
        try:
            measured = whole_fields(kind, check, fields_entered(kind, check, values, desk.traces()))
        except BadInput as bad:
            refuse(f"{check.name}: {bad.field} is {bad.value}.", f"Allowed: {bad.allowed}.")
    readings = tuple(str(values[name]) for name in values if name == "value" or name.startswith("value "))
    return Taken(
        () if measured else readings,
        str(values.get("answer", "")),
        str(values.get("note", "")),
        _tool(desk, values, check),
        uncertainty=str(values.get("uncertainty", "")),
        against=str(values.get("against", "")),
        measured=measured,
        raw=desk.workshop.name_if_long(measured) if measured else "",
    )


def _shown_by(desk: Desk, values: Values, band: int) -> str:
    check = asked_of(desk, values).check
    kind = kind_of(check)
    return field_shown(kind, check, values, band) if kind is not None and wants_kind(kind, check, values) else ""


FORMS = (Form("check", "reading", _ask, _finish, reading_picture, _shown_by),)
