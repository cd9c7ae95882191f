"""One measurement of a kind: its fields checked, computed, and held against a limit where one is given."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from decimal import Context, Decimal
from functools import cache
from typing import Any, NamedTuple

from teardown_app.domain.bill.check import RULES
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.measure.reading import SIZE
from teardown_app.domain.measure.units import DIGITS, factor
from teardown_app.metrology.decision import Decision, decide
from teardown_app.metrology.fault import BadInput, number
from teardown_app.metrology.kind import CHOICE, NUMBER, NUMBERS, TABLE, TEXT, Field, Kind, Result
from teardown_app.metrology.kinds import all_kinds
from teardown_app.metrology.kinds.least import DEVIATION

JUDGING = (
    Field("limit_max", "largest value that is accepted", allowed="a number", optional=True),
    Field("limit_min", "smallest value that is accepted", allowed="a number", optional=True),
    Field("uncertainty", "expanded uncertainty of the value, k = 2", allowed="0 or more", optional=True),
    Field("rule", "how it is decided", form=CHOICE, choices=RULES, default=RULES[0]),
)
"""Fields that every kind with a judged value takes besides its own; in the unit of that value."""


class Outcome(NamedTuple):
    """What was computed, and how it lies."""

    result: Result
    decision: Decision | None
    value: Decimal | None = None
    """The judged value without the noise of the computing."""
    ends: tuple[Decimal | None, ...] = ()
    """The limits that it was held against."""

    @property
    def verdict(self) -> str:
        """accept, reject, inconclusive; empty where nothing was held against anything."""
        return verdict_of(self.result.verdict, self.decision.verdict if self.decision else "")


def fields_of(kind: Kind) -> tuple[Field, ...]:
    """All fields that a measurement of this kind takes."""
    if not kind.judged:
        return kind.fields
    unit = judged_unit(kind.name)
    return (*kind.fields, *(one._replace(unit=unit) if one.form == NUMBER else one for one in JUDGING))


@cache
def judged_unit(name: str) -> str:
    """Unit of the judged value, as the kind's example gives it."""
    kind = all_kinds().get(name)
    if kind is None:
        return ""
    values = kind.compute(**checked(kind.fields, kind.example)).values
    return next(one.unit for one in values if one.name == kind.judged)


def measure(kind: Kind, given: Mapping[str, Any]) -> Outcome:
    """Computes; raises `BadInput` for a field that is unknown, missing or out of what is allowed."""
    values = checked(fields_of(kind), given)
    limits = {field.name: values.pop(field.name) for field in JUDGING if kind.judged}
    result = computed(kind, values)
    judged = result.named(kind.judged) if kind.judged else None
    if judged is None:
        _needless(limits, result)
        return Outcome(result, None)
    value = without_noise(float(judged), numbers_in(kind, values, judged_unit(kind.name)))
    return _held(kind, result, value, limits)


def _held(kind: Kind, result: Result, value: Decimal, limits: dict[str, Any]) -> Outcome:
    """The judged value against the limits that came with it."""
    if limits["limit_max"] is not None and limits["limit_min"] is None:
        result, limits = below_zero(kind, result), {**limits, "limit_min": either_way(kind, limits["limit_max"])}
    ends = tuple(None if limits[one] is None else Decimal(repr(limits[one])) for one in ("limit_min", "limit_max"))
    return Outcome(result, _decision(float(value), **limits), value, ends)


Numbers = list[Decimal]
NOISE = 12
"""Decimal places below the first digit of the largest number that goes in: beyond these a float holds nothing."""


def numbers_in(kind: Kind, given: Mapping[str, Any], unit: str) -> Numbers:
    """Every number of the fields that measure what a unit measures, in that unit."""
    fields = [(one, factor(one.unit, unit)) for one in kind.fields]
    held = [(times, _flat(given.get(field.name))) for field, times in fields if times is not None]
    return [Decimal(repr(float(one))) * times for times, many in held for one in many]


def _flat(held: Any) -> list[float]:
    if isinstance(held, list):
        return [each for one in held for each in _flat(one)]
    return [held] if isinstance(held, int | float) else []


def without_noise(value: float, numbers: Numbers) -> Decimal:
    """A computed value to twelve digits, and no finer than the numbers that it comes from can tell.

    >>> without_noise(340.103 - 340.1, [Decimal("340.103"), Decimal("340.1")]), 340.103 - 340.1
    (Decimal('0.003'), 0.002999999999985903)
    """
    rounded = Decimal(f"{value:.12g}")
    largest = max((one for one in map(abs, numbers) if one), default=None)
    if largest is None:
        return rounded
    return rounded.quantize(Decimal(1).scaleb(largest.adjusted() - NOISE), context=Context(prec=DIGITS)).normalize() + 0


SIZE_COUNTS = "The value is a deviation and there is no lower limit: its size was held against the upper one."
GOES_WRONG = "The value is below 0, which no sound reading gives, and no lower limit says how far it may be."


def under_limit(kind: Kind, limit: Limit | None, result: Result) -> Result:
    """The result under a check's limit."""
    bare = limit is not None and limit.max is not None and limit.min is None and not limit.compare
    return below_zero(kind, result) if bare else result


def either_way(kind: Kind, most: float) -> float | None:
    """The lower limit that a bare upper one stands for: of a deviation as much the other way."""
    return -most if kind.below_zero == DEVIATION and most >= 0 else None


def below_zero(kind: Kind, result: Result) -> Result:
    """The result under a bare upper limit: what a value below 0 means is said, and nothing proved by the wrong way."""
    judged = result.named(kind.judged) if kind.judged else None
    if judged is None or judged >= 0 or not kind.below_zero:
        return result
    if kind.below_zero == DEVIATION:
        return result._replace(notes=(*result.notes, SIZE_COUNTS))
    return result._replace(notes=(*result.notes, GOES_WRONG), verdict=result.verdict or "inconclusive")


def computed(kind: Kind, values: Mapping[str, Any]) -> Result:
    """The result of checked fields; raises `BadInput` where they leave what can be reckoned with."""
    within = "fields that are not so far apart in size"
    try:
        result = kind.compute(**values)
    except ArithmeticError as wrong:
        raise BadInput(kind.name, f"not to be reckoned ({wrong})", within) from None
    for one in result.values:
        if isinstance(one.value, float) and not math.isfinite(one.value):
            raise BadInput(one.name, one.value, within)
    return result


def verdict_of(own: str, by_limit: str) -> str:
    """What a kind itself says (a reading that cannot be, a class that is missed) goes before a limit that accepts.

    >>> verdict_of("inconclusive", "accept"), verdict_of("accept", "reject"), verdict_of("", "accept")
    ('inconclusive', 'reject', 'accept')
    """
    return by_limit if by_limit and own in ("", "accept") else own


def _needless(limits: Mapping[str, Any], result: Result) -> None:
    """A limit on a value that did not come out is said, unless the kind itself says why there is none."""
    given = next((name for name in ("limit_max", "limit_min", "uncertainty") if limits.get(name) is not None), "")
    if given and not result.verdict:
        raise BadInput(given, limits[given], "left out, or with what the judged value is computed from (a reference)")


def checked(fields: Sequence[Field], given: Mapping[str, Any]) -> dict[str, Any]:
    """Every field with its value, or what stands for one that is left out; raises `BadInput`."""
    known = {field.name: field for field in fields}
    for name, value in given.items():
        if name not in known:
            raise BadInput(name, value, "one of the fields " + ", ".join(known))
    return {name: _value(field, given.get(name)) for name, field in known.items()}


def _value(field: Field, value: Any) -> Any:
    if value is None:
        if field.default is None and not field.optional:
            raise BadInput(field.name, "missing", _allowed(field))
        return field.default
    if field.form == NUMBER:
        return _sized(field, field.name, value)
    if field.form in (NUMBERS, TABLE):
        return _row(field, field.name, value, deep=field.form == TABLE)
    if field.form == TEXT and not isinstance(value, str):
        raise BadInput(field.name, _short(value), _allowed(field))
    if field.form == CHOICE and value not in field.choices:
        raise BadInput(field.name, _short(value), _allowed(field))
    return value


LARGEST = 10.0**SIZE
"""Larger numbers, and smaller ones than its inverse other than 0, are slips of the finger."""


def _sized(field: Field, name: str, value: Any) -> float:
    """A number of a size that things have."""
    allowed = _allowed(field)
    if isinstance(value, int) and abs(value) > LARGEST:
        raise BadInput(name, _short(value), allowed)
    shown: Any = value if isinstance(value, int | float) else _short(value)
    found = number(name, shown, allowed)
    if found and not 1 / LARGEST <= abs(found) <= LARGEST:
        raise BadInput(name, found, f"{allowed}, 0 or a size from 1e-{SIZE} to 1e{SIZE}")
    return found


def _row(field: Field, name: str, value: Any, *, deep: bool) -> list[Any]:
    """A list of numbers, or of lists of them."""
    if not isinstance(value, list):
        raise BadInput(name, _short(value), _allowed(field))
    places = [(f"{name}, no. {n}", one) for n, one in enumerate(value, 1)]
    return [_row(field, at, one, deep=False) if deep else _sized(field, at, one) for at, one in places]


def _short(value: Any) -> str:
    try:
        said = repr(value)
    except ValueError:  # a whole number of too many digits
        said = "a number without end"
    return said if len(said) <= 60 else said[:57] + "..."


def _allowed(field: Field) -> str:
    """What a field may hold, in words."""
    said = field.allowed or ("one of " + ", ".join(field.choices) if field.choices else f"a {field.form}")
    return f"{said} {field.unit}".strip() if field.unit and field.unit not in said else said


def _decision(
    value: float, *, limit_min: float | None, limit_max: float | None, uncertainty: float | None, rule: str
) -> Decision | None:
    low, high, size = limit_min, limit_max, uncertainty
    if low is None and high is None:
        if size is not None:
            raise BadInput("uncertainty", size, "only together with limit_max or limit_min")
        return None
    if low is not None and high is not None and low > high:
        raise BadInput("limit_min", low, f"at most limit_max ({high})")
    return decide(value, low=low, high=high, uncertainty=size, rule=rule)
