"""Limits of checks as people write them: `{ max = "0.02 mm" }`, or in one text, `max 0.02 mm`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from attrs import evolve, frozen

from teardown_app.domain.limit import COMPARISONS, Limit
from teardown_app.intake.headings import LIMIT_KEYS
from teardown_app.intake.numbers import read_number, settled_mark
from teardown_app.intake.sheet import as_text
from teardown_app.intake.told import Told, spaced

_QUANTITY = re.compile(r"([+\-−]?\s*[0-9.,][0-9.,'’]*(?: [0-9]{3})*)\s*([^0-9].*)?")
_NUMBER = re.compile(r"[0-9][0-9.,'’]*[0-9]|[0-9]")
_SIDE = re.compile(r"(max|maximum|at most|<=|≤|<|min|minimum|at least|>=|≥|>)\.?\s*(.+)", re.IGNORECASE)
_BAND = re.compile(r"(.+?)\s*(?:±|\+/-|\+-)\s*(.+)")
_FIT = re.compile(r"(.+?)\s*\b([A-Za-z]{1,2}[0-9]{1,2}(?:/[A-Za-z]{1,2}[0-9]{1,2})?)")
_ROOM = re.compile(r"\+\s*([0-9.,]+)\s*/\s*([-−]?\s*[0-9.,]+)\s*(.*)")
_COMPARE = re.compile(r"(?:compare(?:d)?(?: (?:to|with))?|as)\s*[:=]?\s*(.+)", re.IGNORECASE)
_COUNT = re.compile(r"count\s*[:=]?\s*([0-9]+)", re.IGNORECASE)
_PICTURE = re.compile(r"picture\s*[:=]?\s*(.*)", re.IGNORECASE)
_MOST = ("max", "maximum", "at most", "<=", "≤", "<")


@frozen
class _Quantity:
    value: Decimal
    unit: str


def limit_mark(checks: Iterable[Told]) -> str:
    """The decimal mark that all unambiguous numbers in the limits of a file agree on."""
    return settled_mark(number for told in checks for text in _texts(told) for number in _NUMBER.findall(text))


def _texts(told: Told) -> list[str]:
    limit = told.values.get("limit", "")
    values = list(limit.values()) if isinstance(limit, dict) else [limit]
    values += [told.values.get(key, "") for key in LIMIT_KEYS]
    return [value for value in values if isinstance(value, str)]


def read_limit(told: Told, mark: str) -> Limit | None:
    """The limit of a check, from `limit` or from keys of its own; None when there is none or it is wrong."""
    given = told.values.get("limit", "")
    own = {key: told.values[key] for key in LIMIT_KEYS if key in told.values}
    reader = _Reader(told, mark)
    if isinstance(given, dict):
        told.findings.notes.extend(_unknown(told, given))
        return reader.from_keys({**own, **given})
    if own:
        return reader.from_keys(own)
    if isinstance(given, bool) or not isinstance(given, str | int | Decimal):
        told.wrong("limit", 'is not a limit; write { max = "0.02 mm" }')
        return None
    text = told.text("limit")
    return reader.from_text(text) if text else None


def _unknown(told: Told, given: dict[str, Any]) -> list[Any]:
    from_told = Told(given, lambda key: told.place("limit"), type(told.findings)())
    from_told.note_unknown(LIMIT_KEYS)
    return from_told.findings.notes


@frozen
class _Reader:
    told: Told
    mark: str

    def from_keys(self, given: dict[str, Any]) -> Limit | None:
        """Limit from `max`, `min`, `nominal` and so on."""
        known = {key: given[key] for key in LIMIT_KEYS if key in given and given[key] not in ("", None)}
        if not known:
            return self._wrong(f"says none of {', '.join(LIMIT_KEYS)}")
        limit: Limit | None = Limit(_written(known))
        for step in (self._bounds, self._nominal, self._rest):
            limit = step(limit, known) if limit is not None else None
        return limit

    def _bounds(self, limit: Limit, given: dict[str, Any]) -> Limit | None:
        for key in ("max", "min"):
            if key not in given:
                continue
            quantity = self._quantity(given[key])
            if quantity is None:
                return None
            if limit.unit and quantity.unit != limit.unit:
                return self._wrong(f"has {limit.unit} and {quantity.unit}; write both in one unit")
            limit = evolve(limit, unit=quantity.unit, **{key: quantity.value})
        if limit.max is not None and limit.min is not None and limit.min > limit.max:
            return self._wrong(f"has min {limit.min} above max {limit.max}; change them round")
        return limit

    def _nominal(self, limit: Limit, given: dict[str, Any]) -> Limit | None:
        if not {"nominal", "tolerance", "fit"} & given.keys():
            return limit
        if "nominal" not in given or not {"tolerance", "fit"} & given.keys():
            return self._wrong("needs nominal together with tolerance or fit")
        nominal = self._quantity(given["nominal"])
        if nominal is None:
            return None
        limit = evolve(limit, nominal=nominal.value, unit=nominal.unit or limit.unit)
        if "fit" in given:
            return self._fit(limit, given["fit"])
        return self._tolerance(limit, given["tolerance"])

    def _fit(self, limit: Limit, given: Any) -> Limit | None:
        found = _FIT.fullmatch(f"0 {given}") if isinstance(given, str) else None
        return evolve(limit, fit=found[2]) if found else self._wrong(f"fit “{given}” is no fit class; write H7 or g6")

    def _tolerance(self, limit: Limit, given: Any) -> Limit | None:
        room = _ROOM.fullmatch(given.strip()) if isinstance(given, str) else None
        upper = self._quantity(f"{room[1]} {room[3]}" if room else _without_sign(given))
        lower = self._quantity(f"{room[2]} {room[3]}") if room else upper
        if upper is None or lower is None:
            return None
        down = lower.value if room else -lower.value
        if upper.unit and limit.unit and upper.unit != limit.unit:
            return self._wrong(f"has {limit.unit} and {upper.unit}; write both in one unit")
        if down > upper.value:
            return self._wrong(f"has a lower deviation {down} above the upper {upper.value}")
        nominal = limit.nominal or Decimal(0)
        return evolve(
            limit, tolerance=(down, upper.value), min=nominal + down, max=nominal + upper.value, unit=limit.unit or upper.unit
        )

    def _rest(self, limit: Limit, given: dict[str, Any]) -> Limit | None:
        if "compare" in given:
            word = spaced(str(given["compare"]))
            if word not in COMPARISONS:
                return self._wrong(f"compare “{given['compare']}” is not known; write one of {', '.join(COMPARISONS)}")
            limit = evolve(limit, compare=word)
        if "count" in given:
            count = self.told.whole("count", None, 0) if "count" in self.told.values else _whole(given["count"])
            if count is None:
                return self._wrong(f"count “{given['count']}” is not a whole number")
            limit = evolve(limit, count=count)
        if "picture" in given:
            limit = evolve(limit, picture="yes" if given["picture"] is True else str(given["picture"]).strip())
        return limit

    def from_text(self, text: str) -> Limit | None:
        """Limit from one text."""
        given = _keys_of(text)
        if given:
            limit = self.from_keys(given)
            return evolve(limit, text=text) if limit else None
        if _QUANTITY.fullmatch(text) and self._quantity(text):
            place = self.told.place("limit")
            self.told.findings.note(place, f"limit “{text[:40]}” says neither max nor min; a person judges it")
            return Limit(text)
        if not _QUANTITY.fullmatch(text):
            self._wrong(f"“{text[:40]}” is not understood; write max 0.02 mm, min 5 N, 20 ±0.01 mm, 20 mm H7, count 4")
        return None

    def _quantity(self, given: Any) -> _Quantity | None:
        if isinstance(given, bool) or not isinstance(given, str | int | Decimal):
            return self._wrong(f"“{given}” is not a quantity; write it like 0.02 mm")
        if not isinstance(given, str):
            number = Decimal(given)
            return _Quantity(number, "") if number.is_finite() else self._wrong(f"{given} is not a number")
        found = _QUANTITY.fullmatch(given.strip())
        if not found:
            return self._wrong(f"“{given[:40]}” is not a quantity; write it like 0.02 mm")
        read = read_number(re.sub(r"^([+\-−])\s+", r"\1", found[1]), self.mark)
        if read.value is None:
            return self._wrong(f"“{given[:40]}” {read.trouble}")
        return _Quantity(read.value, (found[2] or "").strip())

    def _wrong(self, message: str) -> None:
        self.told.wrong("limit" if "limit" in self.told.values else _own_key(self.told), message)


def _own_key(told: Told) -> str:
    return next((key for key in LIMIT_KEYS if key in told.values), "limit")


def _keys_of(text: str) -> dict[str, Any]:
    """The keys that a limit in one text stands for; empty when it is not understood."""
    side = _SIDE.fullmatch(text)
    if side:
        return {"max" if side[1].casefold() in _MOST else "min": side[2]}
    band, fit = _BAND.fullmatch(text), _FIT.fullmatch(text)
    if band:
        unit = _QUANTITY.fullmatch(band[2].strip())
        nominal = band[1] if re.search(r"[^\W\d]|[%°]", band[1]) else f"{band[1]} {unit[2] or '' if unit else ''}"
        return {"nominal": nominal.strip(), "tolerance": band[2]}
    if fit and _QUANTITY.fullmatch(fit[1].strip()):
        return {"nominal": fit[1].strip(), "fit": fit[2]}
    if spaced(text) in COMPARISONS:
        return {"compare": text}
    for key, form in (("compare", _COMPARE), ("count", _COUNT), ("picture", _PICTURE)):
        found = form.fullmatch(text)
        if found:
            return {key: found[1].strip() or True}
    return {}


def _written(given: dict[str, Any]) -> str:
    """A limit as it would be written in one text."""
    said = {key: as_text(Decimal(value)) if isinstance(value, int) and not isinstance(value, bool) else str(value) for key, value in given.items()}
    if "nominal" in said:
        rest = f" ±{said['tolerance']}" if "tolerance" in said and said["tolerance"][:1] not in "+±" else ""
        rest = rest or (f" {said['tolerance']}" if "tolerance" in said else f" {said.get('fit', '')}")
        said = {"": said["nominal"] + rest}
    return " ".join(f"{key} {value}".strip() for key, value in said.items())


def _without_sign(given: Any) -> Any:
    return re.sub(r"^\s*(±|\+/-|\+-)\s*", "", given) if isinstance(given, str) else given


def _whole(given: Any) -> int | None:
    number = read_number(given).value if isinstance(given, str) else given
    if isinstance(number, bool) or not isinstance(number, int | Decimal) or number != int(number) or number < 0:
        return None
    return int(number)
