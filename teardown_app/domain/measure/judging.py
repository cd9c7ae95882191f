"""A check's readings held against its limit by its rule: maximum or 16 %, simple, guarded or four-way.

The simple rule is exact, on the digits as typed; the others use `metrology.decision`.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any, NamedTuple

from attrs import evolve

from teardown_app.domain.bill.check import RULES, Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.measure.reading import is_numeric, read_quantity, verdict
from teardown_app.domain.measure.units import converted
from teardown_app.metrology.decision import Decision, decide
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.fit_class import deviations
from teardown_app.metrology.kinds.least import BELOW_ZERO, DEVIATION

SIMPLE, GUARDED, FOUR_WAY = RULES
SHARE_OVER = Decimal("0.16")
"""Of the readings, how many may lie over the limit by the 16 % rule (ISO 21920-3, ISO 4288)."""

WORST_LAST = ("accept", "inconclusive", "reject")


class Reading(NamedTuple):
    """Numbers read, in the limit's unit, with their expanded uncertainty (k = 2) where it is known."""

    limit: Limit
    values: tuple[Decimal, ...]
    uncertainty: Decimal | None

    @classmethod
    def of(cls, check: Check, body: Mapping[str, Any]) -> Reading | None:
        """As a record holds it; None where it holds no number that could be judged."""
        if check.limit is None:
            return None
        unit = check.limit.unit
        against = body.get("against")
        limit = limit_of(check, quantity_in(against, unit) if against else None)
        many = [{"text": text, "unit": ""} for text in body.get("readings") or ()]
        values = [quantity_in(one, unit) for one in many or ([body["value"]] if body.get("value") else [])]
        if limit is None or not values or any(value is None for value in values):
            return None
        known = body.get("uncertainty")
        read = tuple(value for value in values if value is not None)
        return cls(limit, read, quantity_in(known, unit) if known else None)


def limit_of(check: Check, against: Decimal | None = None) -> Limit | None:
    """The limit of a check as numbers. Under a bare `max` a deviation is held against it by its size.

    >>> sensor = Check("t", type="pt100", limit=Limit("max 0.5 K", max=Decimal("0.5"), unit="K"))
    >>> limit_of(sensor).min
    Decimal('-0.5')
    """
    found = band(check.limit, against) if check.limit else None
    if found is None or not is_size(check):
        return found
    return evolve(found, min=-found.max if found.max is not None else None)


def is_size(check: Check) -> bool:
    """True where the upper limit alone is given for what may lie either way."""
    limit, kind = check.limit, "-".join(str(check.type).casefold().split())
    if limit is None or limit.max is None or limit.max < 0 or limit.min is not None or limit.compare:
        return False
    return BELOW_ZERO.get(kind) == DEVIATION


def band(limit: Limit, against: Decimal | None = None) -> Limit | None:
    """The limit as numbers, in its own unit; None where none decide.

    A fit class gives its limits of size (`metrology.fit_class`); a comparison with a difference allowed
    (`compare = "as found", max = "0.05 mm"`) gives a band around what it is compared with.

    >>> pair = Limit("compare pair, max 0.05 mm", max=Decimal("0.05"), unit="mm", compare="pair")
    >>> band(pair, Decimal("3.20")).max, band(pair)
    (Decimal('3.25'), None)
    """
    if limit.compare:
        if against is None or limit.max is None:
            return None
        return evolve(limit, min=against - limit.max, max=against + limit.max)
    if limit.fit and limit.nominal is not None and limit.unit == "mm":
        try:
            found = deviations(float(limit.nominal), limit.fit)
        except BadInput:
            return None
        low, high = (Decimal(f"{one:.4f}").normalize() for one in (found.lower, found.upper))
        return evolve(limit, min=limit.nominal + low, max=limit.nominal + high)
    return limit if is_numeric(limit) else None


class Judged(NamedTuple):
    """A verdict, and the reading that it hangs on."""

    verdict: str
    worst: Decimal
    decision: Decision | None
    """How the worst one lies, None where it is a count."""
    over: int
    """How many readings lie beyond the limit."""


def judge(check: Check, read: Reading) -> Judged:
    """All readings of a check together.

    >>> ra = Check("ra", limit=Limit("max 0.4 um", max=Decimal("0.4"), unit="um"), values_rule="16 %")
    >>> many = ["0.38 um"] * 6 + ["0.43 um"]
    >>> judge(ra, Reading.of(ra, {"readings": many})).verdict
    'accept'
    >>> judge(ra, Reading.of(ra, {"readings": many[1:]})).verdict
    'reject'
    """
    limit, values, uncertainty = read
    judged = [(_one(check, limit, value, uncertainty), value) for value in values]
    over = sum(verdict(limit, value) == "reject" for value in values)
    worst_word, worst = max(judged, key=lambda one: (WORST_LAST.index(one[0]), _beyond(limit, one[1])))
    if check.values_rule == "16 %" and len(values) > 1:
        worst_word = "accept" if Decimal(over) / len(values) <= SHARE_OVER else "reject"
    return Judged(worst_word, worst, _decision(check, limit, worst, uncertainty), over)


def _one(check: Check, limit: Limit, value: Decimal, uncertainty: Decimal | None) -> str:
    """By any other rule than the simple one a reading without uncertainty proves nothing either way."""
    if limit.count is not None or (check.rule or SIMPLE) == SIMPLE:
        return verdict(limit, value)
    decision = _decision(check, limit, value, uncertainty)
    return decision.verdict if decision else "inconclusive"


def _decision(check: Check, limit: Limit, value: Decimal, uncertainty: Decimal | None) -> Decision | None:
    rule = check.rule or SIMPLE
    if limit.count is not None or (rule != SIMPLE and not uncertainty):
        return None
    return decide(
        float(value),
        low=None if limit.min is None else float(limit.min),
        high=None if limit.max is None else float(limit.max),
        uncertainty=None if uncertainty is None else float(uncertainty),
        rule=rule,
    )


def _beyond(limit: Limit, value: Decimal) -> Decimal:
    """How far a value lies beyond the nearer end; negative within."""
    beyond = [value - limit.max] if limit.max is not None else []
    beyond += [limit.min - value] if limit.min is not None else []
    return max(beyond) if beyond else abs(value - (limit.count or 0))


def quantity_in(told: Mapping[str, str], unit: str) -> Decimal | None:
    """A quantity as a record holds it, in a unit; None where that measures something else."""
    read = read_quantity(f"{told.get('text', '')} {told.get('unit', '')}")
    return converted(read.value, read.unit or unit, unit) if read else None
