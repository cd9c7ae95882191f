"""Limits of checks as people write them: `{ max = "0.02 mm" }`, or in one text, `max 0.02 mm`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from attrs import evolve, frozen

from teardown_app.domain.bill.limit import COMPARISONS, Limit
from teardown_app.intake.headings import LIMIT_KEYS
from teardown_app.intake.limit_words import FIT_CLASS, NUMBER, QUANTITY, ROOM, keys_of, written
from teardown_app.intake.numbers import read_number, settled_mark
from teardown_app.intake.told import Told, spaced


class WrongLimit(ValueError):
    """The limit cannot be meant so; the message says why."""


@frozen
class _Quantity:
    value: Decimal
    unit: str


def limit_mark(checks: Iterable[Told]) -> str:
    """The decimal mark that all unambiguous numbers in the limits of a file agree on."""
    return settled_mark(number for told in checks for text in _texts(told) for number in NUMBER.findall(text))


def _texts(told: Told) -> list[str]:
    limit = told.values.get("limit", "")
    values = list(limit.values()) if isinstance(limit, dict) else [limit]
    values += [told.values.get(key, "") for key in LIMIT_KEYS]
    return [value for value in values if isinstance(value, str)]


def read_limit(told: Told, mark: str) -> Limit | None:
    """The limit of a check, from `limit` or from keys of its own; None when there is none or it is wrong."""
    given = told.values.get("limit", "")
    own = {key: told.values[key] for key in LIMIT_KEYS if key in told.values}
    try:
        if isinstance(given, dict):
            _note_unknown(told, given)
            return _from_keys({**own, **given}, mark)
        return _from_keys(own, mark) if own else _from_text(told, given, mark)
    except WrongLimit as wrong:
        told.wrong("limit" if "limit" in told.values or not own else next(iter(own)), str(wrong))
        return None


def _note_unknown(told: Told, given: Mapping[str, Any]) -> None:
    for key in given:
        if key not in LIMIT_KEYS:
            told.findings.note(told.place("limit"), f"“{key}” in the limit is not known and not read")


def _from_text(told: Told, given: Any, mark: str) -> Limit | None:
    if isinstance(given, bool) or not isinstance(given, str | int | Decimal):
        raise WrongLimit('is not a limit; write { max = "0.02 mm" }')
    text = told.text("limit")
    if not text:
        return None
    keys = keys_of(text)
    if keys:
        return evolve(_from_keys(keys, mark), text=text)
    if not QUANTITY.fullmatch(text):
        raise WrongLimit(f"“{text[:40]}” is not understood; write it like max 0.02 mm, 20 ±0.01 mm or 20 mm H7")
    _quantity(text, mark)
    told.findings.note(told.place("limit"), f"“{text[:40]}” says neither max nor min; a person judges it")
    return Limit(text)


def _from_keys(given: Mapping[str, Any], mark: str) -> Limit:
    known = {key: given[key] for key in LIMIT_KEYS if given.get(key, "") not in ("", None)}
    if not known:
        raise WrongLimit(f"says none of {', '.join(LIMIT_KEYS)}")
    limit = _with_nominal(_with_bounds(Limit(written(known)), known, mark), known, mark)
    return _with_others(limit, known)


def _with_bounds(limit: Limit, given: Mapping[str, Any], mark: str) -> Limit:
    if "max" in given:
        most = _quantity(given["max"], mark)
        limit = evolve(limit, max=most.value, unit=most.unit)
    if "min" in given:
        least = _quantity(given["min"], mark)
        limit = evolve(limit, min=least.value, unit=_one_unit(limit.unit, least.unit))
    if limit.max is not None and limit.min is not None and limit.min > limit.max:
        raise WrongLimit(f"has min {limit.min} above max {limit.max}; change them round")
    return limit


def _with_nominal(limit: Limit, given: Mapping[str, Any], mark: str) -> Limit:
    if not {"nominal", "tolerance", "fit"} & given.keys():
        return limit
    if "nominal" not in given or not {"tolerance", "fit"} & given.keys():
        raise WrongLimit("needs nominal together with tolerance or fit")
    nominal = _quantity(given["nominal"], mark)
    limit = evolve(limit, nominal=nominal.value, unit=_one_unit(limit.unit, nominal.unit))
    if "fit" in given:
        return evolve(limit, fit=_fit(given["fit"]))
    return _with_tolerance(limit, nominal.value, given["tolerance"], mark)


def _fit(given: Any) -> str:
    if not isinstance(given, str) or not FIT_CLASS.fullmatch(given.strip()):
        raise WrongLimit(f"fit “{given}” is no fit class; write H7 or g6")
    return given.strip()


def _with_tolerance(limit: Limit, nominal: Decimal, given: Any, mark: str) -> Limit:
    lower, upper, unit = _room(given, mark)
    if lower > upper:
        raise WrongLimit(f"has a lower deviation {lower} above the upper {upper}; change them round")
    unit = _one_unit(limit.unit, unit)
    return evolve(limit, tolerance=(lower, upper), min=nominal + lower, max=nominal + upper, unit=unit)


def _room(given: Any, mark: str) -> tuple[Decimal, Decimal, str]:
    """Lower and upper deviation: `0.01 mm` is ±, `+0.02/-0.01 mm` says both."""
    both = ROOM.fullmatch(given.strip()) if isinstance(given, str) else None
    if both:
        upper, lower = _quantity(f"{both[1]} {both[3]}", mark), _quantity(f"{both[2]} {both[3]}", mark)
        return lower.value, upper.value, upper.unit
    one = _quantity(re.sub(r"^\s*(±|\+/-|\+-)\s*", "", given) if isinstance(given, str) else given, mark)
    return -one.value, one.value, one.unit


def _with_others(limit: Limit, given: Mapping[str, Any]) -> Limit:
    if "compare" in given:
        limit = evolve(limit, compare=_comparison(given["compare"]))
    if "count" in given:
        limit = evolve(limit, count=_count(given["count"]))
    if "picture" in given:
        picture = given["picture"]
        limit = evolve(limit, picture="yes" if picture is True else str(picture).strip())
    return limit


def _comparison(given: Any) -> str:
    word = spaced(str(given))
    if word not in COMPARISONS:
        raise WrongLimit(f"compare “{str(given)[:40]}” is not known; write one of {', '.join(COMPARISONS)}")
    return word


def _count(given: Any) -> int:
    number = None if isinstance(given, bool | list | dict) else read_number(str(given)).value
    if number is None or number != number.to_integral_value() or number < 0:
        raise WrongLimit(f"count “{str(given)[:40]}” is not a whole number of 0 or more")
    return int(number)


def _one_unit(one: str, other: str) -> str:
    if one and other and one != other:
        raise WrongLimit(f"has {one} and {other}; write both in one unit")
    return one or other


def _quantity(given: Any, mark: str) -> _Quantity:
    """Number and unit."""
    if isinstance(given, int | Decimal) and not isinstance(given, bool) and Decimal(given).is_finite():
        return _Quantity(Decimal(given), "")
    found = QUANTITY.fullmatch(given.strip()) if isinstance(given, str) else None
    if not found:
        raise WrongLimit(f"“{str(given)[:40]}” is not a quantity; write it like 0.02 mm")
    read = read_number(re.sub(r"^([+\-−])\s+", r"\1", found[1]), mark)
    if read.value is None:
        raise WrongLimit(f"“{str(given)[:40]}” {read.trouble}")
    return _Quantity(read.value, (found[2] or "").strip())
