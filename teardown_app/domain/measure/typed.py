"""A field of a kind of measurement as typed, at whatever door, made into a value in the field's unit."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from teardown_app.domain.measure.reading import Quantity, could_be_either, read_quantity, settled_mark
from teardown_app.domain.measure.units import converted
from teardown_app.metrology.fault import BadInput
from teardown_app.metrology.kind import NUMBER, NUMBERS, TABLE, Field, Kind


class WithUnit(float):
    """A number whose unit was written with it, or over it."""


def meant(field: Field, typed: str, mark: str = "") -> Any:
    """One field as typed, at whatever door; several numbers are separated by blanks or semicolons.

    `mark` is the decimal mark that other numbers settled; what could be read in two ways raises `BadInput`.

    >>> meant(Field("t", "", "degC"), "22,5 degC"), meant(Field("r", "", form=NUMBERS), "1.5; 2")
    (22.5, [1.5, 2.0])
    """
    if field.form == NUMBERS:
        parts = [one for one in re.split(r";|\s+(?=[+\-.,\d])", typed.strip()) if one.strip()]
        return [number_meant(field, one, mark or settled_mark(parts)) for one in parts]
    return _meant(field, typed, mark)


def value_meant(field: Field, value: Any) -> Any:
    """One field as a file of names and values holds it: a text, a number, or lists of either."""
    mark = settled_mark(_texts(value))
    return meant(field, value, mark) if isinstance(value, str) else _meant(field, value, mark)


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, list):
        for one in value:
            yield from _texts(one)
    elif isinstance(value, str):
        yield value


def _meant(field: Field, value: Any, mark: str) -> Any:
    if isinstance(value, str) and field.form in (NUMBER, NUMBERS, TABLE):
        return number_meant(field, value, mark)
    if isinstance(value, list) and field.form in (NUMBERS, TABLE):
        return [_meant(field, one, mark) for one in value]
    return value.strip() if isinstance(value, str) else value


def number_meant(field: Field, typed: str, mark: str = "") -> float:
    """A number as typed, in the field's unit; raises `BadInput`."""
    return in_unit(field, quantity_meant(field.name, typed, f"a number{_in(field)}", mark))


def quantity_meant(place: str, typed: str, allowed: str, mark: str = "") -> Quantity:
    """A number with its unit as typed; raises `BadInput` where it is none, or could be two."""
    read = read_quantity(typed, mark)
    if read is None:
        either = could_be_either(typed)
        raise BadInput(place, typed or "empty", EITHER if either else allowed)
    return read


EITHER = "one that can be read in one way only: with a point, or without the comma"


def in_unit(field: Field, read: Quantity, heading: str = "") -> float:
    """A number in the field's unit; `heading` is the unit of those that have none of their own."""
    unit = read.unit or heading
    value = converted(read.value, unit, field.unit) if unit else read.value
    if value is None:
        raise BadInput(field.name, f"{read.text} {unit}", f"a number{_in(field) or ' in no unit'}")
    return WithUnit(value) if unit else float(value)


def _in(field: Field) -> str:
    return f" in {field.unit}" if field.unit else ""


def without_unit(kind: Kind, given: Mapping[str, Any]) -> str:
    """What is said of numbers whose unit nobody wrote: in which they were taken; empty where there are none."""
    fields = [one for one in kind.fields if one.unit and _is_bare(given.get(one.name))]
    said = ", ".join(f"{one.name} {one.unit}" for one in fields)
    return f"No unit was written; taken in its own: {said}." if said else ""


def _is_bare(value: Any) -> bool:
    if isinstance(value, list):
        return any(map(_is_bare, value))
    return isinstance(value, int | float) and not isinstance(value, WithUnit)
