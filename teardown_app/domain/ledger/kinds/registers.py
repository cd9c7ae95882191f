"""What the shop's records say of people, places, instruments, numbers and labels, as values with names."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple, TypeVar


def _named(fields: tuple[str, ...], body: Mapping[str, Any]) -> dict[str, Any]:
    """Of a body what has these names; the last one is the body itself.

    >>> _named(("number", "reads", "body"), {"number": "M1", "body": "x", "newer": 1})
    {'number': 'M1'}
    """
    return {name: body[name] for name in fields[:-1] if name in body}


class Person(NamedTuple):
    """A person by code. `until` is the last day of the rights, empty where they have no end."""

    code: str
    rights: list[str]
    until: str = ""
    qualifications: dict[str, str] | None = None
    badge: str = ""
    revoked: bool = False
    body: Mapping[str, Any] = {}


class Instrument(NamedTuple):
    """A measuring instrument as the register has it; what nobody said is empty. Quantities are texts with their unit,
    days as `2026-03-14`."""

    number: str
    reads: str = ""
    name: str = ""
    unit: str = ""
    low: str = ""
    high: str = ""
    resolution: str = ""
    uncertainty: str = ""
    calibrated: str = ""
    due: str = ""
    out: bool = False
    body: Mapping[str, Any] = {}


class Kept(NamedTuple):
    """A place or carrier that parts are kept in; a place need not have a number."""

    name: str
    number: str = ""
    note: str = ""
    out: bool = False
    body: Mapping[str, Any] = {}


Registered = TypeVar("Registered", Person, Instrument, Kept)


def told(sort: type[Registered], body: Mapping[str, Any]) -> Registered:
    """An entry of a register as its record says it."""
    return sort(**_named(sort._fields, body), body=body)


class FoundOut(NamedTuple):
    """By how much an instrument read wrongly, and until which day it was known to be right."""

    number: str
    by: str
    last_good: str

    @classmethod
    def told(cls, body: Mapping[str, Any]) -> FoundOut:
        """As its record says it."""
        return cls(body["number"], body["by"], body["last_good"])


class Issued(NamedTuple):
    """Numbers of one letter that were issued, up to before `next`."""

    letter: str
    next: int


class Label(NamedTuple):
    """How far a label is on its way to paper, for which job, why it was queued, where it was sent."""

    word: str
    job: str
    why: str
    where: str
    body: Mapping[str, str]
