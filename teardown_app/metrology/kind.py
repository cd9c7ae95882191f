"""What can be measured: the fields it is computed from, the values that come out, which of them is judged."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

NUMBER, NUMBERS, TABLE, CHOICE, TEXT = "number", "numbers", "table", "choice", "text"
"""Forms of a field: one number, a row of them, rows of several columns, one word of some, any text."""


class Field(NamedTuple):
    """One thing that is read or known beforehand."""

    name: str
    """As in files and on the command line: lower case, words joined by _, no unit."""
    says: str
    unit: str = ""
    form: str = NUMBER
    columns: tuple[str, ...] = ()
    """Names of the columns of a table."""
    choices: tuple[str, ...] = ()
    allowed: str = ""
    """In words: 'above 0', '10 or more weighings'."""
    default: Any = None
    """What is taken where it is left out; None: it is needed unless `optional`."""
    optional: bool = False
    unit_in: str = ""
    """Name of the field that says the unit, where several are usual."""


class Raw(NamedTuple):
    """What is read, as nobody has worked on it yet: a field, or some columns of one."""

    field: str
    columns: tuple[str, ...] = ()
    """Of a table with columns those that are read; empty: all of it."""
    own: bool = True
    """Shown by the check's instrument; else by another one (a thermometer beside, a barometer)."""


class Value(NamedTuple):
    """One result."""

    name: str
    value: float | str | None
    unit: str = ""
    says: str = ""


class Result(NamedTuple):
    """What comes out."""

    values: tuple[Value, ...]
    notes: tuple[str, ...] = ()
    """Warnings and conditions a person should know, as sentences."""
    verdict: str = ""
    """accept, reject or inconclusive, where the kind judges by a rule of its own; else empty."""

    def named(self, name: str) -> Any:
        """The value of that name."""
        return next(one.value for one in self.values if one.name == name)

    def __getitem__(self, name: Any) -> Any:
        return self.named(name)


class Kind(NamedTuple):
    """One kind of measurement."""

    name: str
    """Lower case, words joined by -."""
    says: str
    """What it is, one line."""
    standard: str
    """Formula's source: standard and clause."""
    fields: tuple[Field, ...]
    compute: Callable[..., Result]
    """Takes the fields by name; raises `BadInput`."""
    example: Mapping[str, Any]
    """A worked example: fields that `compute` takes."""
    judged: str = ""
    """Name of the value that a check's limit is held against; empty when the kind judges by itself, or not at all."""
    asks: tuple[str, ...] = ()
    """Fields that may be left out and that somebody at the bench is asked for all the same."""
    reads: tuple[Raw, ...] = ()
    """Its raw readings; their quantity and unit stand at the field."""
    least: str = ""
    """The least that proves anything; below it there is no verdict but inconclusive."""
    below_zero: str = ""
    """What a negative judged value is: a deviation, or the wrong way; empty: it has none, or any number may come."""
    demands: tuple[str, ...] = ()
    """Fields that say what is demanded, or make another demand of it: a limit, a class, a nominal size, a rule."""
