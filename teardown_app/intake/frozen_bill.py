"""A bill as the bytes that a job freezes, and back. The same bill gives the same bytes everywhere."""

from __future__ import annotations

import json
from collections.abc import Callable
from decimal import Decimal, InvalidOperation
from functools import cache
from types import NoneType, UnionType
from typing import Any, get_args, get_origin, get_type_hints

import attrs

from teardown_app.domain.bill.bill import Bill, Joint
from teardown_app.domain.ledger.harmless import harmless_all

FORMAT = "bill 1"

ADDED: dict[Any, frozenset[str]] = {Joint: frozenset({"tolerance_percent"})}
"""Fields that bills frozen before they were there lack: they get what an empty cell gets."""


class NotABill(ValueError):
    """The bytes hold no bill that this app can read."""


def dump(bill: Bill) -> bytes:
    """The whole bill as one line of JSON with sorted keys; decimal numbers as text, so none is rounded."""
    held = {"format": FORMAT, "bill": attrs.asdict(bill, value_serializer=_plain)}
    text = json.dumps(held, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)
    return text.encode("utf-8", "surrogatepass")


def load(data: bytes) -> Bill:
    """The bill that `dump` wrote."""
    try:
        held = json.loads(data.decode("utf-8", "surrogatepass"))
    except ValueError as error:
        raise NotABill("is no bill: not JSON") from error
    if not isinstance(held, dict) or held.get("format") != FORMAT:
        raise NotABill(f"is no bill of the form “{FORMAT}”")
    bill: Bill = _made(Bill, held.get("bill"))
    return bill


def _plain(_: object, __: object, value: Any) -> Any:
    return str(value) if isinstance(value, Decimal) else harmless_all(value) if isinstance(value, str) else value


def _made(wanted: Any, value: Any) -> Any:
    """A value of the wanted type from what JSON holds."""
    if attrs.has(wanted):
        return _instance(wanted, value)
    origin = get_origin(wanted)
    if origin is UnionType:
        return None if value is None else _made(next(each for each in get_args(wanted) if each is not NoneType), value)
    if origin is tuple:
        return _tuple(get_args(wanted), value)
    if origin is dict:
        inner = get_args(wanted)[1]
        return {key: _made(inner, each) for key, each in _checked(dict, value).items()}
    return value if wanted is Any else _single(wanted, value)


def _single(wanted: type, value: Any) -> Any:
    if wanted is not Decimal:
        return harmless_all(_checked(wanted, value))
    try:
        return Decimal(_checked(str, value))
    except InvalidOperation as error:
        raise NotABill(f"is no bill: “{value}” is no number") from error


def _tuple(inner: tuple[Any, ...], value: Any) -> tuple[Any, ...]:
    found = _checked(list, value)
    wanted = inner[:1] * len(found) if inner[-1] is Ellipsis else inner
    if len(wanted) != len(found):
        raise NotABill(f"is no bill: a list has {len(found)} values, not {len(wanted)}")
    return tuple(map(_made, wanted, found))


def _instance(wanted: type, value: Any) -> Any:
    hints = _fields(wanted)
    given = _checked(dict, value)
    odd = (given.keys() ^ hints.keys()) - (ADDED.get(wanted, frozenset()) - given.keys())
    if odd:
        raise NotABill(f"is no bill: {wanted.__name__} lacks or does not know {', '.join(sorted(odd))}")
    make: Callable[..., Any] = wanted
    return make(**{name: _made(hint, given[name]) for name, hint in hints.items() if name in given})


@cache
def _fields(wanted: type) -> dict[str, Any]:
    hints = get_type_hints(wanted)
    return {each.name: hints[each.name] for each in attrs.fields(wanted)}


def _checked(wanted: type, value: Any) -> Any:
    if not isinstance(value, wanted) or (isinstance(value, bool) and wanted is not bool):
        raise NotABill(f"is no bill: {str(value)[:40]} where {wanted.__name__} was expected")
    return value
