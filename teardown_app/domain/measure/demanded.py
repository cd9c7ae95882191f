"""What the bill decides of a measurement: its limit, its rule, every field that it gives. Nobody replaces these."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from teardown_app.domain.bill.check import RULES, VALUES_RULES, Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.measure.judging import band
from teardown_app.domain.measure.measuring import JUDGING, checked, judged_unit
from teardown_app.domain.measure.typed import meant, value_meant
from teardown_app.domain.measure.units import factor
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import NUMBER, Field, Kind
from teardown_app.metrology.kinds import all_kinds

FROM_LIMIT: dict[str, dict[str, str]] = {
    "roughness": {"limit": "max", "rule": "values_rule"},
    "roughness-trace": {"limit": "max"},
    "fit": {"nominal": "nominal", "fit": "fit"},
}
"""Fields of a kind that the limit of a check says already, or its rule for several values."""


def kind_of(check: Check) -> Kind | None:
    """The kind of measurement that the bill's `type` names; None for a word of the shop's own."""
    return all_kinds().get("-".join(str(check.type).casefold().split()))


def given_fields(kind: Kind, given: Sequence[str]) -> dict[str, Any]:
    """What a bill knows beforehand of a kind: `voltage = 208 V` as its fields."""
    known = {one.name: one for one in kind.fields}
    told = [[part.strip() for part in one.partition("=")] for one in given]
    return {name: meant(known[name], value) for name, _, value in told if name in known}


def implied_fields(kind: Kind, check: Check) -> dict[str, Any]:
    """What the limit of a check says of the kind's fields.

    >>> ra = Check("ra", type="roughness", limit=Limit("max 0.4 um", max=Decimal("0.4"), unit="um"))
    >>> implied_fields(kind_of(ra), ra)
    {'limit': 0.4, 'rule': 'maximum'}
    """
    if check.limit is None or check.limit.compare:
        return {}
    fields = {one.name: one for one in kind.fields}
    said = {name: _said(check, check.limit, word) for name, word in FROM_LIMIT.get(kind.name, {}).items()}
    try:
        return {name: value_meant(fields[name], value) for name, value in said.items() if value}
    except BadInput:  # a limit of another sort than the kind: told when something is held against it
        return {}


def _said(check: Check, limit: Limit, word: str) -> str:
    if word == "values_rule":
        return (check.values_rule or VALUES_RULES[0]) if limit.max is not None else ""
    value = getattr(limit, word)
    return f"{value} {limit.unit}" if isinstance(value, Decimal) else value or ""


def demanded(kind: Kind, check: Check) -> dict[str, Any]:
    """Every field that the bill decides."""
    return {**implied_fields(kind, check), **given_fields(kind, check.given)}


def whole_fields(kind: Kind, check: Check, given: Mapping[str, Any]) -> dict[str, Any]:
    """What somebody brings, with what the bill decides and what is taken where a field is left out.

    Raises `BadInput` where it is no input, or says anything else than the bill does.
    """
    return checked(kind.fields, held_to(kind, check, given))


def held_to(kind: Kind, check: Check, given: Mapping[str, Any]) -> dict[str, Any]:
    """What somebody brings and what the bill decides; raises `BadInput` where they differ."""
    rest = _without_limits(kind, check, given)
    decided = demanded(kind, check)
    for name, value in decided.items():
        if rest.get(name) is not None and not is_same(rest[name], value):
            raise BadInput(name, rest[name], f"{value} only: the bill decides that")
    for field in kind.fields:
        if _is_bills(kind, field) and field.name not in decided and rest.get(field.name) not in (None, field.default):
            raise BadInput(field.name, rest[field.name], "left out: only the bill may say it, and it does not")
    return {**rest, **decided}


def _is_bills(kind: Kind, field: Field) -> bool:
    return field.name in kind.demands and (field.optional or field.default is not None)


def _without_limits(kind: Kind, check: Check, given: Mapping[str, Any]) -> dict[str, Any]:
    """Limits and rule that `measure` takes from a file: let be where they are the bill's own."""
    ours = _limits(kind, check) if kind.judged else {}
    for name, value in ours.items():
        if given.get(name) is not None and not is_same(given[name], value):
            raise BadInput(name, given[name], "left out: the limit and the rule are the bill's")
    return {name: value for name, value in given.items() if name not in ours}


def _limits(kind: Kind, check: Check) -> dict[str, Any]:
    limit = band(check.limit) if check.limit else None
    times = factor(limit.unit, judged_unit(kind.name)) if limit else None
    ends = {"limit_max": limit.max, "limit_min": limit.min} if limit and times is not None else {}
    found = {name: None if end is None else float(end * (times or 1)) for name, end in ends.items()}
    return {**dict.fromkeys(one.name for one in JUDGING if one.form == NUMBER and one.name != "uncertainty"), **found,
            "rule": check.rule or RULES[0]}  # fmt: skip


def is_same(one: Any, other: Any) -> bool:
    """Whether two values of a field are one, but for the rounding of a converted unit."""
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(is_same, one, other))
    if isinstance(one, int | float) and isinstance(other, int | float):
        return math.isclose(one, other, rel_tol=1e-12)
    return bool(one == other)
