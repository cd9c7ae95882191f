"""A field of a kind of measurement as typed, at whatever door, made into a value in the field's unit."""

from __future__ import annotations

import re
from typing import Any

from teardown_app.domain.measure.reading import Quantity, factor, read_quantity
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import NUMBER, NUMBERS, TABLE, Field


def meant(field: Field, typed: str) -> Any:
    """One field as typed on the command line or in a cell; several numbers are separated by blanks or semicolons.

    >>> meant(Field("t", "", "degC"), "22,5 degC"), meant(Field("r", "", form=NUMBERS), "1.5; 2")
    (22.5, [1.5, 2.0])
    """
    if field.form == NUMBERS:
        return [number_meant(field, one) for one in re.split(r";|\s+(?=[+\-.,\d])", typed.strip()) if one.strip()]
    return _meant(field, typed)


def value_meant(field: Field, value: Any) -> Any:
    """One field as a file of names and values holds it: a text, a number, or lists of either."""
    return meant(field, value) if isinstance(value, str) else _meant(field, value)


def _meant(field: Field, value: Any) -> Any:
    if isinstance(value, str) and field.form in (NUMBER, NUMBERS, TABLE):
        return number_meant(field, value)
    if isinstance(value, list) and field.form in (NUMBERS, TABLE):
        return [_meant(field, one) for one in value]
    return value.strip() if isinstance(value, str) else value


def number_meant(field: Field, typed: str) -> float:
    """A number as typed, in the field's unit; raises `BadInput`."""
    read = read_quantity(typed)
    if read is None:
        raise BadInput(field.name, typed, f"a number{f' in {field.unit}' if field.unit else ''}")
    return converted(field, read)


def converted(field: Field, read: Quantity, heading: str = "") -> float:
    """A number in the field's unit; `heading` is the unit of those that have none of their own."""
    unit = read.unit or heading
    if not unit or unit == field.unit:
        return float(read.value)
    times = factor(unit, field.unit)
    if times is None:
        raise BadInput(field.name, f"{read.text} {unit}", f"a number in {field.unit or 'no unit'}")
    return float(read.value * times)
