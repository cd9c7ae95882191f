"""A bill as the bytes that a job freezes, and back. The same bill gives the same bytes everywhere."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

import cattrs
from cattrs.preconf.json import make_converter

from teardown_app.domain.bill import Bill

FORMAT = "bill 1"


class NotABill(ValueError):
    """The bytes hold no bill that this app can read."""


def dump(bill: Bill) -> bytes:
    """The whole bill as one line of JSON with sorted keys."""
    held = {"format": FORMAT, "bill": _converter().unstructure(bill)}
    return json.dumps(
        held, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False
    ).encode()


def load(data: bytes) -> Bill:
    """The bill that `dump` wrote."""
    try:
        held = json.loads(data)
    except ValueError as error:
        raise NotABill("is no bill: not JSON") from error
    if not isinstance(held, dict) or held.get("format") != FORMAT:
        raise NotABill(f"is no bill of the form “{FORMAT}”")
    try:
        bill: Bill = _converter().structure(held["bill"], Bill)
    except (cattrs.BaseValidationError, KeyError, TypeError, ValueError, ArithmeticError) as error:
        raise NotABill("is no bill: a field is missing or wrong") from error
    return bill


def _converter() -> Any:
    converter = make_converter()
    converter.register_unstructure_hook(Decimal, str)
    converter.register_structure_hook(Decimal, lambda value, _: Decimal(value))
    return converter
